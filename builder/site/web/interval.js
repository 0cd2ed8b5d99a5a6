/**
 * Intervals for shares, at 95 %, as `builder/statistics/interval.py` computes them, where the methods are told with their
 * sources. Pure: knows no page.
 */
const Z = 1.959963984540054;

/** @typedef {{held: boolean, client?: string | null}} Answer `client` is whom it is about */

/**
 * Wilson's score interval: (p + z^2/2n -+ z sqrt(p(1-p)/n + z^2/4n^2)) / (1 + z^2/n), with p = held / of.
 * @param {number} held marks gained, between 0 and `of`
 * @param {number} of marks that could be gained, above 0
 * @returns {[number, number]} lower and upper end, within 0 and 1
 */
export function wilson(held, of) {
  const share = held / of;
  const square = (Z * Z) / of;
  const middle = share + square / 2;
  const spread = Math.sqrt(square * (share * (1 - share) + square / 4));
  return [Math.max(0, (middle - spread) / (1 + square)), Math.min(1, (middle + spread) / (1 + square))];
}

/**
 * The interval where answers about one client hang together.
 * @param {Answer[]} answers at least one
 */
export function clustered(answers) {
  /** @type {Map<string | Answer, [number, number]>} */
  const groups = new Map();
  for (const answer of answers) {
    const [held, of] = groups.get(answer.client ?? answer) ?? [0, 0];
    groups.set(answer.client ?? answer, [held + Number(answer.held), of + 1]);
  }
  const worth = countingAs([...groups.values()]);
  return wilson((answers.filter(({ held }) => held).length / answers.length) * worth, worth);
}

/**
 * How many answers that have nothing to do with each other tell as much.
 * @param {[number, number][]} groups held and answered, client by client
 */
export function countingAs(groups) {
  const [all, of] = groups.reduce(([a, b], [held, n]) => [a + held, b + n], [0, 0]);
  const count = groups.length;
  if (count === of) return of;
  const least = (of * of) / groups.reduce((sum, [, n]) => sum + n * n, 0);
  if (count === 1) return least;
  const share = all / of;
  const plain = of * share * (1 - share);
  const apart = (count / (count - 1)) * groups.reduce((sum, [held, n]) => sum + (held - n * share) ** 2, 0);
  const effect = plain ? Math.max(1, apart / plain) : 1;
  return Math.max(least, (of / effect) * (t(of - 1) / t(count - 1)) ** 2);
}

/**
 * The 0.975 quantile of the t distribution.
 * @param {number} freedom
 */
const t = (freedom) => [12.7062, 4.30265][freedom - 1]
  ?? [Z, 2.37227, 2.8225, 2.55585, 1.58953].reduce((sum, term, power) => sum + term / freedom ** power, 0);
