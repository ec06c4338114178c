/** Typed replies, read exactly as the program reads them (`question/replies.py`, `question/numbers.py`). */
import { sixFigures, sum } from "./sum.js";

/** @typedef {import("./types").Question} Question @typedef {import("./types").Pack} Pack */
/** @typedef {{text: string, number: number, places: number, worked: string}} Reply */
/** @typedef {{why: string}} AskAgain */

const EXACT = 9; // decimal places of a value that was worked out and not rounded by the person
const LABEL = /^\s*([123]\s*)?([A-Za-z])\s*[).]?\s*([123])?\s*$/;
const NUMBER = /^\s*([-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*([^\d\s.,+-][^\n]*)?$/;
const THOUSANDS = /^[-+]?[1-9]\d{0,2},\d{3}$/;
const GROUPED = /(^|[^\d.,])(\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+)(?!\d)/g;
const LETTERED = /^\s*(\d+)([RrKkM])(\d+)\s*$/;
const PREFIX = { r: "ohm", k: "kohm", m: "Mohm" };
const OPERATION = /^[*/×÷·:^][^\n]*\d/;
const SUM = /^\s*([-+]?[\d.(][-+*/().\d\s]*?)\s*([^-+*/().\d\s][^\n]*)?$/;
/** @type {Record<string, string>} */
const SIGNS = { "×": "*", "·": "*", "÷": "/", ":": "/", ",": ".", "\u2212": "-", "^": "**" };

/**
 * The reply that a text means for a question, or why it has to be asked again.
 * @param {Pack} pack @param {Question} question @param {string} typed @returns {Reply | AskAgain}
 */
export function readReply(pack, question, typed) {
  // What comes along, unseen, when text is pasted.
  const text = typed.replaceAll("\ufeff", "").replace(/[\x1c-\x1f\x85]/g, " ");
  if (question.number) return readNumber(pack, question.number, text);
  const labels = (question.options ?? []).map(([label]) => label);
  return question.kind === "order" ? readOrder(pack, labels, text) : readLabel(pack, labels, text);
}

/** @param {Pack} pack @param {string} which @param {string[]} said @returns {AskAgain} */
const again = (pack, which, ...said) => ({ why: pack.again[which].replace(/\{(\d)\}/g, (_, at) => said[at]) });

/** @param {string} text @param {number} number @param {number} places @param {string} worked @returns {Reply} */
const reply = (text, number = 0, places = 0, worked = "") => ({ text, number, places, worked });

/** @param {Pack} pack @param {string[]} labels @param {string} text */
function readLabel(pack, labels, text) {
  const found = LABEL.exec(text), label = found?.[2].toUpperCase() ?? "";
  const twice = found?.[1] && found[3];
  return labels.includes(label) && !twice ? reply(label) : again(pack, "letter", labels[0], labels.at(-1) ?? "");
}

/** @param {Pack} pack @param {string[]} labels @param {string} text */
function readOrder(pack, labels, text) {
  const typed = text.replace(/[\s,;>-]/g, "").toUpperCase().replace(/[123]$/, "");
  if ([...typed].sort().join() === labels.join()) return reply(typed);
  return again(pack, "order", labels[0], labels.at(-1) ?? "", [...labels].reverse().join(""));
}

/** @param {Pack} pack @param {import("./types").Wanted} wanted @param {string} text */
function readNumber(pack, wanted, text) {
  const tidy = latin(text.replaceAll("\u2212", "-"))
    .replace(GROUPED, (_, before, digits) => before + digits.replace(/\s/g, ""));
  const lettered = LETTERED.exec(tidy);
  if (lettered) {
    const letter = /** @type {"r" | "k" | "m"} */ (lettered[2].toLowerCase());
    return inUnit(pack, wanted, `${lettered[1]}.${lettered[3]}`, PREFIX[letter]);
  }
  const [found, digits, unit = ""] = NUMBER.exec(tidy) ?? [];
  if (found === undefined || OPERATION.test(unit)) return workedOut(pack, wanted, tidy);
  if (!THOUSANDS.test(digits)) return inUnit(pack, wanted, digits, unit);
  return again(pack, "thousands", digits, digits.replaceAll(",", ""), digits.replaceAll(",", "."));
}

/** Digits of any script as those of ours; each script has ten in a row. @param {string} text */
function latin(text) {
  return text.replace(/\p{Nd}/gu, (digit) => {
    const code = /** @type {number} */ (digit.codePointAt(0));
    let above = 0;
    while (/\p{Nd}/u.test(String.fromCodePoint(code - above - 1))) above += 1;
    return String(above % 10);
  });
}

/** @param {Pack} pack @param {import("./types").Wanted} wanted @param {string} digits @param {string} typed */
function inUnit(pack, wanted, digits, typed) {
  const places = digits.split(/e/i)[0].split(/[.,]/)[1]?.length ?? 0;
  return scaled(pack, wanted, digits, Number(digits.replaceAll(",", ".")), places, typed.trim());
}

/**
 * @param {Pack} pack @param {import("./types").Wanted} wanted @param {string} digits @param {number} number
 * @param {number} places @param {string} typed @returns {Reply | AskAgain}
 */
function scaled(pack, wanted, digits, number, places, typed) {
  const { words, bare } = pack.units, word = typed ? unitOf(pack, typed) : wanted.unit;
  if (word === undefined) return again(pack, "unknown", typed, wanted.like);
  const [factor, shown, kind] = words[word], [own, , ownKind] = words[wanted.unit];
  if (kind !== ownKind) return again(pack, "other", shown || bare);
  const scale = factor / own;
  if (!Number.isFinite(number * scale)) {
    const few = [...digits].length > 12 ? `${digits.slice(0, 12)}…` : digits;
    return again(pack, "huge", few, wanted.like);
  }
  return typed ? reply(`${digits} ${word}`, number * scale, scale === 1 ? places : EXACT) : reply(digits, number, places);
}

/** The unit word of any spelling. @param {Pack} pack @param {string} typed @returns {string | undefined} */
function unitOf(pack, typed) {
  const { words, typed: ways } = pack.units;
  const text = typed.replace(/\s+/g, " ").replaceAll("\u2126", "\u03a9").replaceAll("\u03bc", "\u00b5");
  if (Object.hasOwn(words, text)) return text;
  const shown = Object.keys(words).findLast((word) => words[word][1] === text);
  if (shown !== undefined) return shown;
  return [text, text.toLowerCase()].map((way) => (Object.hasOwn(ways, way) ? ways[way] : undefined)).find(Boolean);
}

/** @param {Pack} pack @param {import("./types").Wanted} wanted @param {string} tidy @returns {Reply | AskAgain} */
function workedOut(pack, wanted, tidy) {
  const [, text = "", unit = ""] = SUM.exec(tidy.replace(/[×·÷:,\u2212^]/g, (sign) => SIGNS[sign])) ?? [];
  const written = text.trim().replace(/\s+/g, " "), value = sum(written);
  if (value === null) return again(pack, "number", wanted.like);
  const found = scaled(pack, wanted, written, value, EXACT, unit.trim());
  return "why" in found ? found : { ...found, worked: `${written} = ${sixFigures(value)}` };
}
