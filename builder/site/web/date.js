/** A day in words, and how far it is. */

import { DAY } from "./plan.js";

/** @param {number} number of the day since 1970 */
export const date = (number) => new Date(number * DAY).toLocaleDateString(document.documentElement.lang, {
  weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC",
});

/**
 * Days left until the end of a day, 0 on the day itself, less than 0 when it is over.
 * @param {string} until
 * @param {Date} now of the device's own calendar
 */
export function daysLeft(until, now) {
  const today = Date.UTC(now.getFullYear(), now.getMonth(), now.getDate());
  return Math.round((Date.parse(until) - today) / DAY);
}
