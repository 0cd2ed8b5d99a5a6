/**
 * Draws a quiz by a seed, the same as `builder/questions/draw.py`, where the method is told with its sources.
 * Pure: knows no page.
 */

/**
 * @typedef {object} DrawData
 * @property {[number, number][]} rows (pool, count)
 * @property {number[]} pool the pool of every item
 * @property {number[]} client the client of every item, -1 where it is about none
 */

const MULTIPLIER = 6364136223846793005n;
const STREAM = 54n;

/**
 * Repeatable chance: PCG32 (O'Neill 2014, HMC-CS-2014-0905; variant XSH RR 64/32).
 * @param {number | bigint} seed a whole number from 0 up
 * @param {bigint} [stream]
 * @returns {() => number} the next number, from 0 to 2^32 - 1
 */
export function pcg32(seed, stream = STREAM) {
  const increment = BigInt.asUintN(64, (stream << 1n) | 1n);
  let state = 0n;
  const next = () => {
    const old = state;
    state = BigInt.asUintN(64, old * MULTIPLIER + increment);
    const mixed = Number(BigInt.asUintN(32, ((old >> 18n) ^ old) >> 27n));
    const turn = Number(old >> 59n);
    return ((mixed >>> turn) | (mixed << (-turn & 31))) >>> 0;
  };
  next();
  state = BigInt.asUintN(64, state + BigInt(seed));
  next();
  return next;
}

/**
 * A number from 0 to `bound` - 1, each equally likely.
 * @param {() => number} next
 * @param {number} bound
 */
function below(next, bound) {
  const tooLow = 2 ** 32 % bound;
  let number = next();
  while (number < tooLow) number = next();
  return number % bound;
}

/**
 * The numbers from 0 to `count` - 1 in an order drawn by chance (Durstenfeld 1964).
 * @param {() => number} next
 * @param {number} count
 */
function shuffled(next, count) {
  const order = Array.from({ length: count }, (_, number) => number);
  for (let last = count - 1; last > 0; last -= 1) {
    const other = below(next, last + 1);
    const [from, to] = /** @type {[number, number]} */ ([order[last], order[other]]);
    [order[last], order[other]] = [to, from];
  }
  return order;
}

/**
 * The numbers of the items of one draw, row by row.
 * @param {DrawData} data
 * @param {number} seed from 0 to 2^53 - 1
 * @returns {number[]}
 */
export function draw(data, seed) {
  const order = shuffled(pcg32(seed), data.pool.length);
  const places = data.rows.flatMap(([pool, count]) => {
    const size = data.pool.filter((other) => other === pool).length;
    return Array(Math.min(count, size)).fill(pool);
  });
  const itemAt = matched(places, order, data);
  const taken = new Set(itemAt.values());
  places.forEach((pool, place) => {
    if (itemAt.has(place)) return;
    const spare = order.find((item) => data.pool[item] === pool && !taken.has(item));
    if (spare === undefined) return;
    itemAt.set(place, spare);
    taken.add(spare);
  });
  return places.flatMap((_, place) => itemAt.get(place) ?? []);
}

/**
 * Place to item, so that as many places as possible are filled and no client comes twice.
 * @param {number[]} places the pool of every place
 * @param {number[]} order
 * @param {DrawData} data
 * @returns {Map<number, number>}
 */
function matched(places, order, data) {
  /** @type {Map<number, number>} client, or -1 less the item's own number, to place */
  const holder = new Map();
  /** @type {Map<number, number>} */
  const itemAt = new Map();
  /**
   * @param {number} place
   * @param {Set<number>} tried
   * @returns {boolean}
   */
  const fill = (place, tried) => {
    for (const item of order) {
      if (data.pool[item] !== places[place]) continue;
      const client = data.client[item] ?? -1;
      const who = client < 0 ? -1 - item : client;
      if (tried.has(who)) continue;
      tried.add(who);
      const other = holder.get(who);
      if (other === undefined || fill(other, tried)) {
        holder.set(who, place);
        itemAt.set(place, item);
        return true;
      }
    }
    return false;
  };
  places.forEach((_, place) => fill(place, new Set()));
  return itemAt;
}
