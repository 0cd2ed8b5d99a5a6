/** What every page runs. */

import { CaseForget } from "./forget-element.js";
import { CaseQuiz } from "./quiz-element.js";
import { CaseWalk } from "./walk-element.js";

customElements.define("case-walk", CaseWalk);
customElements.define("case-quiz", CaseQuiz);
customElements.define("case-forget", CaseForget);
