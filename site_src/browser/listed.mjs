// What is on the list of this device: kept in one place of its storage, read and changed by several pages and tabs.
//
// Nothing is kept before somebody puts something on the list. What is written is first written beside it and read back,
// then put in place, so that a full storage loses nothing. Every entry carries a number that grows with each change; of
// two states the entry with the larger number wins, entry by entry, whatever order tabs write in, and a wrong clock does
// no harm. What can't be read is put aside before anything is written over it.
//
// Kept is {format, items: {id: {at, since, garment|null}}, ticks: {key: {at, on, text, text_inch}}, settings: {name:
// {at, word}}, answered: {at, asked, fragments}|null}. A garment that was taken off leaves its number behind, so that no
// other tab brings it back.

export const FORMAT = 1;
const MOST_GONE = 100;
const MOST_TICKS = 300;
const CHANGED = "boltside-list"; // told within a page, as the browser tells other tabs

export const SAYS = {
  full:
    "There is no room left in this browser’s storage, so this was not kept. Everything that was on your list is still " +
    "there. Make room, or send the list to yourself as a link.",
  forbidden:
    "This browser does not allow the page to keep anything, so there can be no list here. In a private window or with " +
    "storage switched off that is usual.",
  newer: "Your list was last changed by a newer edition of this shop. Load the page again to change it.",
};

// Where the list of the shop at this address is kept; another shop on the same host has a list of its own.
export const keyOf = (base) => `boltside list: ${new URL(base).pathname}`;

const nothing = () => ({ format: FORMAT, items: {}, ticks: {}, settings: {}, answered: null });
const sorted = (value) => Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
const written = (state) =>
  JSON.stringify({ ...state, items: sorted(state.items), ticks: sorted(state.ticks), settings: sorted(state.settings) });

const isNumber = (at) => Number.isSafeInteger(at) && at > 0;
const isText = (text) => typeof text === "string" && text.length < 4_000;

// `tools` are those of code.mjs. `storage` is called each time, because the mere look at it may be forbidden.
export function shopList(base, { sound, isId }, storage = () => localStorage) {
  const key = keyOf(base);
  const beside = `${key} (new)`;
  let state = nothing(); // as last seen

  // ---- reading ----

  function parsed(text) {
    if (!text) return { state: nothing() };
    let raw;
    try {
      raw = JSON.parse(text);
    } catch {
      return { unread: true };
    }
    if (!raw || typeof raw !== "object" || !Number.isInteger(raw.format)) return { unread: true };
    if (raw.format > FORMAT) return { newer: true };
    const found = nothing();
    for (const [id, one] of Object.entries(raw.items ?? {})) {
      if (!isId(id) || !isNumber(one?.at)) continue;
      const garment = one.garment ? sound(one.garment) : null;
      if (garment) {
        garment.name = isText(one.garment.name) ? one.garment.name : garment.pattern;
        garment.said = linesOf(one.garment.said);
      }
      if (garment || !one.garment) found.items[id] = { at: one.at, since: isNumber(one.since) ? one.since : one.at, garment };
    }
    for (const [name, one] of Object.entries(raw.ticks ?? {})) {
      if (isNumber(one?.at) && isText(one.text) && isText(one.text_inch)) {
        found.ticks[name] = { at: one.at, on: one.on === true, text: one.text, text_inch: one.text_inch };
      }
    }
    for (const [name, one] of Object.entries(raw.settings ?? {})) {
      if (isNumber(one?.at) && isText(one.word)) found.settings[name] = { at: one.at, word: one.word };
    }
    const answered = raw.answered;
    if (isNumber(answered?.at) && typeof answered.asked === "string" && Array.isArray(answered.fragments)) {
      found.answered = { at: answered.at, asked: answered.asked, fragments: answered.fragments.filter(isFragment) };
    }
    return { state: found };
  }

  function read() {
    const store = storage();
    const [there, newer] = [parsed(store.getItem(key)), parsed(store.getItem(beside))];
    // What was written beside it and never put in place counts as well.
    return { ...there, state: merged(there.state ?? nothing(), newer.state ?? nothing()) };
  }

  // ---- changing ----

  // `change` alters the state it is given, with `next` the number of this change. Returns a sentence where it failed.
  function change(alter) {
    let found;
    try {
      found = read();
    } catch {
      return SAYS.forbidden;
    }
    if (found.newer) return SAYS.newer;
    const draft = merged(state, found.state);
    alter(draft, 1 + Math.max(0, ...numbersIn(draft)));
    const failed = write(prunedOf(draft), found.unread);
    if (failed) return failed;
    dispatchEvent(new Event(CHANGED));
    return "";
  }

  function write(draft, unread = false) {
    const text = written(draft);
    let store;
    try {
      store = storage();
      const before = store.getItem(key);
      if (unread) putIn(store, `${key} (not read ${check(before)})`, before);
      if (before === null || text.length > before.length) {
        putIn(store, beside, text);
      }
      putIn(store, key, text); // a browser puts a text in its place whole or not at all
      store.removeItem(beside);
    } catch (error) {
      try {
        store.removeItem(beside);
      } catch {
        return SAYS.forbidden;
      }
      return error?.name === "SecurityError" ? SAYS.forbidden : SAYS.full;
    }
    state = draft;
    return "";
  }

  function putIn(store, name, text) {
    store.setItem(name, text);
    if (store.getItem(name) !== text) throw new Error("not kept");
  }

  // ---- other tabs ----

  // `show` is called whenever the list is no longer as it was last shown.
  function watch(show) {
    addEventListener("storage", (event) => {
      if (event.key !== key && event.key !== null) return;
      let found;
      try {
        found = read();
      } catch {
        return;
      }
      if (found.newer) return;
      const cleared = storage().getItem(key) === null; // somebody emptied the storage on purpose
      const both = cleared ? nothing() : merged(state, found.state);
      state = both;
      // Two tabs wrote at once, and only one was kept: the other's entries are put back.
      if (!cleared && !found.unread && written(both) !== written(found.state)) write(both);
      show();
    });
    addEventListener(CHANGED, show);
  }

  function look() {
    try {
      const found = read();
      if (found.newer) return { ...viewOf(state), problem: SAYS.newer };
      state = merged(state, found.state);
    } catch {
      return { ...viewOf(state), problem: SAYS.forbidden };
    }
    return { ...viewOf(state), problem: "" };
  }

  return {
    look,
    watch,
    // Puts garments on the list, each under a new name; in `bolts` their cloths may say which belong together.
    add(garments) {
      let ids = [];
      const failed = change((draft, next) => {
        ids = garments.map(() => newId(draft));
        garments.forEach((garment, at) => {
          draft.items[ids[at]] = { at: next, since: next + at, garment: ownBolts(garment, ids, garments) };
        });
      });
      return { failed, ids };
    },
    // Alters the garments that are still there.
    alter: (ids, how) =>
      change((draft, next) => {
        for (const id of ids) {
          const one = draft.items[id];
          if (one?.garment) draft.items[id] = { ...one, at: next, garment: how(structuredClone(one.garment), id) };
        }
      }),
    remove: (id) => change((draft, next) => { draft.items[id] = { ...draft.items[id], at: next, garment: null }; }),
    putBack: (id, since, garment) => change((draft, next) => { draft.items[id] = { at: next, since, garment }; }),
    tick: (name, on, { text, text_inch }) =>
      change((draft, next) => { draft.ticks[name] = { at: next, on, text, text_inch }; }),
    set: (name, word) => change((draft, next) => { draft.settings[name] = { at: next, word }; }),
    keepAnswer: (asked, fragments) =>
      change((draft, next) => { draft.answered = { at: next, asked, fragments }; }),
  };

  function viewOf({ items, ticks, settings, answered }) {
    const garments = Object.entries(items)
      .filter(([, one]) => one.garment)
      .sort(([a, one], [b, other]) => one.since - other.since || (a < b ? -1 : 1))
      .map(([id, { since, garment }]) => ({ ...garment, id, since }));
    return { garments, ticks: new Map(Object.entries(ticks)), setting: (name) => settings[name]?.word ?? "", answered };
  }
}

