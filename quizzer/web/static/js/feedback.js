/** What an answer led to: the verdict first, the reason, the working behind a tap, where it all comes from. */
import { button, make, put } from "./html.js";
import { WORDS } from "./words.js";

/** @typedef {import("./types").Pack} Pack @typedef {import("./types").Question} Question */
/**
 * @typedef {object} Answer
 * @property {import("./types").Outcome} outcome
 * @property {import("./reply.js").Reply} reply
 * @property {number} sure  which of `pack.sure`
 * @property {boolean} saved  whether it is on the phone's disk
 * @property {string} [back]  when it comes back
 */

/**
 * The feedback on an answer; `go` asks the next question, `dispute` keeps a reason for the tutor.
 * @param {Pack} pack @param {Question} question @param {Answer} answer
 * @param {() => void} go @param {(reason: string) => void} dispute
 */
export function feedback(pack, question, answer, go, dispute) {
  const { outcome, reply, sure, saved, back } = answer, first = sure === 0, last = sure === pack.sure.length - 1;
  const said = put(make("div"), last && outcome.guessed ? outcome.guessed : outcome.said, reply.text);
  const part = make("section", { id: "verdict", tabindex: "-1" }, said);
  const add = (/** @type {string | undefined} */ html) => html && part.append(put(make("div"), html));
  if (reply.worked) part.append(make("p", { class: "aside" }, reply.worked));
  if (!saved) part.append(make("p", { class: "caution" }, WORDS.unsaved(1)));
  add(outcome.why);
  if (!outcome.right && first) add(pack.certain);
  add(outcome.right ? question.reason : question.answer);
  if (question.working) {
    part.append(make("details", {}, make("summary", {}, WORDS.working), put(make("div"), question.working)));
  }
  if (back) part.append(make("p", { class: "key" }, back));
  part.append(button(WORDS.next, go, { class: "go" }));
  add(question.behind);
  part.append(disputing(dispute));
  return { part, words: said.textContent ?? "" };
}

/** @param {(reason: string) => void} dispute */
function disputing(dispute) {
  const reason = make("textarea", { id: "reason", rows: "3", maxlength: "2000" });
  const part = make("details", {}, make("summary", {}, WORDS.dispute), make("label", { for: "reason" }, WORDS.reason), reason);
  part.append(button(WORDS.send, () => {
    const said = reason.value.trim();
    if (!said) return reason.focus();
    dispute(said);
    part.replaceChildren(make("summary", {}, WORDS.dispute), make("p", { role: "status" }, WORDS.disputed));
    part.querySelector("summary")?.focus();
  }));
  return part;
}

/** Which of the quality's numbers an answer has: by it the day is told on which it comes back.
 * @param {Pack} pack @param {import("./types").Outcome} outcome @param {number} sure */
export function qualityOf({ quality }, outcome, sure) {
  if (outcome.rounded) return quality.rounded;
  return (outcome.right ? quality.right : quality.wrong)[sure];
}
