// The page of the shopping list: shows what this device keeps, or what came in a link; asks the calculators for the
// amounts. Computes no length and no sum.
//
// What was last worked out is kept with the list, so that it can be read before the calculators have started and
// without them; the page says which of these it is. Opening a link changes nothing that is kept. listed.mjs keeps the
// list, code.mjs reads and writes links, garments.mjs and buys.mjs show the two halves, send.mjs and large.mjs see to
// what is done with it.

const START_TIMEOUT_MS = 60_000;
const SHORT_TERM_MS = 300; // so long after a change of the list is asked again: several often come together

const SAYS = {
  loading: "The calculator is being fetched",
  starting: "The calculator is starting",
  kept: "These amounts are as last worked out on this device; the calculator checks them as soon as it has started.",
  unkept:
    "The amounts are added up as soon as the calculator has started. Until then each garment below says what it took " +
    "when it was put here.",
  late: "The calculator has not started on this device so far; if it does, the amounts appear here by themselves.",
  failedKept: "The calculator could not start on this device. These amounts are as last worked out here.",
  failed:
    "The calculator could not start on this device, so nothing is added up. Each garment below says what it took when " +
    "it was put here.",
  unanswered: "The calculator could not answer this. Load the page again.",
  shared: "A list that somebody sent. Your own list stays as it is.",
  sharedOne: "A garment that somebody sent. Your own list stays as it is.",
  taken: "It is on your list now.",
};

const data = JSON.parse(document.getElementById("list-data").textContent);
const page = document.querySelector("[data-list]");
const base = new URL(data.base, location.href).href;
const place = (name) => document.querySelector(`[data-${name}]`);

async function script(name) {
  const file = data.files.scripts[`${name}.mjs`];
  const address = new URL(file.path, base);
  address.search = file.sha256.slice(0, data.files.edition_digits);
  return import(address.href);
}

const [code, listed, buys, garments, send, large, running] = await Promise.all(
  ["code", "listed", "buys", "garments", "send", "large", "running"].map(script),
);
const list = listed.shopList(base, code);

let shared = null; // {garments, cut} of a link, while that is shown
let linkProblem = "";
let problem = ""; // why something was not kept
let shop = null; // what the shop says of its patterns, once it is here
let answer = null; // {text, fragments}: the newest answer of the calculators
let worker = null;
let ready = false;
let failed = false;
let advice = ""; // what helps where the calculators could not start
let late = false;
let number = 0;
let asking = 0; // the number of the newest question
let pause = 0;
let done = ""; // what was just done, in words
const opening = new Map(); // pattern to the promise of its sheet being open, or of that it can't be
const waiting = new Map(); // number of a question to what is done with its answer

// ---- what is shown ----

const view = () => {
  const own = list.look();
  if (!shared) return { ...own, own: true, cut: own.setting("cut") };
  return { garments: shared.garments, cut: shared.cut, ticks: new Map(), answered: null, own: false, problem: "" };
};

// The request about all garments, with equal texts for equal lists.
function askedOf({ garments: all, cut }) {
  const items = all.map(({ id, pattern, edition, size, second, unit, cut: then, choices, cloths, was }) => ({
    id, pattern, edition, size, second, unit, cut: then, choices, cloths, was,
  }));
  return JSON.stringify({ items, cut });
}

function render() {
  const seen = view();
  const text = askedOf(seen);
  const now = answer?.text === text ? answer.fragments : null;
  const before = !now && seen.answered?.asked === text ? seen.answered.fragments : null;
  const fragments = new Map((now ?? before ?? []).map((fragment) => [fragment.id, fragment]));
  const some = seen.garments.length > 0;
  const said = { ...seen, fragments, known: now !== null, shop, base, some };

  showProblem(linkProblem || problem || seen.problem);
  place("empty").hidden = some || !seen.own || Boolean(linkProblem);
  place("shared").hidden = seen.own;
  if (!seen.own) place("shared-said").textContent = seen.garments.length > 1 ? SAYS.shared : SAYS.sharedOne;
  place("to-buy").hidden = fragments.size === 0;
  place("on-list").hidden = !some;
  place("send").hidden = !some;
  for (const radio of document.querySelectorAll("[name=list-cut]")) radio.checked = radio.value === (seen.cut || "fine");
  buys.show(said, actions);
  garments.show(said, actions, buys.words);
  showState({ some, now, before });
  page.hidden = false;
  page.dataset.shown = now ? "now" : before ? "before" : "none";
  if (some && !now && ready) askSoon(text, seen.garments);
  if (some) start();
}

