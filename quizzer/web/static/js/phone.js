/** A session on the phone: what is asked, what an answer leads to, and the end. */
import { feedback, qualityOf } from "./feedback.js";
import { button, make, put, trust } from "./html.js";
import { outcomeOf } from "./mark.js";
import { flush, keep, newId, state } from "./outbox.js";
import { at, next, pack as taking, today } from "./packs.js";
import { askAgain, close, form } from "./question.js";
import { result } from "./db.js";
import { readReply } from "./reply.js";
import { WORDS } from "./words.js";

/** @typedef {import("./types").Question} Question @typedef {import("./types").Taken} Taken */
const EVENT = 1; // the version of what is sent

const place = /** @type {HTMLElement} */ (document.getElementById("study"));
const live = /** @type {HTMLElement} */ (document.getElementById("live"));
const { person = "", pack: address = "", events = "", over = "" } = place.dataset;

/** Put something else on the page, and lead whoever reads it there. @param {Node[]} parts */
function show(...parts) {
  place.replaceChildren(...parts);
  const title = place.querySelector("h1");
  title?.setAttribute("tabindex", "-1");
  title?.focus();
  scrollTo(0, 0);
}

/** Begin, or go on with what was begun. @param {boolean} [fresh] */
async function begin(fresh = false) {
  const taken = await taking(person, address, fresh);
  if (!taken) return show(make("h1", {}, "Study"), make("p", {}, WORDS.none));
  trust(taken.pack);
  ask(taken, next(taken));
}

/** @param {Taken} taken @param {Question | undefined} question */
function ask(taken, question) {
  if (!question) return show(make("h1", {}, "Study"), make("p", {}, WORDS.nothing), more());
  const session = taken.pack.questions.filter((one) => one.session === question.session);
  const beside = WORDS.question(session.indexOf(question) + 1, session.length), shown = performance.now();
  const whole = form(taken.pack, question, (typed, sure) => {
    const reply = readReply(taken.pack, question, typed);
    if ("why" in reply) return askAgain(whole, reply.why);
    close(whole);
    void answer(taken, question, { typed, reply, sure, took: (performance.now() - shown) / 1000 });
  });
  live.textContent = "";
  show(make("h1", {}, question.title), make("p", { class: "beside" }, beside), put(make("article"), question.ask), whole);
}

/**
 * Mark an answer, keep it, and only then tell.
 * @param {Taken} taken @param {Question} question
 * @param {{typed: string, reply: import("./reply.js").Reply, sure: number, took: number}} given
 */
async function answer(taken, question, { typed, reply, sure, took }) {
  const { pack, offset } = taken, outcome = question.outcomes[outcomeOf(question, reply)], { right } = outcome;
  const { seed, asked } = question, confidence = pack.sure[sure];
  const event = { ...about(taken, question), kind: /** @type {const} */ ("answer"), seed, asked, reply: typed, right, confidence, took };
  const saved = await keep(event, (get) => noteDone(get, taken, question, right));
  taken.done[question.entry] = right;
  const back = today(offset) === pack.day ? question.back[qualityOf(pack, outcome, sure)] : "";
  const said = feedback(pack, question, { outcome, reply, sure, saved, back }, () => void goOn(taken, question), (reason) =>
    void keep({ ...about(taken, question), kind: "dispute", reason }).then(send));
  place.append(said.part);
  said.part.focus();
  live.textContent = said.words;
  send();
}

/** @param {Taken} taken @param {Question} question */
const about = ({ pack, offset }, { entry, digest }) =>
  ({ version: EVENT, id: newId(), entry, digest, trainee: person, at: at(offset), issued: pack.issued });
const send = () => void flush(person, events);

/** Write with the answer that its question is done: a page loaded again goes on behind it.
 * @param {(get: string) => IDBObjectStore} get @param {Taken} taken @param {Question} question @param {boolean} right */
async function noteDone(get, taken, question, right) {
  const kept = /** @type {Taken | undefined} */ (await result(get("packs").get(taken.id)));
  if (kept?.pack.issued === taken.pack.issued) get("packs").put({ ...kept, done: { ...kept.done, [question.entry]: right } });
}

/** @param {Taken} taken @param {Question} question */
async function goOn(taken, question) {
  const following = next(taken);
  if (following?.session === question.session) return ask(taken, following);
  // What the program knows of the session is more: with all of it sent, its own page tells.
  if ((await flush(person, events)) && !(await state(person)).waiting) return location.assign(over);
  const done = taken.pack.questions.filter((one) => one.session === question.session).map((one) => taken.done[one.entry]);
  show(
    make("h1", {}, WORDS.over),
    make("p", { class: "key" }, WORDS.done(done.filter(Boolean).length, done.length)),
    more(),
    make("p", {}, make("a", { href: "/progress" }, WORDS.progress)),
    make("p", { class: "aside" }, WORDS.cleared),
  );
}

/** The next session: with questions fetched anew, where they can be. */
const more = () => button(WORDS.more, () => void begin(true), { class: "go" });

void begin();
