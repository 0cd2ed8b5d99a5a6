/** What every page runs. */

import { CaseForget } from "./forget-element.js";

customElements.define("case-forget", CaseForget);
