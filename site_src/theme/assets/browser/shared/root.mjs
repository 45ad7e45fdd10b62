// Where the site begins, as an address that is relative to the page in view.

export const siteRoot = new URL("../../../", import.meta.url);

export function relativeRoot() {
  const below = location.pathname.slice(siteRoot.pathname.length);
  return "../".repeat(below.split("/").length - 1) || "./";
}
