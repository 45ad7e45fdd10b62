// Elements made, and elements found that have to be there.

/**
 * An element with its words and its attributes.
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {string} [text]
 * @param {Record<string, string>} [values] attributes
 * @returns {HTMLElementTagNameMap[Tag]}
 */
export function element(tag, text = "", values = {}) {
  const made = document.createElement(tag);
  made.textContent = text;
  for (const [name, value] of Object.entries(values)) made.setAttribute(name, value);
  return made;
}

/**
 * A button that says what it does.
 * @param {string} text
 * @param {Record<string, string>} [values] attributes
 */
export const button = (text, values = {}) => element("button", text, { type: "button", ...values });

/**
 * The one element of a kind that has to be there; the page was built with it.
 * @template {Element} Kind
 * @param {ParentNode} within
 * @param {string} selector
 * @param {new () => Kind} kind
 * @returns {Kind}
 */
export function found(within, selector, kind) {
  const one = within.querySelector(selector);
  if (one instanceof kind) return one;
  throw new Error(`the page has no ${selector}`);
}

/**
 * The same for what is an element of HTML and nothing more.
 * @param {ParentNode} within
 * @param {string} selector
 */
export const part = (within, selector) => found(within, selector, HTMLElement);

/**
 * All elements of HTML that a selector finds.
 * @param {ParentNode} within
 * @param {string} selector
 * @returns {HTMLElement[]}
 */
export const parts = (within, selector) => [...within.querySelectorAll(selector)].filter((one) => one instanceof HTMLElement);

/**
 * The element around what an event happened to, or null; events also come from the document and the window.
 * @param {EventTarget | null} target
 * @param {string} selector
 * @returns {HTMLElement | null}
 */
export function around(target, selector) {
  const one = target instanceof Element ? target.closest(selector) : null;
  return one instanceof HTMLElement ? one : null;
}
