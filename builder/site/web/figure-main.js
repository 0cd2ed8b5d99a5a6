/** What pages with a body that breathes run. */

import { CaseFigure } from "./figure-element.js";

customElements.define("case-figure", CaseFigure);
