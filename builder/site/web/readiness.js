/**
 * The chance of reaching a quiz's pass mark on a fresh draw. Pure: knows no page.
 *
 * For each objective the share of questions that a learner holds is unknown; before any answer every share is
 * taken as equally likely, the uniform prior Beta(1, 1). After `held` and `missed` first attempts it follows
 * Beta(1 + held, 1 + missed), so the number held of `n` fresh questions follows the beta-binomial distribution
 *
 *   P(k) = C(n, k) B(k + a, n - k + b) / B(a, b)   with a = 1 + held, b = 1 + missed
 *
 * (Skellam JG. Journal of the Royal Statistical Society B 1948;10(2):257-261). Objectives are taken as
 * independent; the number held over the whole quiz is their convolution, with nothing approximated.
 */

/** @typedef {[number, number]} Counts held and missed at first attempts */

/**
 * The beta-binomial distribution.
 * @param {number} n questions, from 0
 * @param {number} a above 0
 * @param {number} b above 0
 * @returns {number[]} the chance of 0, 1, ... n
 */
export function betaBinomial(n, a, b) {
  const logs = [0];
  for (let k = 0; k < n; k += 1) {
    logs.push(logs[k] + Math.log(((n - k) * (a + k)) / ((k + 1) * (b + n - k - 1))));
  }
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / all);
}

/**
 * The distribution of a sum of two independent counts.
 * @param {number[]} one
 * @param {number[]} other
 */
export function convolve(one, other) {
  const sum = Array(one.length + other.length - 1).fill(0);
  one.forEach((p, i) => other.forEach((q, j) => {
    sum[i + j] += p * q;
  }));
  return sum;
}

/**
 * How many questions must hold to reach a pass mark.
 * @param {number} questions
 * @param {[number, number]} passMark numerator and denominator
 */
export const needed = (questions, [n, d]) => Number((BigInt(questions) * BigInt(n) + BigInt(d) - 1n) / BigInt(d));

/**
 * @param {Record<string, number>} blueprint objective to the number of its questions
 * @param {ReadonlyMap<string, Counts>} tried
 * @param {[number, number]} passMark
 * @returns {{chance: number, untried: string[]}} `chance` says something only where no objective is untried
 */
export function readiness(blueprint, tried, passMark) {
  const rows = Object.entries(blueprint);
  const untried = rows.map(([objective]) => objective).filter((objective) => !tried.get(objective)?.some(Boolean));
  const all = rows.reduce((sum, [objective, n]) => {
    const [held, missed] = tried.get(objective) ?? [0, 0];
    return convolve(sum, betaBinomial(n, 1 + held, 1 + missed));
  }, [1]);
  const questions = rows.reduce((sum, [, n]) => sum + n, 0);
  const chance = all.slice(needed(questions, passMark)).reduce((sum, p) => sum + p, 0);
  return { chance: Math.min(1, chance), untried };
}
