// What the small engine lacks and a browser has: exact figures as text, regular expressions, Unicode.
// Whole numbers beyond 32 bits are cut on the way, so numbers come in as floats and go out as text.

const BESIDE_NUMBERS = "\\t-\\r\\x20\\x85\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000";
const SPACE = `\\x1c-\\x1f${BESIDE_NUMBERS}`; // `float` and `int` take no separator sign for white space, `strip` does
const FRONT = new RegExp(`^[${SPACE}]+`, "u");
const BEHIND = new RegExp(`[${SPACE}]+$`, "u");
const BETWEEN = new RegExp(`[${SPACE}]+`, "u");
const AROUND = new RegExp(`^[${BESIDE_NUMBERS}]+|[${BESIDE_NUMBERS}]+$`, "gu");

/** @param {number} x */
const odd = (x) => (Number.isNaN(x) ? "nan" : x > 0 ? "inf" : "-inf");

/** @param {string} digits whether they are a five and nothing but zeros behind it */
const isHalf = (digits) => /^50*$/.test(digits);

/**
 * Whether a number can be an exact half at so many decimals: half of a power of ten is an odd multiple of that power of two.
 * @param {number} size
 * @param {number} decimals
 */
const mayBeHalf = (size, decimals) => (size * 2 ** (decimals + 1)) % 2 === 1;

/** @param {string} text whether its last digit is even */
const isEven = (text) => "02468".includes(text.at(-1) ?? "");

/**
 * The number with so many decimals; an exact half goes to the even digit, which the browser's own does not do.
 * @param {number} x
 * @param {number} decimals
 */
export function fixed(x, decimals) {
  if (!Number.isFinite(x)) return odd(x);
  const size = Math.abs(x);
  const sign = x < 0 || Object.is(x, -0) ? "-" : "";
  if (size >= 1e21) return sign + BigInt(size) + (decimals ? `.${"0".repeat(decimals)}` : "");
  const text = size.toFixed(decimals);
  // Only a number with few bits behind the point is an exact half, and then more decimals say so.
  if (decimals > 22 || !mayBeHalf(size, decimals)) return sign + text;
  const long = size.toFixed(Math.min(decimals + 30, 100));
  const cut = long.indexOf(".") + 1 + decimals;
  if (!isHalf(long.slice(cut)) || !isHalf(size.toFixed(Math.min(decimals + 60, 100)).slice(cut))) return sign + text;
  const low = decimals ? long.slice(0, cut) : long.slice(0, cut - 1);
  return sign + (isEven(low) ? low : text);
}

/**
 * The number rounded to tens, hundreds and so on, as text.
 * @param {number} x
 * @param {number} zeros
 */
export function tens(x, zeros) {
  const size = Math.abs(x);
  const sign = x < 0 || Object.is(x, -0) ? "-" : "";
  if (zeros > 310) return `${sign}0.0`;
  const unit = 10n ** BigInt(zeros);
  const whole = BigInt(Math.trunc(size));
  const down = whole / unit;
  const twice = 2n * (whole % unit);
  const past = twice === unit && size > Math.trunc(size);
  const up = twice > unit || past || (twice === unit && down % 2n === 1n);
  return sign + (down + (up ? 1n : 0n)) * unit;
}

/**
 * The number with so many digits, as Python's `g` writes it.
 * @param {number} x
 * @param {number} digits
 */
export function general(x, digits) {
  if (!Number.isFinite(x)) return odd(x);
  if (x === 0) return Object.is(x, -0) ? "-0" : "0";
  const count = digits || 1;
  const size = Math.abs(x);
  const sign = x < 0 ? "-" : "";
  let [figures, power] = size.toExponential(count - 1).split("e");
  const decimals = count - 1 - Number(power); // one more where the figure was rounded up to a power of ten
  if (mayBeHalf(size, decimals) || mayBeHalf(size, decimals + 1)) {
    const [long, longPower] = size.toExponential(Math.min(100, count + 59)).split("e");
    const all = long.replace(".", "");
    if (isHalf(all.slice(count)) && isEven(all.slice(0, count))) [figures, power] = [all.slice(0, count), longPower];
  }
  const all10 = figures.replace(".", "");
  const exponent = Number(power);
  if (exponent < -4 || exponent >= count) {
    const behind = all10.slice(1).replace(/0+$/, "");
    const ten = `${exponent < 0 ? "-" : "+"}${String(Math.abs(exponent)).padStart(2, "0")}`;
    return `${sign}${all10[0]}${behind ? `.${behind}` : ""}e${ten}`;
  }
  const text =
    exponent < 0 ? `0.${"0".repeat(-exponent - 1)}${all10}` : `${all10.slice(0, exponent + 1)}.${all10.slice(exponent + 1)}`;
  return sign + text.replace(/0+$/, "").replace(/\.$/, "");
}

/**
 * The shortest text that reads back as the same number, as Python's `repr` writes it.
 * @param {number} x
 */
export function shortest(x) {
  if (!Number.isFinite(x)) return odd(x);
  if (Object.is(x, -0)) return "-0.0";
  const size = Math.abs(x);
  if (size !== 0 && (size < 1e-4 || size >= 1e16)) {
    const [figures, power] = x.toExponential().split("e");
    const exponent = Number(power);
    return `${figures}e${exponent < 0 ? "-" : "+"}${String(Math.abs(exponent)).padStart(2, "0")}`;
  }
  const text = String(x);
  return text.includes(".") ? text : `${text}.0`;
}

