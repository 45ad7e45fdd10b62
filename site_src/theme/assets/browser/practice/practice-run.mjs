// A learner's run: a scene, a tap, the next scene. Each tap is kept on the device before it is answered.

import * as edition from "../edition/edition.mjs";
import * as engine from "../engine/engine.mjs";
import { tellStep } from "../engine/told.mjs";
import { inAddress, leaveAddress } from "./practice-address.mjs";
import { askPractice, needs } from "./practice-ask.mjs";
import { giveCode, giveLink, giveRunFile } from "./practice-give.mjs";
import { begun, drawOthers, drawReturned } from "./practice-others.mjs";
import * as kept from "./practice-kept.mjs";
import * as group from "./practice-group.mjs";
import { letter, moveOf } from "./practice-moves.mjs";
import { around, element, found, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { localMinute } from "../shared/moment.mjs";
import { printAs } from "../shared/printing.mjs";

/** @typedef {import("./practice-kept.mjs").Run} Run */
/** @typedef {import("./practice-ask.mjs").Reply} Reply */

const EARLY = "One moment: the last tap is still being worked out. Then tap again.";

export class PracticeRun {
  needs = needs();
  carriedAs = "practice";
  /** @type {Run | null} */
  run = null;
  busy = false;
  wentOn = false; // in another tab, which is to be said
  pressedEarly = false; // while the last tap was worked out
  newest = 0; // question: its answer is drawn, no older one’s
  paused = false;
  revealed = false; // the debrief before the end
  looked = false; // at the debrief of a run that ended for good
  drawn = false;
  /** @type {Record<string, string> | undefined} */
  carried;
  /** @type {HTMLDialogElement | null} */
  projector = null;

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.places = Object.fromEntries(parts(section, "[data-place]").map((one) => [one.dataset.place ?? "", one]));
    this.stage = this.place("stage");
    this.stage.addEventListener("click", (event) => this.pressed(event));
    section.addEventListener("click", (event) => this.pressed(event));
    this.form("votes").addEventListener("submit", (event) => group.voted(this, event));
    this.form("begin").addEventListener("submit", (event) => this.asked(event));
    this.form("sentence").addEventListener("submit", (event) => this.wroteSentence(event));
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    for (const one of parts(this.place("scene"), "button[data-move]")) one.removeAttribute("disabled"); // until here no tap was heard
    this.tell("note", "");
    this.begin();
  }

  /** @param {string} name */
  place(name) {
    return this.places[name] ?? part(this.section, `[data-place="${name}"]`);
  }

  /** @param {string} name */
  form(name) {
    return /** @type {HTMLFormElement} */ (this.place(name));
  }

  close() {
    this.leaveEngine();
    engine.forget(this);
    this.projector?.close();
  }

  // A link brings its run beside those that are here; else the one that was left goes on.
  begin() {
    const linked = inAddress();
    const mine = kept.current();
    if (linked) leaveAddress();
    if (typeof linked === "string") this.tell("wrong", linked);
    drawReturned(this.place("returned"));
    if (linked && typeof linked !== "string") this.take(linked);
    else if (mine) this.take(mine);
    else this.others().open = true;
    if (typeof linked === "string") this.others().open = true;
    if (!this.run) this.drawRuns();
    if (!this.run) this.tell("note", kept.said());
    this.takeUp();
  }

  others() {
    return found(this.section, '[data-place="other-runs"]', HTMLDetailsElement);
  }

  drawRuns() {
    drawOthers(this.place("runs"), this.run, {
      take: (run) => this.take(run),
      gone: () => this.drawRuns(),
    });
  }

  /** What was typed goes over a reload; the run itself is on the device. @returns {edition.Typed | null} */
  typed() {
    const words = [];
    for (const one of document.querySelectorAll(".practice input, .practice-projector input")) if (one instanceof HTMLInputElement && one.id && one.value.trim()) words.push([one.id, one.value]);
    return words.length ? { words: Object.fromEntries(words) } : null;
  }

  takeUp() {
    const carried = /** @type {edition.Typed | null} */ (edition.carriedFor(this.carriedAs));
    if (!carried) return;
    this.carried = /** @type {Record<string, string>} */ ({ ...carried.words });
    this.putBack();
  }

  // A box of the scene is there once the scene is: what finds its box goes back, the rest is said.
  putBack() {
    if (!this.carried) return;
    for (const [id, typed] of Object.entries(this.carried)) {
      const box = document.getElementById(id);
      if (!(box instanceof HTMLInputElement)) continue;
      box.value = typed;
      delete this.carried[id];
    }
    edition.placed(this.carriedAs, this.run && !this.drawn ? [] : Object.values(this.carried));
  }

  /** @param {string} place @param {string} words */
  tell(place, words) {
    this.place(place).textContent = words;
  }

  /** @param {engine.State} state */
  follow(state) {
    if (!this.busy) return;
    if (state.phase === "starting") tellStep(this.place("note"), state, this.pressedEarly ? EARLY : "");
    if (state.phase === "failed") this.tell("note", "The calculator could not start here. Your run is kept on this device as it is: load the page again.");
  }

  /** Goes on with a run, whatever is being worked out of another. @param {Run} wanted */
  take(wanted) {
    const run = kept.find(wanted.id) ?? wanted; // it may have gone on in another tab
    this.busy = false;
    this.run = run;
    this.drawn = false;
    this.revealed = false;
    this.looked = false;
    kept.put(run);
    this.others().open = false;
    this.place("tools").hidden = false;
    this.tell("wrong", "");
    this.tell("kept", "");
    this.place("debrief").replaceChildren();
    this.form("sentence").hidden = true;
    const before = run.say ? "You left it here:" : "One moment: the scene is being worked out.";
    this.place("scene").replaceChildren(element("p", this.section.dataset.model, { class: "practice-model" }), element("p", before, { class: "practice-clock" }), element("p", run.say, { class: "practice-see" }));
    this.drawRuns();
    this.play(run.moves);
  }

  /**
   * @param {string} moves
   * @param {boolean} [tapped]
   */
  async play(moves, tapped = false) {
    const run = this.run;
    if (!run || this.busy) return;
    this.busy = true;
    this.pressedEarly = false;
    const mine = ++this.newest;
    this.stage.setAttribute("aria-busy", "true");
    const before = run.moves;
    run.moves = moves;
    kept.put(run); // before it is answered: the page may be closed now
    const began = performance.now();
    try {
      const partner = run.partner ? kept.find(run.partner) : null;
      const reply = await askPractice(this, { number: run.number, level: run.level, faults: run.faults, setting: run.setting, moves, debrief: this.revealed, other: partner?.number === run.number ? partner.moves : "" });
      if (mine !== this.newest) return; // another run was taken up meanwhile
      this.busy = false;
      if (this.isBehind(moves)) return;
      this.draw(run, reply, tapped);
      performance.measure?.("practice-scene", { start: began, end: performance.now() });
    } catch (fault) {
      if (mine !== this.newest) return;
      this.busy = false;
      if (this.isBehind(moves)) return;
      if (tapped) run.moves = before;
      kept.put(run);
      this.tell("note", `That did not work: ${saidBy(fault)} Your run is kept up to here. Tap again, or load the page again.`);
    } finally {
      if (mine === this.newest) this.stage.removeAttribute("aria-busy");
    }
  }

  /**
   * @param {Run} run
   * @param {Reply} reply
   * @param {boolean} tapped
   */
  draw(run, reply, tapped) {
    if (run !== this.run) return;
    this.drawn = true;
    Object.assign(run, { moves: reply.moves, setting: reply.setting, ended: reply.ended, title: reply.title, say: reply.say, at: localMinute() });
    kept.put(run);
    const scene = this.place("scene");
    const hadFocus = tapped && (scene.contains(document.activeElement) || document.activeElement === document.body || document.activeElement === scene);
    scene.innerHTML = reply.places.scene;
    this.place("book").innerHTML = reply.places.book;
    this.place("debrief").innerHTML = reply.places.debrief;
    if (reply.places.debrief) this.place("debrief").prepend(element("h2", "Debrief"));
    this.stage.dataset.ended = reply.ended;
    this.place("debrief").dataset.ended = reply.ended;
    for (const one of parts(this.section, "[data-drawing]")) one.hidden = one.dataset.drawing !== reply.drawing;
    if (this.projector) letter(scene);
    this.tell("say", reply.say);
    this.tell("note", this.noteOf(reply, tapped));
    this.showEnd(reply);
    for (const name of ["reveal", "bring"]) part(this.place("tools"), `[data-action=${name}]`).hidden = Boolean(reply.ended) || !this.projector;
    this.place("which").hidden = Boolean(reply.ended) || !this.projector;
    this.showHandOver(run, reply, tapped);
    group.showTeam(this);
    this.drawRuns();
    this.putBack();
    if (hadFocus) scene.focus({ preventScroll: true });
    if (tapped) scene.scrollIntoView({ block: "nearest" });
  }

  // On level 5 another learner goes on in the morning: with the book, and nothing else.
  /** @param {Run} run @param {Reply} reply @param {boolean} tapped */
  showHandOver(run, reply, tapped) {
    const two = run.level === "5" && !reply.ended;
    part(this.place("tools"), "[data-action=code]").hidden = !two;
    this.place("handed").replaceChildren();
    if (two && tapped && /(^|-)ho[^-]*$/.test(run.moves)) giveCode(run, this.place("handed"));
  }

  // After what must never happen the screen stands still: its debrief comes only when it is asked for.
  /** @param {Reply} reply */
  showEnd(reply) {
    const still = reply.ended === "never" && !this.looked;
    this.place("debrief").hidden = still;
    this.place("after").hidden = !reply.ended;
    part(this.place("after"), "[data-action=debrief]").hidden = !still;
    this.form("sentence").hidden = still || !reply.places.debrief;
  }

  showDebrief() {
    this.looked = true;
    this.place("debrief").hidden = false;
    this.form("sentence").hidden = false;
    part(this.place("after"), "[data-action=debrief]").hidden = true;
    this.place("debrief").focus();
  }

  /** @param {Reply} reply @param {boolean} tapped */
  noteOf(reply, tapped) {
    const lines = [];
    if (this.wentOn) lines.push("This run has gone on in another tab. It stands here as it is now: look at it, then tap again.");
    this.wentOn = false;
    if (!tapped && kept.said()) lines.push(kept.said());
    if (!kept.isKept()) lines.push("This browser keeps nothing for this site: take a link or a file with you before you leave.");
    if (reply.left_out.length) lines.push(tapped ? "That cannot be done now." : `Left out, since this handbook cannot play it: ${reply.left_out.slice(0, 5).join(", ")}.`);
    return lines.join(" ");
  }

  /** @param {Event} event */
  pressed(event) {
    const one = around(event.target, "button");
    if (!one || event.defaultPrevented) return;
    const { move, moves, action } = one.dataset;
    if (move === undefined && moves === undefined && !action) return;
    event.stopPropagation();
    if (move !== undefined) this.tapped(one);
    else if (moves !== undefined) this.goBack(moves);
    else if (action) this.act(action);
  }

  /** @param {HTMLElement} one */
  tapped(one) {
    if (!this.run && !this.place("scene").contains(one)) return;
    if (this.paused) return this.tell("note", "It is paused. Press Go on first.");
    if (this.busy) return this.early();
    if (this.isBehind()) return;
    if (!this.run) this.run = this.first();
    const asked = moveOf(this.place("scene"), one);
    for (const box of parts(this.place("scene"), "[aria-invalid]")) box.removeAttribute("aria-invalid");
    for (const said of parts(this.place("scene"), ".practice-wrong")) said.remove();
    if ("wrong" in asked) {
      this.tell("note", asked.wrong);
      asked.box?.setAttribute("aria-invalid", "true");
      asked.box?.closest(".practice-offer")?.prepend(element("p", asked.wrong, { class: "practice-wrong", "aria-hidden": "true" })); // the note below says it aloud
      asked.box?.focus();
      return;
    }
    this.place("tools").hidden = false;
    this.others().open = false;
    this.play([this.run.moves, asked.move].filter(Boolean).join("-"), true);
  }

  /**
   * Whether the run has gone on in another tab; then it is taken up as it stands there, and nothing is done to it.
   * @param {string} [moves] that this tab has left it with
   */
  isBehind(moves = this.run?.moves) {
    const there = this.run && kept.find(this.run.id);
    if (!there || there.moves === moves) return false;
    this.take(there);
    this.wentOn = true;
    return true;
  }

  early() {
    this.pressedEarly = true;
    this.tell("note", EARLY);
  }

  // The scene that the page was built with can be played at once.
  first() {
    return /** @type {Run} */ (kept.runFrom({ number: this.section.dataset.firstNumber, level: this.section.dataset.firstLevel }));
  }

  /** The run as it was stays; the same barley goes on from there. @param {string} moves */
  goBack(moves) {
    if (!this.run) return;
    const { number, level, faults, setting, id } = this.run;
    const again = kept.runFrom({ number, level, faults, setting, moves, partner: id });
    if (!again) return;
    this.take(again);
    this.place("scene").focus();
    this.place("scene").scrollIntoView({ block: "start" });
  }

  /** @param {string} action */
  act(action) {
    if (action === "projector") group.project(this);
    else if (action === "teams") group.otherTeam(this);
    else if (action === "pause") group.pause(this);
    else if (action === "reveal") this.reveal();
    else if (action === "bring") group.bringOne(this);
    else if (action === "debrief") this.showDebrief();
    else if (action === "again") this.goBack("");
    else if (action === "print") printAs("prints-practice");
    else if (action === "code") giveCode(this.run, this.place("handed"));
    else if (action === "link") giveLink(this.run, this.place("kept"));
    else if (action === "file") giveRunFile(this.run, this.place("kept"));
  }

  reveal() {
    if (!this.run) return;
    if (this.busy) return this.early();
    if (this.isBehind()) return;
    this.revealed = true;
    this.play(this.run.moves).then(() => this.place("debrief").scrollIntoView({ block: "start" }));
  }

  /** @param {Event} event */
  asked(event) {
    event.preventDefault();
    const run = begun(this.form("begin"));
    if (typeof run === "string") return this.tell("wrong", run);
    this.take(run);
    this.place("scene").focus();
    this.place("scene").scrollIntoView({ block: "start" });
  }

  /** @param {Event} event */
  wroteSentence(event) {
    event.preventDefault();
    const box = found(this.form("sentence"), "input", HTMLInputElement);
    const words = box.value.trim();
    if (!words) return this.tell("note", "Write one sentence: what you will do next time.");
    kept.putSentence(words);
    box.value = "";
    this.form("sentence").append(element("p", `Kept: “${words}” It comes back here in a week.`, { class: "practice-note", role: "status" }));
  }
}
