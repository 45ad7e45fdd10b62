// What the theme puts on the page for scripts.

interface Window {
  /** tells of each page that instant navigation has brought */
  document$?: { subscribe(listener: () => void): void };
}
