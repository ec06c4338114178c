/** The settings take a file of answers in: what another phone could not send goes from here. */
import { run } from "./db.js";
import { flush } from "./outbox.js";
import { events, note, person } from "./status.js";
import { count } from "./words.js";

const file = /** @type {HTMLInputElement} */ (document.getElementById("answers"));
file.addEventListener("change", async () => {
  try {
    const { events: every } = JSON.parse((await file.files?.[0].text()) ?? "");
    const own = every.filter((/** @type {any} */ one) => one.trainee === person);
    await run(["outbox"], "readwrite", (get) =>
      own.forEach((/** @type {any} */ event) => get("outbox").put({ id: event.id, trainee: person, event })));
    const others = own.length < every.length ? ": the others are somebody else's" : "";
    note(`${own.length} of ${count(every.length, "answer")} taken in${others}.`);
    await flush(person, events);
  } catch {
    note("That is no file of answers that a phone saved.");
  }
});
