/** On every page: how many answers wait to be sent, whether a new version does, and that a browser keeps nothing. */
import { run } from "./db.js";
import { copy, make, WORKER } from "./html.js";
import { start, state } from "./outbox.js";

const place = /** @type {HTMLElement} */ (document.getElementById("status"));
const { person = "" } = place.dataset, events = "/study/events";
const answers = (/** @type {number} */ n) => `${n} answer${n === 1 ? "" : "s"}`;

/** Say how things stand; of an answer that the program marked otherwise, that its mark counts. @param {any} [event] */
async function tell(event) {
  const { waiting, others, refused, unsaved, signedOut } = await state(person);
  const words = [
    waiting && `${waiting} waiting to be sent${signedOut ? ": sign in again to send them" : ""}`,
    refused && `${answers(refused)} refused`,
    others && `${answers(others)} of somebody else wait${others === 1 ? "s" : ""} here`,
    unsaved && `${unsaved} not saved on this phone: keep this window open until sent, or save to a file`,
  ].filter(Boolean).join(" · ");
  if (place.firstChild?.textContent !== words) place.replaceChildren(words, ...(words ? [" ", plain("Save to a file", save)] : []));
  for (const { said } of event?.detail ?? []) note(said);
}

/** Few ever need it: it is fetched with the shell, and read only then. */
const save = async () => (await import("./files.js")).save();

/** @param {string} textContent @param {() => void} onclick */
const plain = (textContent, onclick) => make("button", { type: "button", className: "plain", textContent, onclick });

/** Say something that stays until the page is left. @param {string} textContent */
export const note = (textContent) =>
  document.getElementById("main")?.prepend(make("p", { className: "caution", role: "alert", textContent }));

/** Whether this browser keeps anything; asking it to keep what there is through a tidying of its own. */
async function storage() {
  try {
    await run(["own"], "readwrite", (get) => { get("own").put({ id: "tried" }); });
    await navigator.storage?.persist?.();
  } catch {
    document.getElementById("main")?.prepend(copy("unkept"));
  }
}

/** The worker: there from the first visit on; a newer one waits until the person takes it. Without HTTPS there is none. */
async function register() {
  if (document.readyState !== "complete") await new Promise((resolve) => addEventListener("load", resolve));
  const workers = navigator.serviceWorker;
  const registration = await workers?.register(WORKER, { updateViaCache: "none" }).catch(() => undefined);
  /** With nobody in control this is the first one, and nothing waits. @param {ServiceWorker | null} worker */
  const offer = (worker) => {
    if (!worker || !workers.controller || document.getElementById("update")) return;
    place.after(copy("newer"));
    document.getElementById("update")?.addEventListener("click", () => {
      workers.addEventListener("controllerchange", () => location.reload());
      worker.postMessage("take");
    });
  };
  offer(registration?.waiting ?? null);
  registration?.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker?.addEventListener("statechange", () => { if (worker.state === "installed") offer(worker); });
  });
  document.addEventListener("visibilitychange", () => document.hidden || registration?.update().catch(() => {}));
}

addEventListener("outbox", (event) => void tell(event));
void storage();
void tell();
if (person) start(person, events);
void register();
