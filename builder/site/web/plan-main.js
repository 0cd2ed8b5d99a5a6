/** What My record loads to show the plan: puts it where `parts.js` finds it. */

import { shelve } from "./parts.js";
import { planner } from "./record-plan.js";

shelve("planner", planner);
