/** A session on the phone: what is asked, what an answer leads to, and the end. The server wrote all of it as HTML. */
import { copy, make, put } from "./html.js";
import { flush, keep, newId, state } from "./outbox.js";
import * as repeats from "./repeats.js";
import { at, fetched, kept, next, noteDone, ofToday, store, taken } from "./packs.js";

/** @typedef {import("./types").Question} Question @typedef {import("./types").Taken} Taken */
const EVENT = 2; // the version of what is sent
const NOTHING = /** @type {import("./types").Pack} */ (/** @type {any} */ ({ questions: [] }));

const place = /** @type {HTMLElement} */ (document.getElementById("study"));
const live = /** @type {HTMLElement} */ (document.getElementById("live"));
const { person = "", pack: address = "", events = "", over = "", first } = place.dataset;
const id = `${person} ${address}`;
delete place.dataset.first; // it has the key

/** What is gone on with, of it what is asked, and since when. */
let now = taken(NOTHING), question = /** @type {Question} */ ({}), shown = 0;
/** Whether a pack is on its way, and who waits for more of it. */
let coming = false, wake = /** @type {(_?: any) => void} */ (() => {});

/** What is inside of the place of the session. @param {string} which @returns {HTMLElement | null} */
const inside = (which) => place.querySelector(which);

/** Put something else on the page, and lead whoever reads it there. @param {Node[]} parts */
function show(...parts) {
  place.replaceChildren(...parts);
  inside("h1")?.focus({ preventScroll: true });
  scrollTo(0, 0);
}

/** Go on with the pack of today that is on the phone; else fetch one. Its first question came with a page that was not
 * there before. Without a line any pack will do. */
async function begin(fresh = false) {
  const had = await kept(id), today = had && !fresh && ofToday(had) ? had : undefined;
  repeats.begin(today?.repeats);
  question = /** @type {any} */ ({ session: today?.repeats?.[0]?.session });
  if (today && (next(today) || repeats.again(today.pack, question, true))) now = today;
  else repeats.begin();
  if (now !== today && !coming) {
    now = taken(first && !fresh ? JSON.parse(first) : NOTHING);
    void whole(now.done).catch(() => { if (had && !next(now)) now = had; }).finally(() => {
      coming = false;
      count(place);
      wake();
    });
  }
  await ask();
}

/** Fetch a pack, and go on with as much of it as has come. @param {Taken["done"]} done what is answered meanwhile */
async function whole(done) {
  coming = true;
  const all = { ...(await fetched(person, address, (begun) => { now = { ...begun, done }; wake(); })), done };
  await store(id, person, all, repeats.left);
  now = all;
}

/** The next question, once one has come; of a session that ends, what is to be asked again and is on its way. */
async function following() {
  for (;;) {
    const other = next(now), ends = other ? other.session !== question.session : !coming;
    const again = repeats.again(now.pack, question, ends);
    if (again || !coming || other && !(ends && repeats.left(now.pack).length)) return again ?? other;
    if (!inside("#fetching")) show(copy("more-fetching"));
    await new Promise((resolve) => { wake = resolve; });
  }
}

/** Ask the next question. @param {Question} [found] */
async function ask(found) {
  found ??= await following();
  if (!found) return show(copy(now.pack === NOTHING ? "none" : "nothing"));
  shown = performance.now();
  repeats.asked(found.session !== question.session);
  question = found;
  live.textContent = "";
  const whole = put(make("div", {}), question.html); // laid out once, when all of it is there
  whole.querySelector("form")?.append(copy(question.exercise ? "unsure" : "sure"));
  count(whole);
  show(whole);
}

/** All questions of the session that is on. */
const session = () => now.pack.questions.filter((one) => one.session === question.session);

/** Say which question of the session it is, and of how many, once the whole pack is on the phone. @param {HTMLElement} asked */
function count(asked) {
  const beside = asked.querySelector(".beside"), every = session();
  const before = every.filter((one) => one.entry in now.done && one.entry !== question.entry).length;
  const many = now.pack.repeats && !coming ? ` of ${every.length}` : "";
  if (beside && !question.drill) beside.textContent = `question ${before + 1}${many}`;
}

