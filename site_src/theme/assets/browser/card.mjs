// A printed card of one sheet: everything else on the page stays off the paper.

export function printCard(section) {
  const working = section.querySelector("details.working");
  const wasOpen = working?.open;
  const done = () => {
    if (working) working.open = wasOpen;
    document.body.classList.remove("prints-card");
    section.classList.remove("card-to-print");
    removeEventListener("afterprint", done);
  };
  document.body.classList.add("prints-card");
  section.classList.add("card-to-print");
  if (working) working.open = true;
  addEventListener("afterprint", done);
  print();
}
