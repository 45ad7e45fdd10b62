// Runs before the page is drawn whole: what was drawn of the book last is looked up at once.

import { lookAhead } from "./views.mjs";

lookAhead();
