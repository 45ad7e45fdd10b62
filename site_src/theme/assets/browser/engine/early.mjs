// Runs before the page is drawn. Who follows a link with numbers, or comes back to a sheet that was filled in here, waits
// for an answer: the engine starts at once, not when the page is idle.

import * as engine from "./engine.mjs";
import * as memory from "../sheet/memory.mjs";

const linked = new URLSearchParams(location.search).get("sheet");
if (linked !== null || memory.holds(location.pathname)) engine.start([], linked || memory.sheetOf(location.pathname));
