/** What a quiz loads once its address asks for a task: which it is, and what the learner is told of it. */

import { date, daysLeft } from "./date.js";
import { recordOf } from "./device.js";
import { make } from "./dom.js";
import { shelve } from "./parts.js";
import { DAY } from "./plan.js";
import { storeOf } from "./store.js";
import { taskOf, untilOf } from "./task.js";
import { say } from "./words.js";

/**
 * What the learner is asked for, if what was kept still names a task of this quiz.
 * @param {import("./sitting.js").Sitting} sitting
 * @param {{course: string, quiz: string, record: string}} page
 */
function notice({ task, seed, name, isDone: done }, { course, quiz, record }) {
  const until = untilOf(task, quiz);
  if (!until) return [];
  const seen = recordOf(storeOf(course), course).attempts.some((one) => one.quiz === quiz && one.draw === seed && one.sitting !== name);
  const left = daysLeft(until, new Date());
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

/** What is told of an address that asks for what is not there. */
const odd = () => say("This address asks for nothing that this quiz has. Here is the quiz as it is.");

shelve("task", { notice, odd, taskOf });
