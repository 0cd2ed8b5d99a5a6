/** A day in words. */

import { DAY } from "./plan.js";

/** @param {number} number of the day since 1970 */
export const date = (number) => new Date(number * DAY).toLocaleDateString(document.documentElement.lang, {
  weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC",
});
