/** What a quiz loads while it is answered: how its result is told. */

import { shelve } from "./parts.js";
import { closedRow, result } from "./quiz-result.js";

shelve("result", { closedRow, result });
