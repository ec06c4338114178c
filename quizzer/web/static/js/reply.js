/** Replies, read and marked exactly as the program does it (`question/replies.py`, `question/numbers.py`). */
/** @typedef {import("./types").Question} Question @typedef {import("./types").Pack} Pack @typedef {import("./types").Wanted} Wanted */
/** @typedef {{text: string, number: number, places: number, worked: string}} Reply @typedef {{why: string}} AskAgain @typedef {Reply | AskAgain | Promise<Reply | AskAgain>} Read */

const EXACT = 9; // decimal places of a value that was worked out and not rounded by the person
const NUMBER = /^\s*([-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*([^\d\s.,+-][^\n]*)?$/;
const THOUSANDS = /^[-+]?[1-9]\d{0,2},\d{3}$/;
const GROUPED = /(^|[^\d.,])(\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+)(?!\d)/g;
const LETTERED = /^\s*(\d+)([RrKkM])(\d+)\s*$/;
const PREFIX = /** @type {Record<string, string>} */ ({ r: "ohm", k: "kohm", m: "Mohm" });
const OPERATION = /^[*/×÷·:^][^\n]*\d/;
const SUM = /^\s*([-+]?[\d.(][-+*/().\d\s]*?)\s*([^-+*/().\d\s][^\n]*)?$/;
const SIGNS = /** @type {Record<string, string>} */ ({ "×": "*", "·": "*", "÷": "/", ":": "/", ",": ".", "\u2212": "-", "^": "**" });

/** The reply that a text means for a question, or why it has to be asked again. Letters come from buttons: only an order
 * may be without some. @param {Pack} pack @param {Question} question @param {string} typed @returns {Read} */
export function readReply(pack, { number, kind, labels = "" }, typed) {
  // What comes along, unseen, when text is pasted.
  if (number) return readNumber(pack, number, typed.replaceAll("\ufeff", "").replace(/[\x1c-\x1f\x85]/g, " "));
  if (kind !== "order" || typed.length === labels.length) return { text: typed, number: 0, places: 0, worked: "" };
  return again(pack, "order", labels[0], labels.slice(-1), [...labels].reverse().join(""));
}

/** @param {Pack} pack @param {string} which @param {string[]} said @returns {AskAgain} */
const again = (pack, which, ...said) => ({ why: pack.again[which].replace(/\{(\d)\}/g, (_, at) => said[at]) });

/** @param {Pack} pack @param {Wanted} wanted @param {string} text @returns {Read} */
function readNumber(pack, wanted, text) {
  const tidy = latin(text.replaceAll("\u2212", "-")).replace(GROUPED, (_, before, digits) => before + digits.replace(/\s/g, ""));
  const [lettered, ohms, letter, rest] = LETTERED.exec(tidy) ?? [];
  if (lettered) return inUnit(pack, wanted, `${ohms}.${rest}`, PREFIX[letter.toLowerCase()]);
  const [found, digits, unit = ""] = NUMBER.exec(tidy) ?? [];
  if (found === undefined || OPERATION.test(unit)) return workedOut(pack, wanted, tidy);
  if (!THOUSANDS.test(digits)) return inUnit(pack, wanted, digits, unit);
  return again(pack, "thousands", digits, digits.replaceAll(",", ""), digits.replaceAll(",", "."));
}

/** Digits of any script as those of ours; each script has ten in a row. @param {string} text */
const latin = (text) => text.replace(/\p{Nd}/gu, (digit) => {
  const code = digit.codePointAt(0) ?? 0;
  let above = 0;
  while (/\p{Nd}/u.test(String.fromCodePoint(code - above - 1))) above += 1;
  return String(above % 10);
});

/** @param {Pack} pack @param {Wanted} wanted @param {string} digits @param {string} typed */
function inUnit(pack, wanted, digits, typed) {
  const places = digits.split(/e/i)[0].split(/[.,]/)[1]?.length ?? 0;
  return scaled(pack, wanted, digits, Number(digits.replaceAll(",", ".")), places, typed.trim());
}

/** Few ever type a sum. @param {Pack} pack @param {Wanted} wanted @param {string} text @returns {Promise<Reply | AskAgain>} */
async function workedOut(pack, wanted, text) {
  const { sixFigures, sum } = await import("./sum.js");
  const [, typed = "", unit = ""] = SUM.exec(text.replace(/[×·÷:,\u2212^]/g, (sign) => SIGNS[sign])) ?? [];
  const written = typed.trim().replace(/\s+/g, " "), value = sum(written);
  if (value === null) return again(pack, "number", wanted.like);
  return { ...scaled(pack, wanted, written, value, EXACT, unit.trim()), worked: `${written} = ${sixFigures(value)}` };
}

/** A number in the unit that is asked for. @param {Pack} pack @param {Wanted} wanted @param {string} digits
 * @param {number} number @param {number} places @param {string} typed @returns {Reply | AskAgain} */
function scaled(pack, wanted, digits, number, places, typed) {
  const { words, bare } = pack.units, word = typed ? unitOf(pack, typed) : wanted.unit;
  if (word === undefined) return again(pack, "unknown", typed, wanted.like);
  const [factor, shown, kind] = words[word], [own, , ownKind] = words[wanted.unit], scale = factor / own;
  if (kind !== ownKind) return again(pack, "other", shown || bare);
  if (!Number.isFinite(number * scale)) {
    return again(pack, "huge", [...digits].length > 12 ? `${digits.slice(0, 12)}…` : digits, wanted.like);
  }
  if (!typed) return { text: digits, number, places, worked: "" };
  return { text: `${digits} ${word}`, number: number * scale, places: scale === 1 ? places : EXACT, worked: "" };
}

/** The unit word of any spelling. @param {Pack} pack @param {string} typed @returns {string | undefined} */
function unitOf({ units: { words, typed: ways } }, typed) {
  const text = typed.replace(/\s+/g, " ").replaceAll("\u2126", "\u03a9").replaceAll("\u03bc", "\u00b5");
  if (Object.hasOwn(words, text)) return text;
  const way = [text, text.toLowerCase()].find((one) => Object.hasOwn(ways, one));
  return way && ways[way];
}

/** The name of the outcome that a reply leads to. @param {Question} question @param {Reply} reply @returns {string} */
export function outcomeOf({ number: wanted, kind, key = "" }, { text, number, places }) {
  if (wanted) return ofNumber(wanted, number, places);
  const at = [...key].findIndex((label, place) => text[place] !== label);
  return kind !== "order" ? text : at < 0 ? "right" : String(at);
}

/** @param {Wanted} wanted @param {number} number @param {number} places @returns {string} */
function ofNumber({ value, tolerance, lastPlace, coarse, coarser, diagnoses }, number, places) {
  const off = Math.abs(number - value);
  if (off <= tolerance) return "right";
  const wrong = diagnoses.map(([made, within], at) => ({ at, within, off: Math.abs(number - made) }));
  const near = wrong.filter((one) => one.off <= one.within).sort((one, other) => one.off - other.off)[0];
  if (near) return String(near.at);
  const rounded = coarser[Math.min(places, coarser.length - 1)];
  if (off <= coarse * Math.abs(value) && (off <= 1.5 * lastPlace || rounded.includes(number))) return "rounded";
  const power = Math.log10(number / value), whole = Math.round(power); // NaN and infinite where they have no ratio
  return whole !== 0 && Math.abs(power - whole) < 0.003 ? "power" : "other";
}
