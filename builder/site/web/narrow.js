/**
 * Which clients of a list fit what a learner chose. Pure: knows no page.
 *
 * A walk is begun from its first answer until its end is seen or it is started again. It counts for nothing else: the
 * client is tried, held or open only by walks that ended, but is no longer untried. So a client may be held or open and
 * begun, and one whose only walk is begun is begun alone.
 */

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {"held" | "open" | undefined} Standing of a client: every walk tried held when last walked; one did not; none tried */

/**
 * Client to how the learner's last walks with them went.
 * @param {Attempt[]} attempts in the order of time
 * @returns {Map<string, Standing>}
 */
export function standings(attempts) {
  const last = new Map(attempts.filter(({ kind }) => kind === "walk").map(({ id, passed }) => [id, passed]));
  /** @type {Map<string, Standing>} */
  const found = new Map();
  for (const [id, passed] of last) {
    const client = clientOf(id);
    found.set(client, passed && found.get(client) !== "open" ? "held" : "open");
  }
  return found;
}

/** @param {string} id a walk's, which ends with `/` and the client */
export const clientOf = (id) => id.slice(id.lastIndexOf("/") + 1);

/**
 * @param {Standing} standing
 * @param {boolean} begun
 * @param {string} mine `untried`, `begun`, `tried`, `held` or `open`; anything else lets everyone pass
 */
export function fits(standing, begun, mine) {
  if (mine === "untried") return !standing && !begun;
  if (mine === "begun") return begun;
  if (mine === "tried") return !!standing;
  return (mine !== "held" && mine !== "open") || standing === mine;
}
