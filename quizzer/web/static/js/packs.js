/** The questions on the phone: fetched where there is a line, kept for where there is none. */
import { result, run } from "./db.js";
import { trust } from "./html.js";
import { waiting } from "./outbox.js";

/** @typedef {import("./types").Pack} Pack @typedef {import("./types").Taken} Taken */
const VERSION = 4;
const PATIENCE = 8000; // milliseconds that somebody waits for a pack, or for more of it

/** Now by the phone's clock set right by the server's, with the phone's zone. @param {number} offset milliseconds */
export function at(offset) {
  const now = Date.now() + offset, zone = -60_000 * new Date(now).getTimezoneOffset(); // milliseconds
  const away = new Date(Math.abs(zone)).toISOString().slice(11, 16);
  return new Date(now + zone).toISOString().replace("Z", (zone < 0 ? "-" : "+") + away);
}

/** Whether a pack is of today, by the phone's clock set right. @param {Taken} taken */
export const ofToday = ({ pack, offset }) => pack.day === at(offset).slice(0, 10);

/** The next question that was not answered; undefined when there is none. @param {Taken} taken */
export const next = ({ pack, done }) => pack.questions.find((one) => !(one.entry in done));

/** A pack as it is used: with how far the phone's clock is off, and what was answered of it.
 * @param {Pack} pack @param {Taken["done"]} done @returns {Taken} */
export function taken(pack, done = {}) {
  trust(pack);
  return { pack, offset: Date.parse(pack.issued) - Date.now(), done };
}

/** The pack that is on the phone, undefined where there is none. @param {string} id @returns {Promise<Taken | undefined>} */
export async function kept(id) {
  const [found, answered] = await run(["packs"], "readonly", (get) =>
    Promise.all([id, `done ${id}`].map((one) => result(get("packs").get(one))))).catch(() => []);
  if (found?.pack.version < VERSION) found.pack = (await import("./older.js")).newer(found.pack);
  if (found?.pack.version !== VERSION) return undefined;
  return { ...taken(found.pack), offset: found.offset, done: { ...found.done, ...answered?.done }, repeats: answered?.repeats };
}

/** What nobody waits longer for. @template T @param {Promise<T>} promise @returns {Promise<T>} */
const soon = (promise) => Promise.race([promise, new Promise((_, late) => setTimeout(late, PATIENCE))]);

/** A pack from the server; one that stands still, or is not for this page, is given up.
 * @param {string} person @param {string} address @param {(begun: Taken) => void} hear told what has come of it */
export async function fetched(person, address, hear) {
  const line = new AbortController();
  /** @type {Taken | undefined} */
  let begun;
  try {
    const answer = await soon(fetch(address, { signal: line.signal }));
    if (!answer.ok || !answer.body) throw new Error(String(answer.status));
    const parts = answer.body.pipeThrough(new TextDecoderStream()).getReader();
    let text = "";
    for (let part; !(part = await soon(parts.read())).done;) {
      text += part.value; // up to the end of a line it is a pack, whose list is open
      if (text.includes("\n")) hear(begun = read(person, `${text.slice(0, text.lastIndexOf("\n"))}]}`));
    }
    return read(person, text);
  } catch (broken) {
    if (begun?.pack.repeats) return begun; // the questions are there
    throw broken;
  } finally {
    line.abort();
  }
}

/** A pack as it was sent, refused unless it is for this person and this page. @param {string} person @param {string} text */
function read(person, text) {
  const pack = /** @type {Pack} */ (JSON.parse(text));
  if (pack.trainee !== person || pack.version !== VERSION) throw new Error("not for this page");
  return taken(pack);
}

/** Write a pack down, with what was answered and is not sent yet, so that it is not asked again as new, and what is.
 * @param {string} id @param {string} person @param {Taken} fresh @param {typeof import("./repeats.js").left} left */
export async function store(id, person, { pack, offset, done }, left) {
  for (const { trainee, event } of await waiting()) {
    if (trainee === person && event.kind === "answer") done[event.entry] ??= false;
  }
  await run(["packs"], "readwrite", (get) => {
    get("packs").put({ id, pack, offset });
    get("packs").put({ id: `done ${id}`, done, repeats: left(pack) });
  }).catch(() => {}); // where nothing is kept, it lives as long as this window
}

/** Write with an answer that its question is done, and what is asked again: a page loaded anew goes on behind it.
 * @param {(get: string) => IDBObjectStore} get @param {string} id @param {Taken["done"]} more @param {import("./types").Repeat[]} repeats */
export async function noteDone(get, id, more, repeats) {
  const known = await result(get("packs").get(`done ${id}`));
  get("packs").put({ id: `done ${id}`, done: { ...known?.done, ...more }, repeats });
}
