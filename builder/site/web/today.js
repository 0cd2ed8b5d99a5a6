/**
 * What to practise today, out of all that a course can ask. Pure: no page, no storage, no clock.
 *
 * A sitting is there where something is due, or where one is wanted. At most half of it are returns: what was not right when it was last
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
 * @param {boolean} [wanted] also where nothing is due
 * @returns {Task[]} in order; empty where nothing is due and none is wanted
 */
export function sitting(course, standings, today, size = SIZE, wanted = false) {
  const { back, due } = dueOn(standings, today);
  if (!wanted && !back.length && !due.length) return [];
  const met = new Set([...course.units.values()].flatMap(({ unit, items }) => items.filter(({ id }) => standings.get(unit)?.times.has(id)).map(({ client }) => client)));
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
    return waysOf(course, unit, standings.get(unit), met);
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
 * walk, about a client who was never met, what was asked least.
 * @param {Course} course
 * @param {string} unit
 * @param {Standing | undefined} standing
 * @param {Set<string>} [met] clients whom the learner has met
 * @returns {Item[]} at least one
 */
export function waysOf(course, unit, standing, met = new Set()) {
  const items = course.units.get(unit)?.items ?? [];
  const last = items.filter(({ id }) => standing?.ids.has(id));
  const others = items.filter((item) => !last.some(({ id, client }) => (client ? client === item.client : id === item.id)));
  const times = (/** @type {Item} */ { id }) => standing?.times.get(id) ?? 0;
  return (others.length ? others : [...items]).sort((a, b) => Number(isWalk(a)) - Number(isWalk(b)) || Number(met.has(a.client)) - Number(met.has(b.client)) || times(a) - times(b));
}

/** Milliseconds that one thing takes where the learner's own times are not known (assumed), and the least and the most that one may count for. */
const TYPICAL = 45_000;
const [LEAST, MOST] = [15_000, 180_000];
/** As many of the learner's last times count. */
const LAST = 50;

/**
 * How many things fit into some minutes, by the learner's own median time.
 * @param {number} minutes
 * @param {{ms?: number, kind: string}[]} attempts by time
 */
export function fitting(minutes, attempts) {
  const times = attempts.flatMap(({ ms, kind }) => (ms && (kind === "question" || kind === "step") ? [ms] : [])).slice(-LAST).sort((a, b) => a - b);
  const middle = times.length ? (times[(times.length - 1) >> 1] + times[times.length >> 1]) / 2 : TYPICAL;
  return Math.max(4, Math.floor((minutes * 60_000) / Math.min(MOST, Math.max(LEAST, middle))));
}

/**
 * A sitting of some minutes: questions that one quiz can ask, so that it ends on time; where none of them is due and
 * something else is, what is due.
 * @param {Course} course
 * @param {Map<string, Standing>} standings
 * @param {number} today
 * @param {number} size
 * @returns {Task[]}
 */
export function timed(course, standings, today, size) {
  const counts = course.quizzes.map((_, quiz) => [...course.units.values()].filter(({ items }) => items.some((item) => canAsk(item, quiz))).length);
  const quiz = counts.indexOf(Math.max(...counts));
  const units = new Map([...course.units].flatMap(([name, unit]) => {
    const items = unit.items.filter((item) => canAsk(item, quiz));
    return items.length ? [[name, { ...unit, items: items.map((item) => ({ ...item, where: [quiz] })) }]] : [];
  }));
  const own = new Map([...standings].filter(([unit]) => units.has(unit)));
  const isDue = (/** @type {Map<string, Standing>} */ all) => Object.values(dueOn(all, today)).some(({ length }) => length);
  if (units.size && (isDue(own) || !isDue(standings))) return sitting({ ...course, units }, own, today, size, true);
  return sitting(course, standings, today, size, true);
}

/**
 * @param {Item} item
 * @param {number} quiz
 */
const canAsk = ({ where }, quiz) => typeof where !== "string" && where.includes(quiz);

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
 * The same tasks with one of another objective next, for as long as there is one, and of these one about another client.
 * @param {Task[]} tasks
 */
function mixed(tasks) {
  const left = [...tasks];
  /** @type {Task[]} */
  const order = [];
  while (left.length) {
    const last = order.at(-1);
    const isNew = (/** @type {Task} */ { objective }) => objective !== last?.objective;
    const isOther = (/** @type {Task} */ { item }) => !item.client || item.client !== last?.item.client;
    const next = [left.findIndex((one) => isNew(one) && isOther(one)), left.findIndex(isNew), left.findIndex(isOther), 0].find((at) => at >= 0);
    order.push(...left.splice(next ?? 0, 1));
  }
  return order;
}
