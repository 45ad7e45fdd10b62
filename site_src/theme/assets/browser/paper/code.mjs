// The code of a link, for paper. Python draws it; its library is loaded when something is printed for the first time.

import * as engine from "../engine/engine.mjs";

import { element } from "../shared/element.mjs";

const PATIENCE_MS = 6000; // then the paper is printed without it

/**
 * Puts the code of a link into `place`, or the link as text when no code comes in time.
 * @param {HTMLElement} place
 * @param {string} link
 * @returns {Promise<void>}
 */
export function drawCode(place, link) {
  return new Promise((done) => {
    const key = {};
    const finish = () => {
      clearTimeout(timer);
      engine.forget(key);
      done();
    };
    const asText = () => {
      place.replaceChildren(element("p", link, { class: "code-link" }));
      finish();
    };
    const timer = setTimeout(asText, PATIENCE_MS);
    engine.ask(key, {
      needs: ["qrcodegen"],
      body: () => ({ code: link }),
      onReply: (reply) => {
        place.innerHTML = reply.code;
        finish();
      },
      onTrouble: asText,
    });
  });
}
