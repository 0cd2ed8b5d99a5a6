/** Which clients of a list fit what a learner chose. Pure: knows no page. */

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {"held" | "open" | undefined} Standing of a client: every walk tried held when last walked; one did not; none tried */

/**
 * Client to how the learner's last walks with them went.
 * @param {Attempt[]} attempts in the order of time
 * @returns {Map<string, Standing>}
 */
export function standings(attempts) {
  const last = new Map(attempts.filter(({ kind }) => kind === "walk").map(({ id, held }) => [id, held]));
  /** @type {Map<string, Standing>} */
  const found = new Map();
  for (const [id, held] of last) {
    const client = id.slice(id.lastIndexOf("/") + 1);
    found.set(client, held && found.get(client) !== "open" ? "held" : "open");
  }
  return found;
}

/**
 * @param {Standing} standing
 * @param {string} mine `untried`, `tried`, `held` or `open`; anything else lets everyone pass
 */
export function fits(standing, mine) {
  if (mine === "untried") return !standing;
  if (mine === "tried") return !!standing;
  return (mine !== "held" && mine !== "open") || standing === mine;
}
