/** The questions on the phone: fetched where there is a line, kept for where there is none. */
import { result, run } from "./db.js";
import { waiting } from "./outbox.js";

/** @typedef {import("./types").Pack} Pack @typedef {import("./types").Question} Question @typedef {import("./types").Taken} Taken */
export const VERSION = 1;
const PATIENCE = 8000; // milliseconds that a pack may take to come

/** The day by the phone's clock set right, as YYYY-MM-DD. @param {number} offset */
export const today = (offset) => at(offset).slice(0, 10);

/** Now by the phone's clock set right by the server's, with the phone's zone. @param {number} offset milliseconds */
export function at(offset) {
  const now = new Date(Date.now() + offset), minutes = -now.getTimezoneOffset(), away = Math.abs(minutes);
  const two = (/** @type {number} */ n) => String(Math.trunc(n)).padStart(2, "0");
  const local = new Date(now.getTime() + minutes * 60_000).toISOString().slice(0, 23);
  return `${local}${minutes < 0 ? "-" : "+"}${two(away / 60)}:${two(away % 60)}`;
}

/** The next question that was not answered; undefined when there is none. @param {Taken} taken */
export const next = ({ pack, done }) => pack.questions.find((one) => !(one.entry in done));

/** The pack to go on with: the one on the phone while it is of today and has questions, else a new one.
 * @param {string} person @param {string} address @param {boolean} [fresh] @returns {Promise<Taken | undefined>} */
export async function pack(person, address, fresh = false) {
  const id = `${person} ${address}`;
  const kept = /** @type {Taken | undefined} */ (
    await run(["packs"], "readonly", (get) => result(get("packs").get(id))).catch(() => undefined));
  const known = kept && kept.pack.version === VERSION ? kept : undefined;
  const usable = known && next(known) ? known : undefined;
  if (usable && !fresh && usable.pack.day === today(usable.offset)) return usable;
  return (await fetched(id, person, address).catch(() => undefined)) ?? usable ?? known;
}

/** @param {string} id @param {string} person @param {string} address @returns {Promise<Taken>} */
async function fetched(id, person, address) {
  const answer = await fetch(address, { signal: AbortSignal.timeout(PATIENCE) });
  if (!answer.ok) throw new Error(String(answer.status));
  const pack = /** @type {Pack} */ (await answer.json());
  // Signed in meanwhile as somebody else: this page is not theirs. And of a newer layout it knows nothing.
  if (pack.trainee !== person || pack.version !== VERSION) throw new Error("not for this page");
  const offset = Date.parse(pack.issued) - Date.now();
  const sent = (await waiting()).filter((one) => one.trainee === person && one.event.kind === "answer");
  const taken = { id, pack, offset, done: Object.fromEntries(sent.map((one) => [one.event.entry, false])) };
  await run(["packs"], "readwrite", (get) => { get("packs").put(taken); }).catch(() => {});
  return taken;
}