// ---- states ----

const numbersIn = (state) =>
  [...Object.values(state.items), ...Object.values(state.ticks), ...Object.values(state.settings), state.answered]
    .filter(Boolean)
    .map((one) => one.at);

const later = (one, other) => {
  if (!one || !other) return one ?? other ?? null;
  if (one.at !== other.at) return one.at > other.at ? one : other;
  return JSON.stringify(one) >= JSON.stringify(other) ? one : other;
};

// Both states, entry by entry the later one; the same whichever comes first.
export function merged(one, other) {
  const both = (part) =>
    Object.fromEntries(
      [...new Set([...Object.keys(one[part]), ...Object.keys(other[part])])].map((name) => [
        name,
        later(one[part][name], other[part][name]),
      ]),
    );
  return {
    format: FORMAT,
    items: both("items"),
    ticks: both("ticks"),
    settings: both("settings"),
    answered: later(one.answered, other.answered),
  };
}

// The marks of garments that were taken off, and old ticks, don't grow without end.
function prunedOf(state) {
  const oldest = (part, most, spare) => {
    const some = Object.entries(part).filter(([, one]) => spare(one)).sort(([, a], [, b]) => b.at - a.at);
    for (const [name] of some.slice(most)) delete part[name];
  };
  oldest(state.items, MOST_GONE, (one) => !one.garment);
  oldest(state.ticks, MOST_TICKS, () => true);
  return state;
}

function newId(draft) {
  for (;;) {
    const [number] = crypto.getRandomValues(new Uint32Array(1));
    const id = `g${number.toString(36)}`;
    if (!(id in draft.items)) return id;
  }
}

// Cloths that belong together by a word of the code do so by one of their own names on the list.
function ownBolts(garment, ids, garments) {
  const firsts = new Map();
  garments.forEach((one, at) => {
    for (const [cloth, { bolt }] of Object.entries(one.cloths)) {
      if (bolt && !firsts.has(bolt)) firsts.set(bolt, `${ids[at]}.${cloth}`);
    }
  });
  const made = structuredClone({ ...garment });
  delete made.id;
  for (const said of Object.values(made.cloths)) if (said.bolt) said.bolt = firsts.get(said.bolt);
  return made;
}

const linesOf = (said) =>
  (Array.isArray(said) ? said : [])
    .filter((one) => isText(one?.text) && isText(one?.text_inch))
    .slice(0, 60)
    .map(({ text, text_inch }) => ({ text, text_inch }));

const isFragment = (one) =>
  isText(one?.id) && isText(one.kind) && isText(one.text) && isText(one.text_inch) && one.data && typeof one.data === "object";

// A short name for a text that could not be read, so that the same one is put aside once.
const check = (text) => [...text].reduce((sum, sign) => (sum * 31 + sign.codePointAt(0)) % 0xffffffff, 7).toString(36);
