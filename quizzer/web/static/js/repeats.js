/** What is asked again in a session, as `study` does it (`quizzer/workflows/study/again.py`). */

/** @typedef {import("./types").Question} Question @typedef {import("./types").Repeat} Repeat @typedef {import("./types").Pack} Pack */

/** When the session began, and which question of it is on. */
let began = 0, nth = 0;
/** What is asked again, and how many of those that are counted there were. */
let list = /** @type {Repeat[]} */ ([]), extras = 0;

/** What is still to be asked again: behind so many seconds of a session nothing. @param {{until: number}} pack */
export function left({ until }) {
  if (Date.now() - began > 1000 * until) list = [];
  return list;
}

/** Begin a session, or go on with one of which something waits. @param {Repeat[]} [known] */
export function begin(known = []) {
  ({ began = Date.now(), nth = 0 } = known.at(-1) ?? /** @type {Partial<Repeat>} */ ({}));
  extras = 0;
  list = known;
}

/** Count a question that is asked, maybe the first of a session. @param {boolean} first */
export function asked(first) {
  if (first) begin();
  nth += 1;
}

/** Note how a question is asked again, if its share of the session leaves one; whether it does.
 * @param {DOMStringMap} how what the server says of it @param {Question} question @param {Pack} [pack] has to have it */
export function note({ again: exercise = "", first, every }, { entry, session }, pack) {
  const one = { entry, exercise, nth, session, began };
  if (extras >= Number(first) + Math.floor(nth / Number(every)) || pack && !within(pack, one)) return false;
  extras += first ? 1 : 0;
  return list.push(one);
}

/** Take out of the list what was answered: not before, for the page may be loaded anew. @param {Question} question */
export const answered = (question) => { list = list.filter((one) => !alike(one, question)); };

/** The sub-topic of an entry. @param {{entry: string}} of */
const part = ({ entry = "" }) => entry.slice(0, entry.lastIndexOf("/"));

/** @param {Repeat} one @param {Question} question */
const alike = (one, { entry, exercise }) => one.entry === entry && one.exercise === exercise;

/** The question of a pack by which something is asked again. @param {Pack} pack @param {Repeat} one */
const within = ({ repeats = [] }, one) => repeats.find((question) => alike(one, question));

/** What is asked again behind a question, if it has come: of another part, three questions later; at the `end` any.
 * @param {Pack} pack @param {Question} question @param {boolean} [end] @returns {Question | undefined} */
export function again(pack, question, end) {
  const there = left(pack).filter((one) => within(pack, one));
  const apart = there.find((one) => part(one) !== part(question) && (end || nth - one.nth > 2));
  const one = apart ?? there[end ? 0 : -1], found = one && within(pack, one);
  return found && { ...found, session: question.session };
}
