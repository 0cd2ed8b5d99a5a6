/** What the search page runs beside what every page runs. */

import { CaseSearch } from "./search-element.js";

customElements.define("case-search", CaseSearch);
