/** What is asked again in a session, as `study` does it (`quizzer/workflows/study/again.py`). */

/** @typedef {import("./types").Question} Question @typedef {import("./types").Repeat} Repeat */

/** When the session began, and which question of it is on. */
let began = 0, nth = 0;
/** What is asked again, and how many of those that are counted there were. */
let list = /** @type {Repeat[]} */ ([]), extras = 0;

/** What is still to be asked again. @type {() => Repeat[]} */
export const left = () => list;

/** Begin a session. @param {Repeat[]} [known] */
export function begin(known = []) {
  began = performance.now();
  nth = extras = 0;
  list = known;
}

/** Count a question that is asked, maybe the first of a session. @param {boolean} first */
export function asked(first) {
  if (first) begin();
  nth += 1;
}

/** Note how a question is asked again, if its share of the session leaves one; whether it does.
 * @param {DOMStringMap} how what the server says of it @param {Question} question */
export function note({ again: exercise = "", first, every }, { entry, session }) {
  if (extras >= Number(first) + Math.floor(nth / Number(every))) return false;
  extras += first ? 1 : 0;
  return list.push({ entry, exercise, nth, session });
}

/** The sub-topic of an entry. @param {{entry: string}} of */
const part = ({ entry = "" }) => entry.slice(0, entry.lastIndexOf("/"));

/** What is asked again behind a question: of another part, three questions later; at the `end` of the session any.
 * @param {import("./types").Pack} pack @param {Question} question @param {boolean} [end] @returns {Question | undefined} */
export function again({ until, repeats = [] }, question, end) {
  if (performance.now() - began > 1000 * until) return undefined;
  const apart = list.find((one) => part(one) !== part(question) && (end || nth - one.nth > 2)), one = apart ?? (end ? list[0] : apart);
  list = list.filter((other) => other !== one);
  const found = one && repeats.find(({ entry, exercise }) => entry === one.entry && exercise === one.exercise);
  return found && { ...found, session: question.session };
}
