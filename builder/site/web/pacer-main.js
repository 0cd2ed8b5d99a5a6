/** What a drill's page runs beside what every page runs. */

import { BreathPacer } from "./pacer-element.js";

customElements.define("breath-pacer", BreathPacer);
