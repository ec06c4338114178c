/** Answers on their way: written first, then sent, and deleted only on the server's word for their id. */
import { result, run } from "./db.js";

/** @typedef {import("./types").Event} Event @typedef {import("./types").Waiting} Waiting */

const AT_ONCE = 50, USUAL = 20_000, LONGEST = 300_000; // events; milliseconds between two tries
/** Answers that the phone would not keep: they live as long as this window. @type {Waiting[]} */
let unsaved = [];
let failures = 0, signedOut = false;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;
const tabs = new BroadcastChannel("quizzer");

/** Tell this page, and the other tabs, that something was written or sent. @param {import("./types").Word["accepted"]} [differ] marked otherwise */
function tell(differ) {
  dispatchEvent(new CustomEvent("outbox", { detail: differ }));
  tabs.postMessage("");
}

/** A name that nobody else makes; `randomUUID` is missing where the page has no HTTPS. */
export const newId = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");
const passing = { device: newId(), sequence: 0 }; // counts what the phone would not keep

/** Keep an event, with its place in this browser's sequence, and what else has to be written with it. Whether it is on
 * the disk; if not, it waits in this window.
 * @param {Omit<Event, "device" | "sequence">} event @param {(get: (name: string) => IDBObjectStore) => Promise<void>} [also] */
export async function keep(event, also = async () => {}) {
  const waits = ({ device, sequence } = passing) => ({ id: event.id, trainee: event.trainee, event: { ...event, device, sequence } });
  const saved = await run(["outbox", "packs", "own"], "readwrite", async (get) => {
    const own = (await result(get("own").get("device"))) ?? { id: "device", device: newId(), sequence: 0 };
    own.sequence += 1;
    get("own").put(own);
    get("outbox").add(waits(own));
    await also(get);
    return true;
  }).catch(() => false);
  if (!saved) {
    passing.sequence += 1;
    unsaved.push(waits());
  }
  tell();
  return saved;
}

/** Everything that waits, of whomever, in the order it was given. @returns {Promise<Waiting[]>} */
export async function waiting() {
  const kept = await run(["outbox"], "readonly", (get) => result(get("outbox").getAll())).catch(() => []);
  return [...kept, ...unsaved].sort((one, other) => one.event.sequence - other.event.sequence);
}

/** How many answers wait, and of whom. @param {string} person */
export async function state(person) {
  const every = await waiting(), own = every.filter((one) => one.trainee === person);
  const refused = own.filter((one) => one.refused).length;
  return { waiting: own.length - refused, others: every.length - own.length, refused, unsaved: unsaved.length, signedOut };
}

/** Send what waits, now and then again: on load, when there is a line, when the page is looked at, and by the clock.
 * @param {string} person @param {string} address */
export function start(person, address) {
  const go = () => void flush(person, address);
  addEventListener("online", go);
  document.addEventListener("visibilitychange", () => document.hidden || go());
  tabs.onmessage = () => dispatchEvent(new CustomEvent("outbox"));
  go();
}

/** Send what waits of this person, and of nobody else; one tab at a time. Whether the server was reached.
 * @param {string} person @param {string} address */
export async function flush(person, address) {
  clearTimeout(timer);
  const send = async () => { while (await batch(person, address)); };
  try {
    // The lock spares the server duplicates; what comes twice all the same is recorded once.
    await (navigator.locks?.request("quizzer-outbox", send) ?? send());
    failures = 0;
  } catch {
    failures += 1;
  }
  const wait = failures ? Math.min(LONGEST, 1000 * 2 ** failures) : USUAL;
  timer = setTimeout(() => void flush(person, address), wait * (0.5 + Math.random()));
  tell();
  return !failures;
}

/** Send one batch; whether there may be more. @param {string} person @param {string} address */
async function batch(person, address) {
  const some = (await waiting()).filter((one) => one.trainee === person && !one.refused).slice(0, AT_ONCE);
  if (!some.length) return false;
  const body = JSON.stringify({ trainee: person, events: some.map((one) => one.event) });
  const told = await fetch(address, { method: "POST", body, headers: { "Content-Type": "application/json" } });
  signedOut = told.status === 401 || told.status === 409;
  if (!told.ok) throw new Error(String(told.status));
  const { accepted, rejected } = /** @type {import("./types").Word} */ (await told.json());
  const why = new Map(rejected.map((one) => [one.id, one.reason])), had = new Set(accepted.map((one) => one.id));
  await forget(had, why);
  const differ = accepted.filter((one) => !one.agreed);
  if (differ.length) tell(differ);
  return had.size + why.size > 0;
}

/** Delete what the server has, and mark what it will never take. @param {Set<string>} had @param {Map<string, string>} why */
async function forget(had, why) {
  unsaved = unsaved.filter((one) => !had.has(one.id)).map((one) => ({ ...one, refused: why.get(one.id) }));
  await run(["outbox"], "readwrite", async (get) => {
    for (const id of had) get("outbox").delete(id);
    for (const [id, refused] of why) {
      const one = await result(get("outbox").get(id));
      if (one) get("outbox").put({ ...one, refused });
    }
  });
}
