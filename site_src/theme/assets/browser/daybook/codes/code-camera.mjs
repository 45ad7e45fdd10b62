// The camera, and what is found in its pictures. Only this page may ask for it.

import { saidBy } from "../../shared/fault.mjs";

const MOST_PIXELS = 960; // of the longer side: enough for a code that fills half of the picture
const SIZES = [1, 0.8, 1.25, 0.9]; // a code that is not found at one size is found at another
const PAUSE_MS = 30;
const WANTED = "camera-wanted";

/** @type {Record<string, string>} */
const WORDS = {
  NotAllowedError: "This page was not allowed to use the camera. Allow it in the browser’s settings for this site and press again, or take a file.",
  NotFoundError: "This device has no camera that the browser can use. Take a file, or type the short code.",
  NotReadableError: "The camera is in use elsewhere. Close what uses it and press again, or take a file.",
};

/** Why there can be no camera here, or nothing. */
export function noCamera() {
  if (!self.isSecureContext) return "A camera needs an address that begins with https://, and this one does not. Take a file, or type the short code.";
  return navigator.mediaDevices ? "" : "This browser has no camera for pages. Take a file, or type the short code.";
}

/** Whether the camera was asked for before the page was loaded again; once. */
export function wasWanted() {
  try {
    const wanted = sessionStorage.getItem(WANTED) === location.pathname;
    sessionStorage.removeItem(WANTED);
    return wanted;
  } catch {
    return false;
  }
}

/**
 * The page may have come without being loaded, by a link from one that may not use the camera: then it is loaded now.
 * True when it is.
 */
export function loadedForIt() {
  const { featurePolicy } = /** @type {{ featurePolicy?: { allowsFeature(name: string): boolean } }} */ (/** @type {unknown} */ (document));
  const [began] = performance.getEntriesByType("navigation");
  const here = `${location.origin}${location.pathname}`;
  if (!featurePolicy || featurePolicy.allowsFeature("camera") || !began || began.name.split(/[?#]/)[0] === here) return false;
  try {
    sessionStorage.setItem(WANTED, location.pathname);
  } catch {
    return false;
  }
  location.reload();
  return true;
}

export class Camera {
  /** @type {MediaStream | null} */
  stream = null;
  /** @type {Worker | null} */
  worker = null;
  looks = 0;
  canvas = document.createElement("canvas");

  /**
   * @param {HTMLVideoElement} video
   * @param {(text: string) => void} found called with the text of each code, again while it stays in view
   * @param {(words: string) => void} failed
   */
  constructor(video, found, failed) {
    this.video = video;
    this.found = found;
    this.failed = failed;
  }

  async start() {
    this.stop();
    try {
      this.stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment", width: { ideal: 1280 }, height: { ideal: 720 } }, audio: false });
      this.video.srcObject = this.stream;
      await this.video.play();
    } catch (fault) {
      this.stop();
      this.failed(WORDS[fault instanceof DOMException ? fault.name : ""] ?? `The camera could not be started (${saidBy(fault)}). Take a file, or type the short code.`);
      return false;
    }
    this.worker = new Worker(new URL("./code-reader.mjs", import.meta.url), { type: "module", name: "codes" });
    this.worker.onmessage = ({ data }) => this.answered(data);
    this.worker.onerror = (event) => {
      event.preventDefault();
      this.broke(event.message || "its file did not come");
    };
    this.look();
    return true;
  }

  /** @param {string} why */
  broke(why) {
    this.stop();
    this.failed(`What reads the codes could not be started (${why}). Load this page again, or take a file.`);
  }

  /** @param {{ text?: string, fault?: string }} reply */
  answered({ text, fault }) {
    if (fault) return this.broke(fault);
    if (text) this.found(text);
    setTimeout(() => this.look(), PAUSE_MS);
  }

  look() {
    const { worker, video, canvas } = this;
    if (!worker) return;
    const { videoWidth: width, videoHeight: height } = video;
    if (!width || video.paused) return void setTimeout(() => this.look(), PAUSE_MS * 4);
    const scale = SIZES[(this.looks += 1) % SIZES.length] * Math.min(1, MOST_PIXELS / Math.max(width, height));
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    const drawn = canvas.getContext("2d", { willReadFrequently: true });
    if (!drawn) return this.broke("this browser draws no pictures");
    drawn.drawImage(video, 0, 0, canvas.width, canvas.height);
    const picture = drawn.getImageData(0, 0, canvas.width, canvas.height);
    worker.postMessage({ width: picture.width, height: picture.height, data: picture.data }, [picture.data.buffer]);
  }

  stop() {
    this.worker?.terminate();
    this.worker = null;
    for (const track of this.stream?.getTracks() ?? []) track.stop();
    this.stream = null;
    this.video.srcObject = null;
  }
}
