// A list as text: the code that stands behind `#` in a link, and back. Pure; site_src/handbook/list-code.md describes it.
//
//   L1~CUT~GARMENT~GARMENT…~CHECK
//
// A garment is words with dots between them: pattern, edition, size, second size, unit, how the shop cuts, and then
// pairs of a key (one letter, a hyphen, a name) and its word. Letters, digits and hyphens stand for themselves, everything else in a word
// is written as _ and two hexadecimal digits for each byte of UTF-8. CHECK is the CRC-32 of all before it. Whatever is
// not exactly as it would be written here is refused with a sentence.

export const VERSION = "L1";
export const MOST_GARMENTS = 60;
export const LONGEST_CODE = 24_000;
const LONGEST_WORD = 80;
const LONGEST_EDITION = 200;
const MOST_PAIRS = 400;
const MOST_AMOUNT = 1_000_000;

const NAME = /^[a-z0-9]+(-[a-z0-9]+)*$/;
const SIZE = /^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$/;
const ID = /^[a-z0-9]{1,16}$/;
const BOLT = /^[a-z0-9.-]{1,90}$/;
const LONGEST_NAME = 60;
const CUTS = ["", "fine", "coarse"];
const UNITS = ["cm", "in"];

// What is said of a cloth, and the letter of its key. What it costs is nobody else's business.
const CLOTH_KEYS = new Map([
  ["w", "width"], ["y", "way"], ["n", "nap"], ["s", "wash"], ["a", "along"], ["x", "across"], ["p", "pattern"],
  ["e", "every"], ["u", "uneven"],
]);
const LETTERS = new Map([...CLOTH_KEYS].map(([letter, word]) => [word, letter]));
const CHOICE = "c", BOLT_OF = "b", CLOTH_THEN = "t", NOTION_THEN = "m";

