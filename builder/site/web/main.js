/** What every page runs. */

import { CaseForget } from "./forget-element.js";
import { CaseSearch } from "./search-element.js";

customElements.define("case-forget", CaseForget);
customElements.define("case-search", CaseSearch);
