/** What a quiz loads beside its questions once others than those on its page are drawn. */

import { draw } from "./draw.js";
import { shelve } from "./parts.js";

shelve("draw", draw);
