/**
 * The chance of passing a fresh draw of a quiz, as `builder/statistics/chances.py` works it out, where the method is told with
 * its sources. Pure: knows no page.
 */

const WORTHS = [2, 8, 32, 128];
const MIDDLES = 8;
const CAUTION = 1.25;
const SKILLS = 32;
const SHARES = 8;
const REACH = 4;
const LEAST = 1e-3;
const TAIL = 0.05;

/** @typedef {[number, number]} Counts of yes and no, at first answers */
/** @typedef {{beta: [number, number], weight: number}} Fit */
/** @typedef {{shares: number[], weight: number}} Point the shares of several rows */
/**
 * An objective, and what a learner's first answers say of it.
 * @typedef {object} Row
 * @property {number} questions in a draw; 0 where it only tells of the learner
 * @property {Counts} right right and wrong
 * @property {Counts | null} serious of the wrong answers: serious, and not; null where no answer to its questions is serious,
 *   or where a serious one is only told
 */

/**
 * How many questions must be right to reach a pass mark.
 * @param {number} questions
 * @param {[number, number]} passMark numerator and denominator
 */
export const needed = (questions, [n, d]) => Number((BigInt(questions) * BigInt(n) + BigInt(d) - 1n) / BigInt(d));

/**
 * Of at least `least` right answers and none that is serious, in a fresh draw, with the ends of a 90% interval.
 * @param {Row[]} rows
 * @param {number} least
 * @returns {{low: number, chance: number, high: number}}
 */
export function readiness(rows, least) {
  const asked = rows.filter(({ questions }) => questions);
  const skills = fitted(rows.map(({ right }) => right), CAUTION);
  const shares = fitted(rows.flatMap(({ serious }) => (serious ? [serious] : [])));
  const safes = shares.map(({ beta, weight }) => ({ weight, rows: asked.map((row) => safe(row, beta)) }));
  const chance = sum(skills.map(({ beta: [a, b], weight }) => {
    const right = asked.map(({ questions, right: [yes, no] }) => betaBinomial(questions, a + yes, b + no));
    return weight * sum(safes.map((one) => one.weight * passed(least, right, one.rows)));
  }));
  const found = overSkill(asked, least, skills, shares).sort(([a], [b]) => a - b);
  return { low: Math.min(chance, quantile(found, TAIL)), chance, high: Math.max(chance, quantile(found, 1 - TAIL)) };
}

/**
 * Beta distributions that a learner's shares may be drawn from, by how far the counts speak for each.
 * @param {Counts[]} counts
 * @param {number} [caution]
 * @returns {Fit[]}
 */
function fitted(counts, caution = 1) {
  const tried = counts.filter(([yes, no]) => yes + no);
  if (tried.length < 2) return [{ beta: [1, 1], weight: 1 }];
  /** @type {[Fit["beta"], number][]} */
  const found = WORTHS.flatMap((worth) => {
    const told = tried.map(([yes, no]) => ((yes + no) * (worth + 1)) / (yes + no + worth));
    const held = sum(tried.map(([yes, no], index) => (told[index] * yes) / (yes + no)));
    const of = 2 * caution + sum(told);
    return grid((caution + held) / of, of, MIDDLES).map(([middle, width]) => {
      const [a, b] = [middle * worth, (1 - middle) * worth];
      const likely = sum(tried.map(([yes, no]) => rising(a, yes) + rising(b, no) - rising(worth, yes + no)));
      return /** @type {[Fit["beta"], number]} */ ([[a, b], likely + Math.log(width) + (caution - 1) * Math.log(middle * (1 - middle))]);
    });
  });
  const weights = weighed(found.map(([, likely]) => likely), LEAST);
  return found.map(([beta], index) => ({ beta, weight: weights[index] })).filter(({ weight }) => weight);
}

/**
 * Points between 0 and 1 around a share that `worth` answers tell, each with the width that it stands for.
 * @param {number} share
 * @param {number} worth
 * @param {number} count
 * @returns {[number, number][]}
 */
function grid(share, worth, count) {
  const [angle, reach] = [Math.asin(Math.sqrt(share)), REACH / (2 * Math.sqrt(worth))];
  const [low, high] = [Math.max(0, angle - reach), Math.min(Math.PI / 2, angle + reach)];
  const step = (high - low) / count;
  return Array.from({ length: count }, (_, index) => {
    const one = low + (index + 0.5) * step;
    return [Math.sin(one) ** 2, step * 2 * Math.sin(one) * Math.cos(one)];
  });
}

/**
 * The logarithm of start (start + 1) ... (start + steps - 1).
 * @param {number} start
 * @param {number} steps
 */
const rising = (start, steps) => sum(Array.from({ length: steps }, (_, k) => Math.log(start + k)));

/** @param {number[]} numbers */
const sum = (numbers) => numbers.reduce((all, one) => all + one, 0);

/**
 * Weights that sum to 1, from their logarithms; 0 where one is less than `least` of the greatest.
 * @param {number[]} logs
 * @param {number} [least]
 */
function weighed(logs, least = 0) {
  const top = Math.max(...logs);
  const weights = logs.map((one) => Math.exp(one - top)).map((one) => (one > least ? one : 0));
  const whole = sum(weights);
  return weights.map((one) => one / whole);
}

