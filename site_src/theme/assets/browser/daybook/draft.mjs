// The line being typed, and who writes, kept on this device until it is written. Never a gas reading.

import { siteRoot } from "../shared/root.mjs";

const key = (name) => `${siteRoot.pathname}day-book-${name}`;

export function recall(name) {
  try {
    return JSON.parse(localStorage.getItem(key(name)));
  } catch {
    return null;
  }
}

export function keep(name, value) {
  try {
    if (value === null) localStorage.removeItem(key(name));
    else localStorage.setItem(key(name), JSON.stringify(value));
  } catch {
    // nothing kept
  }
}

const NEVER = ["gas"];
const draftOf = (which) => `draft-${which}`;

export function keepDraft(which, draft) {
  if (draft && NEVER.includes(draft.kind)) return;
  keep(draftOf(which), draft);
}

// {batch, kind, values, remark, replaces} or null; anything else is dropped.
export function recallDraft(which) {
  const draft = recall(draftOf(which));
  const whole = draft && typeof draft.batch === "string" && typeof draft.kind === "string" && draft.values && typeof draft.values === "object";
  return whole ? draft : null;
}
