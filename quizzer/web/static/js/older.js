/** Needed seldom: a pack of version 1, 2 or 3, which a phone may have kept, laid out as those of today. */

/** @typedef {Record<string, any>} Old */
const HOLE = "\ue000"; // where a reply was said that was not known when the pack was made

/** @param {string} text */
const escaped = (text) => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** @param {Old} pack @returns {any} */
export const newer = (pack) => ({ repeats: [], ...told(pack.version < 2 ? second(pack) : pack), version: 4 });

/** The meanings of words came once for all questions; now each question has its own. @param {Old} pack @returns {Old} */
const told = ({ terms = "", ...pack }) => ({
  ...pack, questions: pack.questions.map((/** @type {Old} */ one) => ({ ...one, html: one.html + terms })),
});

/** @param {Old} pack */
function second(pack) {
  const { words, typed } = pack.units, shown = Object.entries(words).map(([word, [, text]]) => [text, word]);
  const ways = { ...typed, ...Object.fromEntries(shown.filter(([text, word]) => text && text !== word)) };
  return { ...pack, version: 2, terms: "", units: { ...pack.units, typed: ways }, questions: pack.questions.map((/** @type {Old} */ one) => question(pack, one)) };
}

/** @param {Old} pack @param {Old} one */
function question(pack, one) {
  const outcomes = Object.entries(one.outcomes).map(([name, said]) => [name, outcome(said)]);
  const labels = one.options?.map((/** @type {string[]} */ [label]) => label).join("");
  return { ...one, labels, html: asked(one), after: after(pack, one), outcomes: Object.fromEntries(outcomes) };
}

/** @param {Old} said */
function outcome({ right, rounded, said, guessed = said, why = "" }) {
  const mark = rounded ? "rounded" : right ? "right" : "wrong";
  const html = `<div data-when="${mark}0 ${mark}1">${said}</div><div data-when="${mark}2">${guessed}</div>${why}`;
  return { mark, html: html.replaceAll(HOLE, '<span class="given"></span>') };
}

/** @param {Old} pack @param {Old} one */
function after({ certain, quality }, { reason = "", answer, working, back }) {
  const said = (/** @type {string} */ mark) => [0, 1, 2].map((sure) =>
    `<p class="key" data-when="${mark}${sure}">${escaped(back[quality[mark][sure] ?? quality[mark]])}</p>`).join("");
  const right = `<div data-when="right0 right1 right2 rounded0 rounded1 rounded2">${reason}</div>`;
  const more = working ? `<details><summary>Worked solution</summary><div>${working}</div></details>` : "";
  const wrong = `<div data-when="wrong0">${certain}</div><div data-when="wrong0 wrong1 wrong2">${answer}</div>`;
  return `${right}${wrong}${more}<div class="back">${said("right")}${said("wrong")}${said("rounded")}</div>`;
}

/** @param {Old} one */
function asked({ title, ask, kind, wanted, options = [] }) {
  const radio = (/** @type {string[]} */ [label, html]) =>
    `<label class="option"><input type="radio" name="reply" value="${label}"><b>${label}</b><span>${html}</span></label>`;
  const step = (/** @type {string[]} */ [label, html]) =>
    `<button type="button" name="step" value="${label}" class="option" aria-pressed="false"><b>${label}</b><span>${html}</span></button>`;
  const inside = {
    number: `<label for="number">${escaped(wanted)}</label><input id="number" name="reply" inputmode="decimal" maxlength="400">`,
    order: `<legend>${escaped(wanted)}</legend><p class="aside">Your order so far: <output name="order">none</output></p><input type="hidden" name="reply">`,
    choose: `<legend>${escaped(wanted)}</legend>`,
  }[/** @type {"number" | "order" | "choose"} */ (kind)];
  const form = `<fieldset class="options">${inside}${options.map(kind === "order" ? step : radio).join("")}</fieldset>`;
  return `<h1 tabindex="-1">${escaped(title)}</h1><p class="beside"></p><article>${ask}</article><form class="reply" autocomplete="off">${form}</form>`;
}
