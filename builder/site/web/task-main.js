/** What a quiz loads once its address asks for a task: what the learner is told of it. */

import { date } from "./date.js";
import { make } from "./dom.js";
import { shelve } from "./parts.js";
import { DAY } from "./plan.js";
import { daysLeft } from "./task.js";
import { say } from "./words.js";

/**
 * @param {object} state
 * @param {string} state.until the last day
 * @param {boolean} state.seen whether its questions were answered before
 * @param {boolean} state.done whether the sitting is at its end
 * @param {string} state.record where the learner's record stands
 * @param {Date} now
 */
function notice({ until, seen, done, record }, now) {
  const left = daysLeft(until, now);
  const day = date(Math.round(Date.parse(until) / DAY));
  const when = left < 0
    ? say("That day is over. You can still answer; your copy says when you did.")
    : left === 0 ? say("That is today.") : say("Days left: {number}.", { number: left });
  return [
    make("p", {}, make("b", {}, say("You are asked to answer this quiz until {day}.", { day })), ` ${when}`),
    make("p", {}, done
      ? say("You have answered all of it. Nothing has been sent: save a copy and hand it over yourself.")
      : say("Everybody with this address gets these questions. Nothing is sent by itself: at the end you save a copy and hand it over.")),
    ...(seen ? [make("p", {}, say("You have answered these questions before, so this time does not count."))] : []),
    ...(done ? [make("p", { class: "onwards" }, make("a", { href: `${record}#hand-over` }, say("Save a copy for the owner")))] : []),
  ];
}

shelve("task", notice);
