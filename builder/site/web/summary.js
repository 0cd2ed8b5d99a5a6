/** What a record amounts to. Pure: knows no page. */

/** @typedef {import("./record.js").Attempt} Attempt */
/** @typedef {{first: [number, number], last: [number, number]}} Held [held, answered] at first and at last attempts */

/** @param {Attempt} attempt */
export const heldIn = (attempt) => attempt.held ?? attempt.mark === 1;

/** @param {Attempt} attempt */
const thing = (attempt) => `${attempt.kind} ${attempt.id}`;

/**
 * The last attempt at each thing, in the order of these attempts.
 * @param {Attempt[]} attempts by time
 * @returns {Attempt[]}
 */
export function latest(attempts) {
  const last = new Map(attempts.map((attempt) => [thing(attempt), attempt]));
  return attempts.filter((attempt) => last.get(thing(attempt)) === attempt);
}

/**
 * How much held, by objective: questions and steps of walks.
 * @param {Attempt[]} attempts by time
 * @param {(attempt: Attempt) => boolean} [counts]
 * @returns {Map<string, Held>}
 */
export function objectives(attempts, counts = () => true) {
  const asked = attempts.filter((attempt) => attempt.objective && counts(attempt));
  /** @type {Map<string, Held>} */
  const found = new Map();
  /**
   * @param {Attempt[]} some
   * @param {"first" | "last"} which
   */
  const count = (some, which) => {
    for (const attempt of some) {
      const held = found.get(attempt.objective) ?? { first: [0, 0], last: [0, 0] };
      held[which][0] += Number(heldIn(attempt));
      held[which][1] += 1;
      found.set(attempt.objective, held);
    }
  };
  count(asked.filter(({ first }) => first), "first");
  count(latest(asked), "last");
  return found;
}

/**
 * First attempts at questions, as readiness takes them: held and missed.
 * @param {Attempt[]} attempts
 * @returns {Map<string, [number, number]>}
 */
export function firstTries(attempts) {
  const counts = objectives(attempts, ({ kind, first }) => kind === "question" && first);
  return new Map([...counts].map(([objective, { first: [held, of] }]) => [objective, [held, of - held]]));
}

/**
 * What to look at again: missed and not held since, or changed since; the newest first.
 * @param {Attempt[]} attempts by time
 * @param {(attempt: Attempt) => string | null | undefined} now the digest as it stands; null where that is not
 *   known, undefined where the course holds the thing no longer
 * @returns {{attempt: Attempt, changed: boolean}[]}
 */
export function again(attempts, now) {
  return latest(attempts.filter(({ kind }) => kind === "question" || kind === "walk"))
    .map((attempt) => ({ attempt, digest: now(attempt) }))
    .filter(({ attempt, digest }) => digest !== undefined && (!heldIn(attempt) || (digest !== null && digest !== attempt.digest)))
    .map(({ attempt, digest }) => ({ attempt, changed: digest !== null && digest !== attempt.digest }))
    .reverse();
}

/**
 * Attempts at whole walks or quizzes, by name, the first one met first.
 * @param {Attempt[]} attempts by time
 * @param {"walk" | "quiz"} kind
 * @returns {Map<string, Attempt[]>}
 */
export function wholes(attempts, kind) {
  /** @type {Map<string, Attempt[]>} */
  const found = new Map();
  for (const attempt of attempts.filter((one) => one.kind === kind)) {
    const ends = found.get(attempt.id);
    if (ends) ends.push(attempt);
    else found.set(attempt.id, [attempt]);
  }
  return found;
}

/**
 * The one with the highest mark. Of equal marks one that held is the better, since pass marks change; else the
 * earliest counts.
 * @param {Attempt[]} attempts at least one, by time
 */
export const bestOf = (attempts) => attempts.reduce((best, one) => (isBetter(one, best) ? one : best));

/**
 * @param {Attempt} one
 * @param {Attempt} other
 */
const isBetter = (one, other) => one.mark > other.mark || (one.mark === other.mark && heldIn(one) && !heldIn(other));
