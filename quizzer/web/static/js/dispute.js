/** Needed seldom: what somebody holds against a question, kept for the tutor. */
import { keep } from "./outbox.js";

/** Keep what is written beside the button, if there is something.
 * @param {HTMLButtonElement} button
 * @param {Omit<import("./types").Event, "device" | "sequence" | "kind">} about what every event says of itself */
export async function dispute(button, about) {
  const place = /** @type {HTMLElement} */ (button.closest(".dispute"));
  const text = /** @type {HTMLTextAreaElement} */ (place.querySelector("textarea")), reason = text.value.trim();
  if (!reason) return text.focus();
  text.parentElement?.remove();
  /** @type {HTMLElement} */ (place.querySelector("[role=status]")).textContent = "Kept for the tutor.";
  place.querySelector("summary")?.focus();
  await keep({ ...about, kind: "dispute", reason });
}