/**
 * The chances of 0, 1, ... n, from how many times as likely each is as the one before.
 * @param {number} n
 * @param {(k: number) => number} ratio
 */
function distribution(n, ratio) {
  const logs = [0];
  for (let k = 0; k < n; k += 1) logs.push(logs[k] + Math.log(ratio(k)));
  return weighed(logs);
}

/**
 * @param {number} n
 * @param {number} a
 * @param {number} b
 */
const betaBinomial = (n, a, b) => distribution(n, (k) => ((n - k) * (a + k)) / ((k + 1) * (b + n - k - 1)));

/**
 * @param {number} n
 * @param {number} share
 */
const binomial = (n, share) => distribution(n, (k) => ((n - k) * share) / ((k + 1) * (1 - share)));

/**
 * The chance that none of 0, 1, ... wrong answers to the questions of a row is serious.
 * @param {Row} row
 * @param {[number, number]} beta
 */
function safe({ questions, serious }, [a, b]) {
  const [yes, no] = serious ? [a + serious[0], b + serious[1]] : [0, 1];
  const chances = [1];
  for (let k = 0; k < questions; k += 1) chances.push((chances[k] * (no + k)) / (yes + no + k));
  return chances;
}

/**
 * By convolution of the rows.
 * @param {number} least
 * @param {number[][]} right of each row, the chances of 0, 1, ... right answers
 * @param {number[][]} safes of each row, the chances that none of 0, 1, ... wrong answers is serious
 */
function passed(least, right, safes) {
  const whole = right.reduce((all, chances, at) => {
    const both = Array(all.length + chances.length - 1).fill(0);
    chances.forEach((one, j) => {
      const row = one * safes[at][chances.length - 1 - j];
      all.forEach((before, i) => (both[i + j] += before * row));
    });
    return both;
  }, [1]);
  return sum(whole.slice(least));
}

/**
 * What the chance may be, each with its weight: all objectives move together.
 * @param {Row[]} asked
 * @param {number} least
 * @param {Fit[]} skills
 * @param {Fit[]} shares
 * @returns {[number, number][]}
 */
function overSkill(asked, least, skills, shares) {
  const unsafe = asked.filter(({ serious }) => serious);
  const wrong = unsafe.map(({ questions, right: [yes, no] }) => (questions * (no + 1)) / (yes + no + 2));
  const risks = together(wrong, unsafe.map(({ serious }) => serious ?? [0, 0]), shares, SHARES).map(({ shares: risk, weight }) => {
    const rows = asked.map((row) => {
      const harmless = row.serious ? 1 - risk[unsafe.indexOf(row)] : 1;
      return Array.from({ length: row.questions + 1 }, (_, k) => harmless ** k);
    });
    return { rows, weight };
  });
  return together(asked.map(({ questions }) => questions), asked.map(({ right }) => right), skills, SKILLS).flatMap((point) => {
    const right = asked.map(({ questions }, at) => binomial(questions, point.shares[at]));
    return risks.map(({ rows, weight }) => /** @type {[number, number]} */ ([passed(least, right, rows), point.weight * weight]));
  });
}

/**
 * The shares of all rows, moving together as their weighted mean does, which is taken as a beta distribution.
 * @param {number[]} weights
 * @param {Counts[]} counts
 * @param {Fit[]} fits
 * @param {number} points
 * @returns {Point[]}
 */
function together(weights, counts, fits, points) {
  if (!weights.length) return [{ shares: [], weight: 1 }];
  const whole = sum(weights);
  const of = fits.map(({ beta: [a, b], weight }) => {
    const each = counts.map(([yes, no]) => (a + yes) / (a + b + yes + no));
    const mean = sum(each.map((one, at) => one * weights[at])) / whole;
    const spread = sum(each.map((one, at) => ((weights[at] / whole) ** 2 * one * (1 - one)) / (a + b + counts[at][0] + counts[at][1] + 1)));
    return { each, mean: weight * mean, square: weight * (mean * mean + spread), weight };
  });
  const means = counts.map((_, at) => sum(of.map(({ each, weight }) => weight * each[at])));
  const middle = sum(of.map(({ mean }) => mean));
  const worth = (middle * (1 - middle)) / (sum(of.map(({ square }) => square)) - middle * middle) - 1;
  const found = grid(middle, worth, points);
  const logs = found.map(([share, width]) => (middle * worth - 1) * Math.log(share) + ((1 - middle) * worth - 1) * Math.log(1 - share) + Math.log(width));
  return weighed(logs).map((weight, at) => {
    const [share] = found[at];
    return { weight, shares: means.map((one) => (share < middle ? (one * share) / middle : 1 - ((1 - one) * (1 - share)) / (1 - middle))) };
  });
}

/**
 * Of values with weights, in order: each stands in the middle of its weight, and between two lies a line.
 * @param {[number, number][]} found
 * @param {number} at
 */
function quantile(found, at) {
  let below = 0;
  let [before, last] = [0, found[0][0]];
  for (const [value, weight] of found) {
    const here = below + weight / 2;
    if (here >= at) return last + ((at - before) / (here - before)) * (value - last);
    [below, before, last] = [below + weight, here, value];
  }
  return last;
}
