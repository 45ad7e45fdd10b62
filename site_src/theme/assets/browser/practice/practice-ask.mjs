// Moves in, HTML out: one question to Python about a run.

import * as engine from "../engine/engine.mjs";
import { relativeRoot } from "../shared/root.mjs";

/**
 * @typedef {{ moves: string, ended: string, say: string, drawing: string, left_out: string[], title: string, setting: string, code?: string, places: { scene: string, book: string, debrief: string, key?: string } }} Reply
 */

const SECONDS = 60; // with a debrief the good hand plays the whole batch first

/** The packages that the pages say they need. */
export const needs = () => (document.querySelector("[data-practice]")?.getAttribute("data-needs") ?? "").split(" ").filter(Boolean);

/**
 * @param {object} key of each, only the newest question waits
 * @param {Record<string, unknown>} practice
 * @returns {Promise<Reply>}
 */
export const askPractice = (key, practice) =>
  new Promise((done, failed) => {
    const began = performance.now();
    engine.ask(key, {
      needs: needs(),
      seconds: SECONDS,
      body: () => ({ practice, root: relativeRoot() }),
      onReply: (reply) => {
        performance.measure?.("practice-asked", { start: began, end: performance.now() });
        done(reply);
      },
      onTrouble: (kind, text) => failed(new Error(kind === "stopped" ? "It was stopped." : text)),
    });
  });
