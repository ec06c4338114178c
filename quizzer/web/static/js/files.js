/** Needed seldom: a file of all that waits, taking one in, and what the settings ask before somebody signs out. */
import { run } from "./db.js";
import { make } from "./html.js";
import { flush, state, waiting } from "./outbox.js";
import { note } from "./status.js";

const { person = "" } = document.getElementById("status")?.dataset ?? {};
/** @param {number} n */
const answers = (n) => `${n} answer${n === 1 ? "" : "s"}`;

/** All that waits, as a file that the program's keeper can take in. */
export async function save() {
  const text = JSON.stringify({ version: 1, events: (await waiting()).map((one) => one.event) }, null, 1);
  const href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = make("a", { download: "quizzer-answers.json", href });
  document.body.append(link);
  link.click();
  link.remove();
}

const file = /** @type {HTMLInputElement | null} */ (document.getElementById("answers"));
file?.addEventListener("change", async () => {
  try {
    const { events } = JSON.parse((await file.files?.[0].text()) ?? "");
    const own = events.filter((/** @type {any} */ one) => one.trainee === person);
    await run(["outbox"], "readwrite", (get) =>
      own.forEach((/** @type {any} */ event) => get("outbox").put({ id: event.id, trainee: person, event })));
    note(`${own.length} of ${answers(events.length)} taken in${own.length < events.length ? ": the others are somebody else's" : ""}.`);
    await flush(person, "/study/events");
  } catch {
    note("That is no file of answers that a phone saved.");
  }
});

/** Signing out leaves answers where they are, for who gave them; it asks first. */
const form = /** @type {HTMLFormElement | null} */ (document.querySelector("form[action='/leave']"));
form?.addEventListener("submit", async (event) => {
  event.preventDefault();
  const { waiting: n } = await state(person), are = n === 1 ? "is" : "are";
  const words = `${answers(n)} on this phone ${are} not sent yet. They stay here, and are sent when you sign in again. Sign out all the same?`;
  if (!n || confirm(words)) form.submit(); // without asking again
});