/** @param {string} letter of any script, as a digit from 0 to 9 */
function worth(letter) {
  const code = letter.codePointAt(0) ?? 0;
  let first = code; // digits of a script stand in tens, one after the other
  while (code - first < 9 && /\p{Nd}/u.test(String.fromCodePoint(first - 1))) first -= 1;
  return String((code - first) % 10);
}

/** @param {string} text */
const plainDigits = (text) => text.replace(AROUND, "").replace(/\p{Nd}/gu, worth);

/**
 * What Python's `float` reads, in plain digits; nothing where it reads none.
 * @param {string} text
 */
export function number_text(text) {
  const plain = plainDigits(text);
  if (/^[+-]?(inf|infinity|nan)$/i.test(plain)) return plain.toLowerCase().replace("infinity", "inf");
  const digits = "\\d+(?:_\\d+)*";
  if (!new RegExp(`^[+-]?(?:${digits}\\.?(?:${digits})?|\\.${digits})(?:[eE][+-]?${digits})?$`).test(plain)) return "";
  const value = Number(plain.replaceAll("_", ""));
  return Number.isFinite(value) ? shortest(value) : value > 0 ? "inf" : "-inf";
}

/**
 * What Python's `int` reads, in plain digits; nothing where it reads none.
 * @param {string} text
 */
export function whole_text(text) {
  const plain = plainDigits(text);
  if (!/^[+-]?\d+(?:_\d+)*$/.test(plain)) return "";
  const digits = plain.replaceAll("_", "").replace("+", "");
  return digits.replace("-", "").length > 4300 ? "" : digits; // Python reads no longer one
}

/**
 * @param {string} text
 * @param {number} ends 1 in front, 2 behind, 3 both
 */
export function stripped(text, ends) {
  const from = ends & 1 ? text.replace(FRONT, "") : text;
  return ends & 2 ? from.replace(BEHIND, "") : from;
}

/** @param {string} text its words, each on a line */
export const joined_split = (text) => text.split(BETWEEN).filter(Boolean).join("\n");

/** @param {string} text */
export const lowered = (text) => text.toLowerCase();

/** @param {string} text */
export const uppered = (text) => text.toUpperCase();

/** @param {string} text */
export function capital(text) {
  const [first = "", ...rest] = text;
  const upper = first.toUpperCase();
  const [head = "", ...more] = upper; // title case: of a letter that becomes several, only the first is large
  return head + (more.join("") + rest.join("")).toLowerCase();
}

/** @param {string} text */
export const digit = (text) => /^(?:\p{Nd}|[\u00b2\u00b3\u00b9\u2070\u2074-\u2079\u2080-\u2089])+$/u.test(text);

/** @param {string} text */
export const alpha = (text) => /^\p{L}+$/u.test(text);

/** @param {string} text */
export const alnum = (text) => /^[\p{L}\p{N}]+$/u.test(text);

/** @param {string} text */
export const printable = (text) => !/[\p{C}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u.test(text);

/**
 * @param {string} form
 * @param {string} text
 */
export const normal = (form, text) => text.normalize(form);

const NOTHING = "\u{10ffff}"; // the letter NUL ends a text on its way; inside the engine this stands for it

/** @param {string} text as JSON with every letter that is not ASCII as an escape */
export const quoted = (text) =>
  JSON.stringify(text.replaceAll(NOTHING, "\0")).replace(
    /[^ -~]/g,
    (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );

/** @param {string} text a text of JSON; half characters, which cannot cross, as the sign for what is unknown */
export function unquoted(text) {
  const plain = JSON.parse(text);
  if (plain.includes(NOTHING)) throw new Error("The small engine has no letter U+10FFFF");
  return plain.replaceAll("\0", NOTHING).replace(/[\ud800-\udfff]/gu, "\ufffd");
}

/** @type {RegExp[][]} */
const patterns = [];

/** @param {string} written `/pattern/flags` */
export function pattern(written) {
  const end = written.lastIndexOf("/");
  const [source, flags] = [written.slice(1, end), written.slice(end + 1)];
  patterns.push([
    new RegExp(`^(?:${source})$`, flags),
    new RegExp(`(?:${source})`, `${flags}y`),
    new RegExp(source, `${flags}g`),
  ]);
  return patterns.length - 1;
}

/**
 * Where a pattern is found: start, end, and for each group its length and its text; places are counted in letters.
 * @param {number} id
 * @param {number} how 0 the whole text, 1 from its beginning, 2 anywhere behind a place
 * @param {string} text
 * @param {number} from
 */
export function found(id, how, text, from) {
  const one = patterns[id][how];
  one.lastIndex = how === 2 && from ? unitsOf(text, from) : 0;
  const match = one.exec(text);
  if (!match) return "";
  const start = letters(text.slice(0, match.index));
  const groups = [...match].map((group) => (group === undefined ? "-:" : `${letters(group)}:${group}`));
  return `${start};${start + letters(match[0])};${groups.join("")}`;
}

/** @param {string} text */
function letters(text) {
  let count = 0;
  for (const _ of text) count += 1;
  return count;
}

/**
 * @param {string} text
 * @param {number} count of letters
 */
const unitsOf = (text, count) => [...text].slice(0, count).join("").length;
