/** What the home page runs so that a learner can keep the course. */

import { CaseKeep } from "./keep-element.js";

customElements.define("case-keep", CaseKeep);
