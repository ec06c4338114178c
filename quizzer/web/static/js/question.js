/** A question as a form: options or a field, and how sure. Buttons are large, and one thumb reaches them. */
import { button, make, put } from "./html.js";
import { WORDS } from "./words.js";

/** @typedef {import("./types").Pack} Pack @typedef {import("./types").Question} Question */
/** @typedef {(typed: string, sure: number) => void} Answered */

/**
 * The form of a question. `answered` is told what was typed or chosen, and which of `pack.sure` it is.
 * @param {Pack} pack @param {Question} question @param {Answered} answered
 */
export function form(pack, question, answered) {
  const kinds = { choose: choices, number: field, order: steps }, asked = kinds[question.kind](question);
  const again = make("p", { id: "again", class: "wrong", role: "alert" });
  const sure = make("fieldset", { class: "buttons sure" }, make("legend", {}, WORDS.sure));
  pack.sure.forEach((words, at) => sure.append(button(words, () => {
    const typed = asked.reply();
    again.textContent = typed ? "" : WORDS.first;
    if (typed) answered(typed, at);
    else /** @type {HTMLElement | null} */ (asked.part.querySelector("input, button"))?.focus();
  })));
  const whole = make("form", { class: "reply", autocomplete: "off" }, asked.part, again, sure);
  // Enter in the field says nothing of how sure somebody is: it leads on to that.
  whole.addEventListener("submit", (event) => event.preventDefault());
  whole.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    sure.querySelector("button")?.focus();
  });
  return whole;
}

/** Say why a reply has to be given again, and lead back to it. @param {HTMLFormElement} whole @param {string} why */
export function askAgain(whole, why) {
  const again = whole.querySelector("#again"), input = whole.querySelector("input");
  if (again) again.textContent = why;
  input?.setAttribute("aria-describedby", "again");
  input?.focus();
}

/** Let nothing more be changed. @param {HTMLFormElement} whole */
export const close = (whole) => whole.querySelectorAll("fieldset").forEach((part) => { part.disabled = true; });

/** @param {Question} question */
function choices({ wanted, options = [] }) {
  const part = make("fieldset", { class: "options" }, make("legend", {}, wanted));
  for (const [label, html] of options) {
    const input = make("input", { type: "radio", name: "reply", value: label });
    part.append(make("label", { class: "option" }, input, make("b", {}, label), put(make("span"), html)));
  }
  return { part, reply: () => part.querySelector("input:checked")?.getAttribute("value") ?? "" };
}

/** @param {Question} question */
function field({ wanted }) {
  const input = make("input", { id: "number", inputmode: "decimal", enterkeyhint: "next", spellcheck: "false", maxlength: "400" });
  const part = make("fieldset", { class: "number" }, make("label", { for: "number" }, wanted), input);
  return { part, reply: () => input.value.trim() };
}

/** @param {Question} question */
function steps({ wanted, options = [] }) {
  let chosen = "";
  const so_far = make("p", { role: "status", class: "aside" }, WORDS.order(""));
  const part = make("fieldset", { class: "options" }, make("legend", {}, wanted), so_far);
  for (const [label, html] of options) {
    const step = button("", () => {
      chosen = chosen.includes(label) ? chosen.replace(label, "") : chosen + label;
      step.setAttribute("aria-pressed", String(chosen.includes(label)));
      so_far.textContent = WORDS.order([...chosen].join(", "));
    }, { class: "option", "aria-pressed": "false" });
    step.append(make("b", {}, label), put(make("span"), html));
    part.append(step);
  }
  return { part, reply: () => chosen };
}
