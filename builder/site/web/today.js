/**
 * What to practise today, out of all that a course can ask. Pure: no page, no storage, no clock.
 *
 * A sitting is there where something is due. At most half of it are returns: what was not right when it was last
 * answered, the unsafe first, each with another client where there is one. Then comes what is due, then what is new, and
 * what is left of the course. One client to stop and one to go on with are in it, where the course has them.
 */

/** @typedef {import("./due.js").Answer} Answer */
/** @typedef {import("./standing.js").Standing} Standing */
/** @typedef {"stop" | "go" | ""} Sign what is right for the client, where one is decided about */
/** @typedef {[id: string, client: string, sign: Sign, where: number[] | string]} Row `where`: the quizzes that can ask it, by number; of a step the address of its page. Of one unit all signs are alike, where there is one: a rule has one outcome */
/** @typedef {{quizzes: string[], units: [unit: string, objective: string, rows: Row[]][]}} Index as the builder writes it */
/** @typedef {{id: string, client: string, sign: Sign, where: number[] | string}} Item a question, or a step with a client */
/** @typedef {{unit: string, objective: string, items: Item[]}} Unit */
/** @typedef {{quizzes: string[], units: Map<string, Unit>, unitOf: (answer: Answer) => string | undefined}} Course */
/** @typedef {{unit: string, objective: string, item: Item, back: boolean}} Task `back`: a return */

export const SIZE = 10;
/** @type {Sign[]} */
const SIGNS = ["stop", "go"];

/**
 * @param {Index} index
 * @returns {Course}
 */
export function courseOf({ quizzes, units }) {
  const known = new Map(units.map(([unit, objective, rows]) => {
    const items = rows.map(([id, client, sign, where]) => ({ id, client, sign, where }));
    return [unit, { unit, objective, items }];
  }));
  const byId = new Map([...known.values()].flatMap(({ unit, items }) => items.map(({ id }) => [id, unit])));
  return { quizzes, units: known, unitOf: ({ unit, id }) => (unit !== undefined && known.has(unit) ? unit : byId.get(id)) };
}

/**
 * What is due today: what went wrong first, the unsafe before all, then what waits longest.
 * @param {Map<string, Standing>} standings
 * @param {number} today
 */
export function dueOn(standings, today) {
  const due = [...standings].filter(([, one]) => one.due !== null && one.due <= today).sort(([, a], [, b]) => (a.due ?? 0) - (b.due ?? 0));
  const of = (/** @type {string} */ verdict) => due.filter(([, one]) => one.verdict === verdict).map(([unit]) => unit);
  return { back: [...of("unsafe"), ...of("missed")], due: of("held") };
}

/**
 * @param {Course} course
 * @param {Map<string, Standing>} standings of what the course teaches
 * @param {number} today
 * @param {number} [size] the most things in it, 4 or more
 * @returns {Task[]} in order; empty where nothing is due
 */
export function sitting(course, standings, today, size = SIZE) {
  const { back, due } = dueOn(standings, today);
  if (!back.length && !due.length) return [];
  const fresh = dealt(course, [...course.units.keys()].filter((unit) => !standings.has(unit)));
  const ahead = [...standings].filter(([unit, one]) => !back.includes(unit) && !due.includes(unit) && one.on < today).sort(([, a], [, b]) => a.on - b.on);
  const rest = [...due, ...fresh, ...ahead.map(([unit]) => unit)];
  const half = Math.floor(size / 2);
  /** @type {Map<string, Item>} */
  const taken = new Map();
  const all = [...back.slice(0, half), ...rest, ...back.slice(half), ...standings.keys()];
  for (const sign of SIGNS) {
    const unit = all.find((one) => signed(one, sign)) ?? "";
    const item = signed(unit, sign);
    if (item) taken.set(unit, item);
  }
  const musts = new Set(taken.keys());
  const returning = new Set(back);
  const count = () => [...taken.keys()].filter((unit) => returning.has(unit)).length;
  for (const unit of back) if (count() < half) take(unit);
  for (const unit of rest) if (taken.size < size) take(unit);
  for (const unit of [...back].reverse()) {
    if (2 * count() > taken.size && !musts.has(unit) && taken.size > 1) taken.delete(unit);
  }
  const order = [...new Set([...back, ...rest, ...taken.keys()])].filter((unit) => taken.has(unit));
  return mixed(order.map((unit) => ({
    unit, objective: objectiveOf(course, unit), item: /** @type {Item} */ (taken.get(unit)), back: returning.has(unit),
  })));

  /** @param {string} unit */
  function ways(unit) {
    return waysOf(course, unit, standings.get(unit));
  }

  /**
   * @param {string} unit
   * @param {Sign} sign
   */
  function signed(unit, sign) {
    return ways(unit).find((item) => item.sign === sign);
  }

  /** @param {string} unit */
  function take(unit) {
    if (!taken.has(unit)) taken.set(unit, ways(unit)[0]);
  }
}

/**
 * In what ways something can be asked, the best first: with another client than on the last day, in a question before a
 * walk, what was asked least.
 * @param {Course} course
 * @param {string} unit
 * @param {Standing | undefined} standing
 * @returns {Item[]} at least one
 */
export function waysOf(course, unit, standing) {
  const items = course.units.get(unit)?.items ?? [];
  const last = items.filter(({ id }) => standing?.ids.has(id));
  const others = items.filter((item) => !last.some(({ id, client }) => (client ? client === item.client : id === item.id)));
  const times = (/** @type {Item} */ { id }) => standing?.times.get(id) ?? 0;
  return (others.length ? others : [...items]).sort((a, b) => Number(isWalk(a)) - Number(isWalk(b)) || times(a) - times(b));
}

/**
 * Where the learner begins: at a client, or with all questions of the sitting that one quiz can ask.
 * @param {Course} course
 * @param {Task[]} tasks at least one
 * @returns {{address: string} | {quiz: string, ids: string[]}}
 */
export function start(course, tasks) {
  const [{ item: { where } }] = tasks;
  if (typeof where === "string") return { address: where };
  const asked = (/** @type {number} */ quiz) => tasks.filter(({ item }) => typeof item.where !== "string" && item.where.includes(quiz));
  const best = where.reduce((most, quiz) => (asked(quiz).length > asked(most).length ? quiz : most));
  return { quiz: course.quizzes[best], ids: asked(best).map(({ item }) => item.id) };
}

/** @param {Item} item */
export const isWalk = ({ where }) => typeof where === "string";

/**
 * @param {Course} course
 * @param {string} unit
 */
const objectiveOf = (course, unit) => course.units.get(unit)?.objective ?? "";

/**
 * Things of the course dealt out by objective, one of each in turn.
 * @param {Course} course
 * @param {string[]} units
 */
function dealt(course, units) {
  /** @type {Map<string, number>} */
  const met = new Map();
  const placed = units.map((unit) => {
    const objective = objectiveOf(course, unit);
    const place = met.get(objective) ?? 0;
    met.set(objective, place + 1);
    return { unit, place };
  });
  return placed.sort((a, b) => a.place - b.place).map(({ unit }) => unit);
}

/**
 * The same tasks with one of another objective next, for as long as there is one.
 * @param {Task[]} tasks
 */
function mixed(tasks) {
  const left = [...tasks];
  /** @type {Task[]} */
  const order = [];
  while (left.length) {
    const other = left.findIndex(({ objective }) => objective !== order.at(-1)?.objective);
    order.push(...left.splice(Math.max(0, other), 1));
  }
  return order;
}
