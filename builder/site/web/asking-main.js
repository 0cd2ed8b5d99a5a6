/** What a walk loads whose readings stay closed until they are asked for. */

import { AskedWalk } from "./asked-walk.js";
import { shelve } from "./parts.js";

shelve("asking", { AskedWalk });
