// Runs before the page is drawn whole: what was drawn of the book last is looked up at once.

import { goesBefore } from "../shared/theme.mjs";
import { lookAhead } from "./ahead.mjs";

const page = document.querySelector("script[data-ahead]")?.getAttribute("data-ahead");
goesBefore(lookAhead(page === "look-back"));
