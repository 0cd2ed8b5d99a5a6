/**
 * Draws a quiz by a seed, the same as `builder/questions/draw.py`, where the method is told with its sources.
 * Pure: knows no page.
 */

/**
 * @typedef {object} DrawData
 * @property {[number, number][]} rows (pool, count)
 * @property {number[]} pool the pool of every item
 * @property {number[]} client the client of every item, -1 where it is about none
 * @property {[number, number[]][]} must (count, the items that serve) of all that every draw holds
 * @property {number[][][]} never groups that never come together: for each question or family, its items
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
  data = apart(data, order);
  const places = data.rows.flatMap(([pool, count]) => {
    const size = data.pool.filter((other) => other === pool).length;
    return Array(Math.min(count, size)).fill(pool);
  });
  /** @type {Map<number, number>} */
  const itemAt = new Map();
  for (const item of included(data, order)) {
    itemAt.set(places.findIndex((pool, place) => pool === data.pool[item] && !itemAt.has(place)), item);
  }
  match(places, order, data, itemAt);
  const taken = new Set(itemAt.values());
  places.forEach((pool, place) => {
    if (itemAt.has(place)) return;
    const spare = order.find((item) => data.pool[item] === pool && !taken.has(item));
    if (spare === undefined) return;
    itemAt.set(place, spare);
    taken.add(spare);
  });
  if (data.must.length) mix(places, order, itemAt);
  return places.flatMap((_, place) => itemAt.get(place) ?? []);
}

/**
 * What is left of each group that never comes together: the items of the question or family that comes first.
 * @param {DrawData} data
 * @param {number[]} order
 * @returns {DrawData}
 */
function apart(data, order) {
  const pool = [...data.pool];
  for (const group of data.never) {
    /** @type {Map<number, number>} */
    const home = new Map(group.flatMap((items, number) => items.map((item) => [item, number])));
    const first = order.find((item) => home.has(item) && pool[item] >= 0) ?? -1;
    for (const [item, number] of home) if (number !== home.get(first)) pool[item] = -1;
  }
  return { ...data, pool };
}

/**
 * The items that must be there, in `order`; fewer than asked for where no draw can hold as many.
 * @param {DrawData} data
 * @param {number[]} order
 */
function included({ rows, pool, client, must }, order) {
  /** @type {Map<number, number>} item to the slot that it fills */
  const holder = new Map();
  /** @type {Set<number>[]} the items that each slot can have */
  const serving = [];
  const inPool = (/** @type {number} */ at) => [...holder.keys()].filter((item) => pool[item] === at);
  const isFree = (/** @type {number} */ item) => {
    const room = rows.filter(([at]) => at === pool[item]).reduce((sum, [, count]) => sum + count, 0);
    return !holder.has(item) && inPool(pool[item]).length < room;
  };
  /**
   * Fills a slot, and moves others for it along the shortest way there is.
   * @param {number} slot
   */
  const fill = (slot) => {
    /** @type {Map<number, number>} item to the slot that would have it */
    const taker = new Map();
    /** A slot that would move to the item that this opens for another. */
    const opens = new Map([[slot, -1]]);
    const waiting = [slot];
    for (const one of waiting) {
      for (const item of order) {
        if (!serving[one].has(item) || taker.has(item)) continue;
        taker.set(item, one);
        if (isFree(item)) {
          settle(item, taker, opens);
          return true;
        }
        for (const other of holder.has(item) ? [item] : inPool(pool[item])) {
          const there = holder.get(other) ?? 0;
          if (opens.has(there)) continue;
          opens.set(there, item);
          waiting.push(there);
        }
      }
    }
    return false;
  };
  /**
   * @param {number} item
   * @param {Map<number, number>} taker
   * @param {Map<number, number>} opens
   */
  const settle = (item, taker, opens) => {
    while (item >= 0) {
      const one = taker.get(item) ?? 0;
      const left = [...holder].find(([, slot]) => slot === one)?.[0];
      holder.set(item, one);
      if (left !== undefined) holder.delete(left);
      item = opens.get(one) ?? -1;
    }
  };
  for (const [count, items] of must) {
    for (let made = 0; made < count; made += 1) {
      const slot = serving.push(new Set(items)) - 1;
      const taken = new Set([...holder.keys()].map((item) => who(client, item)));
      const apart = order.find((item) => serving[slot].has(item) && !taken.has(who(client, item)) && isFree(item));
      if (apart !== undefined) holder.set(apart, slot);
      else if (!fill(slot)) break;
    }
  }
  return order.filter((item) => holder.has(item));
}

/**
 * Puts the items of each pool in the order drawn, so that no place tells what had to be there.
 * @param {number[]} places the pool of every place
 * @param {number[]} order
 * @param {Map<number, number>} itemAt
 */
function mix(places, order, itemAt) {
  for (const pool of new Set(places)) {
    const there = [...places.keys()].filter((place) => places[place] === pool && itemAt.has(place));
    const items = new Set(there.map((place) => itemAt.get(place)));
    order.filter((item) => items.has(item)).forEach((item, index) => itemAt.set(there[index], item));
  }
}

/**
 * The client of an item, or a number below 0 of its own.
 * @param {number[]} client
 * @param {number} item
 */
const who = (client, item) => ((client[item] ?? -1) < 0 ? -1 - item : client[item]);

/**
 * Fills as many of the free places as can be so that no client comes twice; what is there stays.
 * @param {number[]} places the pool of every place
 * @param {number[]} order
 * @param {DrawData} data
 * @param {Map<number, number>} itemAt place to item
 */
function match(places, order, { pool, client }, itemAt) {
  const fixed = new Set([...itemAt.values()].map((item) => who(client, item)));
  /** @type {Map<number, number>} client, or an item's own number, to place */
  const holder = new Map();
  /**
   * @param {number} place
   * @param {Set<number>} tried
   * @returns {boolean}
   */
  const fill = (place, tried) => order.some((item) => {
    const one = who(client, item);
    if (pool[item] !== places[place] || tried.has(one) || fixed.has(one)) return false;
    tried.add(one);
    const other = holder.get(one);
    if (other !== undefined && !fill(other, tried)) return false;
    holder.set(one, place);
    itemAt.set(place, item);
    return true;
  });
  places.forEach((_, place) => itemAt.has(place) || fill(place, new Set()));
}
