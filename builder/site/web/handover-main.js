/** What My record loads once a copy is to be saved, seen or taken in: puts it where `parts.js` finds it. */

import { csv } from "./csv.js";
import { fileOf, preview } from "./record-owner.js";
import { take } from "./record-take.js";
import { shelve } from "./parts.js";

shelve("handover", { csv, fileOf, preview, take });
