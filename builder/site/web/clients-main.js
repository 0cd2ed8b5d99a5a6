/** What the list of clients runs beside what every page runs. */

import { CaseFilter } from "./filter-element.js";

customElements.define("case-filter", CaseFilter);