function showProblem(sentence) {
  const said = place("problem");
  if (said.textContent !== sentence) said.textContent = sentence;
  said.hidden = !sentence;
}

function showState({ some, now, before }) {
  let text = done;
  if (some && !now && failed) text = `${before ? SAYS.failedKept : SAYS.failed} ${advice}`.trim();
  else if (some && !now && late && !ready) text = SAYS.late;
  else if (some && !now && !ready) text = before ? SAYS.kept : SAYS.unkept;
  const state = place("state");
  if (state.textContent !== text) state.textContent = text;
  state.hidden = !text;
  page.setAttribute("aria-busy", String(some && !now && ready));
}

// ---- what is done on the page ----

// Each returns nothing; why something was not kept is shown.
const kept = (sentence) => {
  problem = sentence;
  done = "";
  render();
};

const actions = {
  tick: (key, on, words) => kept(list.tick(key, on, words)),
  remove: (id) => kept(list.remove(id)),
  putBack: (id, since, garment) => kept(list.putBack(id, since, garment)),
  // The amounts and the edition of now take the place of those that were told then.
  takeNow: (id, { edition, now, choices }) => kept(list.alter([id], (one) => ({ ...one, edition, choices, was: now }))),
  // One price for all that is cut from one cloth.
  price: (needs, text) =>
    kept(list.alter(needs.map(([id]) => id), (one, id) => {
      for (const [owner, cloth] of needs) if (owner === id) (one.cloths[cloth] ??= {}).price = text;
      return one;
    })),
  // From now on cut from one cloth, under one name; or each from its own.
  join: (needs, bolt) => kept(list.alter(needs.map(([id]) => id), bolted(needs, () => bolt))),
  split: (needs) => kept(list.alter(needs.map(([id]) => id), bolted(needs, (id, cloth) => `${id}.${cloth}`))),
  sendOne: (garment) => sending.one(garment),
};

const bolted = (needs, boltOf) => (one, id) => {
  for (const [owner, cloth] of needs) if (owner === id) (one.cloths[cloth] ??= {}).bolt = boltOf(id, cloth);
  return one;
};

const sending = send.sending({ view, encode: code.encode, shop: data.shop, base, place });
large.lineByLine({ lines: () => buys.lines(), actions, place });

for (const radio of document.querySelectorAll("[name=list-cut]")) {
  radio.addEventListener("input", () => {
    if (shared) {
      shared = { ...shared, cut: radio.value };
      render();
    } else {
      kept(list.set("cut", radio.value));
    }
  });
}

place("take-over").addEventListener("click", () => {
  const named = shared.garments.map((one) => ({ ...one, name: shop?.patterns[one.pattern]?.name ?? one.pattern }));
  const { failed: why } = list.add(named);
  if (why) {
    kept(why);
    return;
  }
  if (!list.look().setting("cut") && shared.cut) list.set("cut", shared.cut);
  leaveLink();
  done = SAYS.taken;
  render();
});
place("own-list").addEventListener("click", () => {
  leaveLink();
  render();
});
place("code").addEventListener("submit", (event) => {
  event.preventDefault();
  const field = document.getElementById("list-code");
  openLink(field.value);
  if (shared) {
    field.value = "";
    field.closest("details").open = false;
    scrollTo(0, 0);
  }
});

// ---- links ----

function openLink(text) {
  const found = code.decode(text);
  linkProblem = found.problem ?? "";
  shared = found.problem ? null : found;
  done = "";
  render();
  if (linkProblem) place("problem").scrollIntoView({ block: "nearest" });
}

function leaveLink() {
  shared = null;
  linkProblem = "";
  problem = "";
  history.replaceState(null, "", location.pathname + location.search);
}

// What stands behind # is a place on the page or else meant as a list.
function openAddress() {
  if (location.hash.length > 1 && !document.getElementById(location.hash.slice(1))) {
    openLink(location.hash);
  } else {
    shared = null;
    linkProblem = "";
    render();
  }
}

