/** What pages with a quiz run beside what every page runs. */

import { CaseQuiz } from "./quiz-element.js";

customElements.define("case-quiz", CaseQuiz);
