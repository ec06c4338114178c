/** Which outcome a reply leads to: the program's own marking (`question/numbers.py`), by the numbers it packed. */

/**
 * The name of the outcome of a reply that was read.
 * @param {import("./types").Question} question @param {import("./reply.js").Reply} reply @returns {string}
 */
export function outcomeOf(question, reply) {
  if (question.number) return ofNumber(question.number, reply.number, reply.places);
  if (question.kind !== "order") return reply.text;
  const key = question.key ?? "", at = [...key].findIndex((label, place) => reply.text[place] !== label);
  return at < 0 ? "right" : String(at);
}

/** @param {import("./types").Wanted} wanted @param {number} number @param {number} places @returns {string} */
function ofNumber(wanted, number, places) {
  const { value, tolerance, lastPlace, coarse, coarser, diagnoses } = wanted, off = Math.abs(number - value);
  if (off <= tolerance) return "right";
  const near = diagnoses
    .map(([wrong, within], at) => ({ at, off: Math.abs(number - wrong), within }))
    .filter((one) => one.off <= one.within);
  if (near.length) return String(near.reduce((best, one) => (one.off < best.off ? one : best)).at);
  const rounded = coarser[Math.min(places, coarser.length - 1)];
  if (off <= coarse * Math.abs(value) && (off <= 1.5 * lastPlace || rounded.includes(number))) return "rounded";
  const ratio = value ? number / value : 0;
  if (!(ratio > 0 && ratio < Infinity)) return "other";
  const power = Math.log10(ratio), whole = Math.round(power);
  return whole !== 0 && Math.abs(power - whole) < 0.003 ? "power" : "other";
}
