/** What the page of the learner's record runs beside what every page runs. */

import { CaseRecord } from "./record-element.js";

customElements.define("case-record", CaseRecord);
