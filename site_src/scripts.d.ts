// What the theme puts on the page for scripts.

interface Window {
  /** tells of each page that instant navigation has brought */
  document$?: { subscribe(listener: () => void): void };
  /** keeps a value of this site on the device, and reads it back */
  __md_set?(name: string, value: unknown): void;
  __md_get?(name: string): unknown;
}
