/** What the pages of clients and cautions run so that one can write a note. */

import { CaseNote } from "./note-element.js";

customElements.define("case-note", CaseNote);
