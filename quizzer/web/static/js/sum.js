/** A sum of plain numbers worked out, as the program does: + - * / ** and brackets, nothing else. */

const LONGEST = 200, DEEPEST = 24;

/** @typedef {{value: number, depth: number}} Part  a value, and how deeply it is nested */

/** @param {boolean} holds */
const must = (holds) => { if (!holds) throw new RangeError("no sum"); };

/** @param {number} value @param {Part[]} inside @returns {Part} */
const part = (value, ...inside) => ({ value, depth: 1 + Math.max(0, ...inside.map((one) => one.depth)) });

/** What joins two parts; the signs that bind least come first. @type {Record<string, (left: number, right: number) => number>[]} */
const SIGNS = [
  { "+": (left, right) => left + right, "-": (left, right) => left - right },
  { "*": (left, right) => left * right, "/": (left, right) => { must(right !== 0); return left / right; } },
];

/** The value of a sum, or null where it is none or has none.
 * @param {string} text  digits, points, brackets, signs and single blanks @returns {number | null} */
export function sum(text) {
  const parts = text.match(/\d+\.?\d*|\.\d+|\*\*|[-+*/()]|\S/g) ?? [];
  let at = 0;
  const next = (/** @type {string[]} */ ...signs) => signs.includes(parts[at]) && parts[at++];

  /** Parts with signs between them that bind as much, worked out from the left. @param {number} binding @returns {Part} */
  const chain = (binding) => {
    const signs = SIGNS[binding];
    if (!signs) return signed();
    let left = chain(binding + 1), sign;
    while ((sign = next(...Object.keys(signs)))) {
      const right = chain(binding + 1);
      left = part(signs[sign](left.value, right.value), left, right);
    }
    return left;
  };

  /** @returns {Part} */
  const signed = () => {
    if (next("-")) {
      const inner = signed();
      return part(-inner.value, inner);
    }
    const base = single();
    if (!next("**")) return base;
    const exponent = signed(), value = base.value ** exponent.value;
    // Where the program refuses: the root of a negative number, nought to a negative power, too large a result.
    must(Number.isFinite(value) || !Number.isFinite(base.value) || !Number.isFinite(exponent.value));
    return part(value, base, exponent);
  };

  const single = () => {
    if (next("(")) {
      const inner = chain(0);
      must(next(")") === ")");
      return inner;
    }
    const digits = parts[at++] ?? "";
    // 007 is no number there, and 00 is nought; what follows a number at once is no second one.
    must(/^(0+|[1-9]\d*|\d+\.\d*|\.\d+)$/.test(digits) && !/^[\d.]/.test(parts[at] ?? ""));
    return part(Number(digits));
  };

  try {
    must(text.length <= LONGEST);
    const whole = chain(0);
    must(at === parts.length && whole.depth <= DEEPEST && Number.isFinite(whole.value));
    return whole.value;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** A number to six figures, as the program writes it. @param {number} value */
export function sixFigures(value) {
  // Halfway between two the program takes the even digit, toExponential the larger number.
  const exact = value.toExponential(40), even = /^-?\d\.\d{4}[02468](?=50*e)/.exec(exact)?.[0];
  const [digits, power] = (even ? `${even}e${exact.split("e")[1]}` : value.toExponential(5)).split("e");
  const exponent = Number(power);
  if (exponent >= -4 && exponent < 6) return Object.is(value, -0) ? "-0" : String(Number(`${digits}e${exponent}`));
  return `${Number(digits)}e${exponent < 0 ? "-" : "+"}${String(Math.abs(exponent)).padStart(2, "0")}`;
}