// ---- the calculators ----

function askSoon(text, all) {
  clearTimeout(pause);
  pause = setTimeout(() => ask(text, all), answer ? SHORT_TERM_MS : 0);
}

async function ask(text, all) {
  asking += 1;
  const mine = asking;
  await Promise.all([...new Set(all.map((one) => one.pattern))].map(openSheet));
  if (mine !== asking) return; // something newer has been asked
  send_("shopping", text, [], (message) => {
    if (mine !== asking) return;
    if (message.kind !== "answer") {
      done = SAYS.unanswered;
      render();
      return;
    }
    const { fragments } = JSON.parse(message.text);
    answer = { text, fragments };
    if (!shared) keepAnswer(text, fragments);
    render();
  });
}

// Kept are words and data, no markup. That it could not be kept is said where something is changed, not here.
function keepAnswer(text, fragments) {
  const small = fragments.map(({ id, kind, text: words, text_inch, data: more }) => ({ id, kind, text: words, text_inch, data: more }));
  const before = list.look().answered;
  if (before?.asked === text && JSON.stringify(before.fragments) === JSON.stringify(small)) return;
  list.keepAnswer(text, small);
}

// A pattern that the shop does not have, or whose sheet does not arrive, is told by the calculators themselves.
function openSheet(pattern) {
  const known = shop && Object.hasOwn(shop.patterns, pattern) ? shop.patterns[pattern] : null;
  if (!known) return null;
  if (!opening.has(pattern)) {
    opening.set(pattern, new Promise((resolve) => {
      send_("shopping", '{"items":[]}', [{ ...known.sheet, opens: "open" }], (message) => {
        if (message.kind !== "answer") opening.delete(pattern); // asked for again with the next question
        resolve();
      });
    }));
  }
  return opening.get(pattern);
}

function send_(name, text, lays, then) {
  number += 1;
  waiting.set(number, then);
  worker.postMessage({ kind: "ask", number, name, text, lays });
}

function heard({ data: message }) {
  if (message.kind === "progress") showProgress(message);
  else if (message.kind === "failed") giveUp(message.reason, message.advice);
  else if (message.kind === "resting") {
    ready = false; // until it says again that it is ready; what was opened is gone with it
    opening.clear();
  } else if (message.kind === "ready") {
    ready = true;
    late = false;
    place("progress").hidden = true;
    page.dataset.ready = "true";
    render();
  } else {
    const then = waiting.get(message.number);
    waiting.delete(message.number);
    then?.(message);
  }
}

function showProgress(arrived) {
  place("progress").hidden = ready || failed;
  running.showProgress(place("progress"), arrived, SAYS);
}

function giveUp(reason, what = "") {
  console.warn(`Calculator: ${reason}`);
  failed = true;
  advice = what;
  place("progress").hidden = true;
  render();
}

// Once there is something to work out.
function start() {
  if (worker || failed) return;
  const address = new URL(data.files.worker.path, base);
  address.search = data.files.worker.sha256.slice(0, data.files.edition_digits);
  showProgress({ done_bytes: 0, total_bytes: 1 });
  setTimeout(() => {
    late = !page.dataset.ready; // once it has started, it comes back quickly
    if (!ready) render();
  }, START_TIMEOUT_MS);
  try {
    worker = running.run(address, { kind: "start", base, ...data.files }, heard);
  } catch (error) {
    giveUp(error.message);
  }
}

// What the shop says of its patterns: checked against the hash in the page, by the browser itself.
async function fetchShop() {
  const { path, sha256, bytes, ...more } = data.files.sheet;
  const address = new URL(path, base);
  address.search = sha256.slice(0, data.files.edition_digits);
  const hash = btoa(String.fromCharCode(...sha256.match(/../g).map((byte) => Number.parseInt(byte, 16))));
  const response = await fetch(address, { integrity: `sha256-${hash}` });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return { bytes, more, ...(await response.json()) };
}

addEventListener("hashchange", openAddress);
list.watch(() => {
  if (!shared) render();
});
openAddress();
try {
  shop = await fetchShop();
  render();
} catch (error) {
  console.warn(`List of patterns: ${error.message}`); // names are then those that were kept with the garments
}
