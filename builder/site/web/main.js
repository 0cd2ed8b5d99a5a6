/** What every page runs. */

import { CaseFilter } from "./filter-element.js";
import { CaseForget } from "./forget-element.js";
import { CaseQuiz } from "./quiz-element.js";
import { CaseSearch } from "./search-element.js";
import { CaseWalk } from "./walk-element.js";

customElements.define("case-walk", CaseWalk);
customElements.define("case-quiz", CaseQuiz);
customElements.define("case-forget", CaseForget);
customElements.define("case-filter", CaseFilter);
customElements.define("case-search", CaseSearch);
