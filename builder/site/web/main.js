/** What every page runs. */

import { CaseFilter } from "./filter-element.js";
import { CaseForget } from "./forget-element.js";
import { CaseSearch } from "./search-element.js";

customElements.define("case-forget", CaseForget);
customElements.define("case-filter", CaseFilter);
customElements.define("case-search", CaseSearch);
