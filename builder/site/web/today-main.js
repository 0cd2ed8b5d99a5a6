/** What the home page runs beside what every page runs. */

import { CaseToday } from "./today-element.js";

customElements.define("case-today", CaseToday);