const isName = (text) => typeof text === "string" && text.length <= LONGEST_NAME && NAME.test(text);
const isSize = (text) => typeof text === "string" && text.length <= LONGEST_NAME && SIZE.test(text);
// No control signs, none that turn the reading direction, no halves of characters.
const isWord = (text, longest = LONGEST_WORD) =>
  typeof text === "string" && text.length <= longest && !/[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/u.test(text);
const isAmount = (one) =>
  Array.isArray(one) && (one.length === 1 || one.length === 2) &&
  one.every((number) => Number.isInteger(number) && number >= 0 && number <= MOST_AMOUNT);

const entriesOf = (value) => (value && typeof value === "object" && !Array.isArray(value) ? Object.entries(value) : []);
// Without a prototype, so that no name in it means anything else than a name.
const plain = (entries) => Object.assign(Object.create(null), Object.fromEntries(entries));

// ---- a garment, made safe: whatever a device kept or a link brought; null for what is none ----

export function sound(one) {
  if (!one || !isName(one.pattern) || !isWord(one.edition ?? "", LONGEST_EDITION)) return null;
  if (![one.size, one.second || "x"].every(isSize)) return null;
  const cloths = entriesOf(one.cloths).filter(([cloth]) => isName(cloth)).map(([cloth, said]) => {
    const known = entriesOf(said).filter(([key, word]) => LETTERS.has(key) && isWord(word) && word);
    if (typeof said?.bolt === "string" && BOLT.test(said.bolt)) known.push(["bolt", said.bolt]);
    if (isWord(said?.price) && said.price) known.push(["price", said.price]);
    return [cloth, plain(known.sort(byFirst))];
  });
  const amounts = (part) => plain(entriesOf(one.was?.[part]).filter(([key, each]) => isName(key) && isAmount(each)).sort(byFirst));
  return {
    pattern: one.pattern,
    edition: one.edition ?? "",
    size: one.size,
    second: one.second || "",
    unit: one.unit === "in" ? "in" : "cm",
    cut: CUTS.includes(one.cut) ? one.cut : "",
    choices: plain(entriesOf(one.choices).filter(([name, word]) => isName(name) && isName(word)).sort(byFirst)),
    cloths: plain(cloths.filter(([, said]) => Object.keys(said).length).sort(byFirst)),
    was: { cloths: amounts("cloths"), notions: amounts("notions") },
  };
}

const byFirst = ([one], [other]) => (one < other ? -1 : one > other ? 1 : 0);
export const isId = (text) => typeof text === "string" && ID.test(text);

// ---- words ----

const escaped = (text) =>
  [...new TextEncoder().encode(text)]
    .map((byte) => {
      const sign = String.fromCharCode(byte);
      return /[A-Za-z0-9-]/.test(sign) ? sign : `_${byte.toString(16).padStart(2, "0")}`;
    })
    .join("");

function unescaped(word) {
  if (!/^(?:[A-Za-z0-9-]|_[0-9a-f]{2})*$/.test(word)) throw new Error("word");
  const bytes = (word.match(/_[0-9a-f]{2}|./g) ?? []).map((one) =>
    one.length === 3 ? Number.parseInt(one.slice(1), 16) : one.charCodeAt(0),
  );
  return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(new Uint8Array(bytes));
}

// CRC-32 as in ISO 3309 and zip files, of text that is ASCII only; eight hexadecimal digits.
export function check(text) {
  let crc = 0xffffffff;
  for (let at = 0; at < text.length; at += 1) {
    crc ^= text.charCodeAt(at);
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return ((crc ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}

// ---- a list as a code ----

// `garments` in their order; cloths of one bolt that stands at least twice are told by a number.
export function encode({ garments, cut = "" }) {
  const safe = garments.map(sound).filter(Boolean).slice(0, MOST_GARMENTS);
  const bolts = safe.flatMap((one) => Object.values(one.cloths).map((said) => said.bolt).filter(Boolean));
  const shared = [...new Set(bolts)].filter((bolt) => bolts.filter((other) => other === bolt).length > 1);
  const parts = safe.map((one) => {
    const pairs = [];
    for (const [name, word] of Object.entries(one.choices)) pairs.push([`${CHOICE}-${name}`, word]);
    for (const [cloth, said] of Object.entries(one.cloths)) {
      for (const [letter, key] of CLOTH_KEYS) if (said[key]) pairs.push([`${letter}-${cloth}`, said[key]]);
      if (shared.includes(said.bolt)) pairs.push([`${BOLT_OF}-${cloth}`, String(shared.indexOf(said.bolt) + 1)]);
    }
    for (const [cloth, amount] of Object.entries(one.was.cloths)) pairs.push([`${CLOTH_THEN}-${cloth}`, amount.join("-")]);
    for (const [name, amount] of Object.entries(one.was.notions)) pairs.push([`${NOTION_THEN}-${name}`, amount.join("-")]);
    // In the fixed order of their letters and names, so that one list has one code.
    pairs.sort(byFirst);
    const head = [one.pattern, one.edition, one.size, one.second, one.unit, one.cut];
    return [...head, ...pairs.flat()].map(escaped).join(".");
  });
  const text = [VERSION, CUTS.includes(cut) ? cut : "", ...parts].join("~");
  return `${text}~${check(text)}`;
}

const SAYS = {
  none: "There is no list in this link.",
  version: "This list was written by a newer edition of the shop. Load the page again, or ask for it as text.",
  damaged: "This link is damaged: a part of it is missing or was changed on its way. Ask for it again.",
  long: "This link is too long to be a list.",
};

// The garments of a code, each with an id of its own, or {problem: a sentence}. Never throws.
export function decode(text) {
  if (typeof text !== "string" || !text) return { problem: SAYS.none };
  if (text.length > LONGEST_CODE) return { problem: SAYS.long };
  // What messengers and sentences around a link do to it.
  const code = text.trim().replace(/%7e/gi, "~").replace(/^[^#]*#/, "").replace(/[.,;:!?)>\]"'”]+$/, "");
  const parts = code.split("~");
  if (!/^L[0-9]{1,3}$/.test(parts[0])) return { problem: SAYS.none };
  const end = code.lastIndexOf("~");
  if (end < 0 || check(code.slice(0, end)) !== parts.at(-1)) return { problem: SAYS.damaged };
  if (parts[0] !== VERSION) return { problem: SAYS.version };
  try {
    const [, cut, ...rest] = parts.slice(0, -1);
    const garments = rest.map(garmentOf);
    const found = { cut, garments };
    // Only what would be written so: then nothing can be hidden in it, and one list has one code.
    if (!garments.length || garments.length > MOST_GARMENTS || encode(found) !== code) return { problem: SAYS.damaged };
    return { cut, garments: garments.map((one, at) => ({ ...sound(one), id: `s${at + 1}` })) };
  } catch {
    return { problem: SAYS.damaged };
  }
}

function garmentOf(text) {
  const words = text.split(".").map(unescaped);
  const [pattern, edition, size, second, unit, cut, ...pairs] = words;
  if (pairs.length % 2 || pairs.length > 2 * MOST_PAIRS || !UNITS.includes(unit)) throw new Error("garment");
  const one = { pattern, edition, size, second, unit, cut, choices: {}, cloths: {}, was: { cloths: {}, notions: {} } };
  for (const part of [one.choices, one.cloths, one.was.cloths, one.was.notions]) Object.setPrototypeOf(part, null);
  for (let at = 0; at < pairs.length; at += 2) {
    const [letter, name] = [pairs[at].slice(0, 1), pairs[at].slice(2)];
    const word = pairs[at + 1];
    if (pairs[at][1] !== "-" || !isName(name)) throw new Error("key");
    if (letter === CHOICE) one.choices[name] = word;
    else if (letter === BOLT_OF) (one.cloths[name] ??= Object.create(null)).bolt = `shared.${word}`;
    else if (letter === CLOTH_THEN) one.was.cloths[name] = word.split("-").map(Number);
    else if (letter === NOTION_THEN) one.was.notions[name] = word.split("-").map(Number);
    else if (CLOTH_KEYS.has(letter)) (one.cloths[name] ??= Object.create(null))[CLOTH_KEYS.get(letter)] = word;
    else throw new Error("key");
  }
  return one;
}
