/** Readings that wait for a decision: what is looked at after one that can end the visit would tell how it came out. */

import { make } from "./dom.js";

/**
 * Opens what no longer waits, and says of the rest what it waits for.
 * @param {ParentNode} root
 * @param {Set<string | null>} asked the tables that are decided here
 * @param {Set<string | null>} decided those that the learner has decided
 */
export function unfold(root, asked, decided) {
  // What stands behind one that waits, waits too: else it would tell who never comes there.
  let waiting = false;
  for (const folded of root.querySelectorAll(/** @type {"details"} */ ("[data-after]"))) {
    const after = folded.dataset.after ?? null;
    /** @type {boolean} */
    const waits = waiting || (asked.has(after) && !decided.has(after));
    waiting = waits;
    let note = /** @type {HTMLElement | null} */ (folded.previousElementSibling);
    if (!note?.matches(".waits")) {
      note = make("p", { class: "waits soft" }, folded.querySelector("summary")?.textContent ?? "");
      folded.before(note);
    }
    note.hidden = !waits;
    folded.hidden = waits;
    folded.open = !waits;
  }
}
