/**
 * After how many days to review for a date ahead. Pure: knows no page and no clock.
 *
 * The best gap between learning and reviewing is about 20 to 40 % of the time to the test at one week, and 5 to
 * 10 % at one year (Cepeda NJ et al. Psychological Science 2008;19(11):1095-1102). Between the two we take the
 * middles of these ranges and interpolate them along the logarithm of the time; outside we keep the nearer end.
 * The study had one review. That we repeat the gap is our own choice; gaps stay equal, for equal and growing gaps
 * gave the same final recall (Kang SHK et al. Psychonomic Bulletin & Review 2014;21:1544-1550).
 */

const WEEK = { days: 7, share: [0.2, 0.4] };
const YEAR = { days: 365, share: [0.05, 0.1] };

/**
 * The range of the best gap, as shares of the time to the test.
 * @param {number} days to the test, above 0
 * @returns {number[]} lower and upper end
 */
export function ridge(days) {
  const along = Math.log(days / WEEK.days) / Math.log(YEAR.days / WEEK.days);
  const way = Math.min(1, Math.max(0, along));
  return WEEK.share.map((end, index) => end + way * (YEAR.share[index] - end));
}

/**
 * Days between two reviews, a whole number of at least 1.
 * @param {number} days
 */
export function gap(days) {
  const [low, high] = ridge(days);
  return Math.max(1, Math.round((days * (low + high)) / 2));
}

/** Milliseconds. */
export const DAY = 86_400_000;

/**
 * A day written as 2026-06-01, as its number since 1970; null where it is none.
 * @param {string} text
 */
export function dayNumber(text) {
  const number = Date.parse(`${text}T00:00Z`) / DAY;
  return Number.isInteger(number) && dayText(number) === text ? number : null;
}

/** @param {number} number */
export const dayText = (number) => new Date(number * DAY).toISOString().slice(0, 10);

/**
 * The number of the day that it is at a moment, where this device is.
 * @param {Date} moment
 */
export const dayOf = (moment) => Date.UTC(moment.getFullYear(), moment.getMonth(), moment.getDate()) / DAY;