/** Take a reply, if it can be read: mark it, keep it, and only then tell. @param {HTMLButtonElement} button */
async function answer(button) {
  const form = /** @type {HTMLFormElement} */ (button.form), asked = question, { pack } = now;
  const typed = String(new FormData(form).get("reply") ?? "").trim();
  const { outcomeOf, readReply } = await reading;
  const reply = typed ? await readReply(pack, asked, typed) : { why: "Choose an answer first." };
  if (form.querySelector(":disabled")) return; // tapped twice
  if ("why" in reply) return askAgain(form, reply.why);
  for (const part of form.querySelectorAll("fieldset")) part.disabled = true;
  /** @type {HTMLElement} */ (inside("#again")).textContent = "";
  const { seed, asked: print, drill, exercise } = asked, name = outcomeOf(asked, reply);
  const { mark, html } = asked.outcomes[name], right = mark !== "wrong";
  const sure = button.value, confidence = pack.sure[Number(sure)], took = (performance.now() - shown) / 1000;
  const done = drill ? {} : { [asked.entry]: right };
  if (drill) repeats.answered(asked);
  const told = verdict(html, reply, [mark, mark + sure, name + sure], took);
  const said = { reply: typed, right, confidence, took };
  Object.assign(now.done, done); // before: a pack that is being written down takes it along
  const saved = await keep({ ...about(), kind: "answer", seed, asked: print, drill, exercise, ...said }, (get) => noteDone(get, id, done, repeats.left(pack)));
  /** @type {HTMLElement} */ (told.querySelector(".unsaved")).hidden = saved;
  place.append(told);
  inside("#verdict")?.focus();
  live.textContent = inside("#verdict p")?.textContent ?? "";
  void flush(person, events);
}

/** Say why a reply has to be given again, and lead back to it. @param {HTMLFormElement} form @param {string} why */
function askAgain(form, why) {
  const input = /** @type {HTMLElement} */ (form.querySelector("input:not([type=hidden]), button"));
  /** @type {HTMLElement} */ (inside("#again")).textContent = why;
  input.setAttribute("aria-describedby", "again");
  input.focus();
}

/** What an answer led to: the verdict first. `names` are those of the answer; what belongs to others is taken away.
 * @param {string} html @param {import("./reply.js").Reply} reply @param {string[]} names @param {number} took */
function verdict(html, { text, worked }, names, took) {
  const all = copy("answered"), slot = (/** @type {string} */ name) => /** @type {HTMLElement} */ (all.querySelector(name));
  put(slot(".said"), html).querySelectorAll(".given").forEach((one) => { one.textContent = text; });
  put(slot(".after"), question.after);
  put(slot(".behind"), question.behind);
  slot(".worked").textContent = worked;
  if (!ofToday(now)) slot(".back")?.remove(); // it was reckoned for the day of the pack
  for (const one of /** @type {NodeListOf<HTMLElement>} */ (all.querySelectorAll("[data-when]"))) {
    const { when = "", slower, again } = one.dataset;
    const holds = when.split(" ").some((name) => names.includes(name)) && !(took < Number(slower));
    if (!holds || again !== undefined && !repeats.note(one.dataset, question, coming ? undefined : now.pack)) one.remove();
  }
  return all;
}

/** What every event says of itself. */
const about = () => ({
  version: EVENT, id: newId(), entry: question.entry, digest: question.digest, trainee: person,
  at: at(now.offset), issued: now.pack.issued,
});

/** Add a step to the order, or take it back. @param {HTMLButtonElement} step */
function choose(step) {
  const { reply, order } = /** @type {any} */ (step.form?.elements);
  reply.value = reply.value.includes(step.value) ? reply.value.replace(step.value, "") : reply.value + step.value;
  order.value = [...reply.value].join(", ") || "none";
  step.setAttribute("aria-pressed", String(reply.value.includes(step.value)));
}

/** Few ever need it. `said` at once: the next question may come before the module. @param {HTMLButtonElement} button */
const dispute = async (button, said = about()) => { await (await import("./dispute.js")).dispute(button, said); void flush(person, events); };

async function goOn(/** @type {HTMLButtonElement} */ button) {
  button.disabled = true; // once, however often it is tapped: on a bad line it leads on late
  const found = await following();
  if (found?.session === question.session) return ask(found);
  if (!now.pack.repeats && !next(now)) return begin(true); // the others did not come
  // What the program knows of the session is more: with all of it sent, its own page tells.
  if ((await flush(person, events)) && !(await state(person)).waiting) return location.assign(over);
  const done = session().map((one) => now.done[one.entry]);
  const right = done.filter(Boolean).length, end = copy("over");
  /** @type {HTMLElement} */ (end.querySelector(".key")).textContent = `Of ${done.length} questions ${right} right, ${done.length - right} wrong.`;
  show(end);
}

/** What each button does, by its name. @type {Record<string, (button: HTMLButtonElement) => unknown>} */
const acts = { sure: answer, step: choose, go: goOn, send: dispute, more: () => begin(true) };
place.addEventListener("click", ({ target }) => {
  const button = target instanceof Element && target.closest("button");
  if (button) void acts[button.name]?.(button);
});
// Enter in the field says nothing of how sure somebody is: it leads on to that.
place.addEventListener("submit", (event) => {
  event.preventDefault();
  inside(".sure button")?.focus();
});
void begin();
const reading = import("./reply.js"); // not needed before the first answer
