/**
 * Prints the page with a class on its body that says what of it goes on paper, and puts everything back.
 * @param {string} style the class, or ""
 * @param {() => void} [done]
 */
export function printAs(style, done = () => {}) {
  const after = () => {
    if (style) document.body.classList.remove(style);
    done();
  };
  if (style) document.body.classList.add(style);
  addEventListener("afterprint", after, { once: true });
  print();
}
