/** A day in words. */

/** @param {number} number of the day since 1970 */
export const date = (number) => new Date(number * 86_400_000).toLocaleDateString(document.documentElement.lang, {
  weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC",
});
