/** On every page: how many answers wait to be sent, what was refused, and a file of them all. */
import { button, make } from "./html.js";
import { changed, start, state, waiting } from "./outbox.js";
import { register } from "./register.js";
import { WORDS } from "./words.js";

const place = document.getElementById("status");
export const { person = "", events = "/study/events" } = place?.dataset ?? {};

/** Say how things stand. @param {CustomEvent<{differ?: {entry: string, right: boolean}[]}>} [event] */
async function tell(event) {
  const { waiting: n, others, refused, unsaved, signedOut } = await state(person);
  const parts = [
    n ? WORDS.waiting(n) + (signedOut ? `: ${WORDS.signIn}` : "") : "",
    refused ? WORDS.refused(refused) : "",
    others ? WORDS.others(others) : "",
    unsaved ? WORDS.unsaved(unsaved) : "",
  ].filter(Boolean);
  const words = parts.join(" · ");
  if (place && place.firstChild?.textContent !== words) {
    place.replaceChildren(words, ...(words ? [" ", button(WORDS.file, () => void save(), { class: "plain" })] : []));
  }
  for (const { entry, right } of event?.detail?.differ ?? []) note(WORDS.differs(entry, right));
}

/** Say something that stays until the page is left. @param {string} words */
export function note(words) {
  document.getElementById("main")?.prepend(make("p", { class: "caution", role: "alert" }, words));
}

/** All that waits, as a file that the program's keeper can take in. */
async function save() {
  const text = JSON.stringify({ version: 1, events: (await waiting()).map((one) => one.event) }, null, 1);
  const link = make("a", { download: "quizzer-answers.json", href: URL.createObjectURL(new Blob([text], { type: "application/json" })) });
  document.body.append(link);
  link.click();
  link.remove();
}

/** Whether this browser keeps anything; asking it to keep what there is through a tidying of its own. */
async function storage() {
  try {
    const { run } = await import("./db.js");
    await run(["own"], "readwrite", (get) => { get("own").put({ id: "tried" }); });
    await navigator.storage?.persist?.();
  } catch {
    note(WORDS.cannot);
  }
}

/** Signing out leaves answers where they are, for who gave them; it asks first. */
document.querySelectorAll("form[action='/leave']").forEach((form) => form.addEventListener("submit", async (event) => {
  if (!(event.target instanceof HTMLFormElement) || form.hasAttribute("data-asked")) return;
  event.preventDefault();
  const { waiting: n } = await state(person);
  if (n && !confirm(WORDS.leave(n))) return;
  form.setAttribute("data-asked", "");
  event.target.requestSubmit();
}));

changed.addEventListener("change", (event) => void tell(/** @type {CustomEvent} */ (event)));
void storage();
void tell();
if (person) void start(person, events);
register((take) => place?.after(button(WORDS.update, take, { class: "plain", id: "update" })));
