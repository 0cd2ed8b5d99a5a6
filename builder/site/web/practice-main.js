/** What pages with a walk or a quiz run beside what every page runs. */

import { CaseQuiz } from "./quiz-element.js";
import { CaseWalk } from "./walk-element.js";

customElements.define("case-walk", CaseWalk);
customElements.define("case-quiz", CaseQuiz);
