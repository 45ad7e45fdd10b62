// What was typed last, kept on this device only. A private window or a full disk may refuse: then nothing is kept.

const site = new URL("../../../", import.meta.url).pathname;
const key = (section) => `${site}sheet:${section.id}`;
const allowed = (section) => section.dataset.guarded !== "yes";

export function save(section, values, example) {
  if (!allowed(section)) return;
  try {
    localStorage.setItem(key(section), JSON.stringify({ values, example, at: Date.now() }));
  } catch {
    // nothing kept
  }
}

export function forget(section) {
  try {
    localStorage.removeItem(key(section));
  } catch {
    // nothing kept
  }
}

// Whether the sheet that an address is named after has something kept. No form need be there yet.
export function holds(pathname) {
  try {
    return localStorage.getItem(`${site}sheet:${pathname.split("/").at(-2)}`) !== null;
  } catch {
    return false;
  }
}

// {values, example, at} or null; anything that does not look like that is dropped.
export function recall(section) {
  if (!allowed(section)) return null;
  try {
    const kept = JSON.parse(localStorage.getItem(key(section)));
    const at = new Date(kept?.at);
    if (!kept?.values || typeof kept.values !== "object" || !Array.isArray(kept.example) || Number.isNaN(at.getTime())) return null;
    return { values: kept.values, example: kept.example, at };
  } catch {
    return null;
  }
}
