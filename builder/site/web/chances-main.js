/** What My record loads once a chance is to be shown: puts it where `parts.js` finds it. */

import { readiness } from "./readiness.js";
import { shelve } from "./parts.js";

shelve("chances", readiness);
