// Looks for a code in pictures of the camera, beside the page.

import { saidBy } from "../../shared/fault.mjs";

const scope = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const PATIENCE_MS = 60; // for the harder ways of finding one; the next picture may be a better one
const LIBRARY = new URL("../../../qr/decode.js", import.meta.url).href;
const coming = import(LIBRARY);

scope.addEventListener("message", async (/** @type {MessageEvent<ImageData>} */ { data: { width, height, data } }) => {
  let decode;
  try {
    decode = (await coming).decodeQR;
  } catch (fault) {
    return scope.postMessage({ fault: saidBy(fault) });
  }
  let text = "";
  try {
    text = decode({ width, height, data }, { timeLimit: PATIENCE_MS });
  } catch {
    // none in this picture
  }
  scope.postMessage({ text });
});
