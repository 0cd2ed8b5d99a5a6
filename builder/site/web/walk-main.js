/** What pages with a walk run beside what every page runs. */

import { CaseWalk } from "./walk-element.js";

customElements.define("case-walk", CaseWalk);
