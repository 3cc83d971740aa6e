// "Keep this shop on my phone": says in words what is kept, and does what is asked. kept.mjs does the work.
//
// Nothing is stored, and nothing that answers in the network's place is set up, before the buyer has asked for it.

const place = document.querySelector("[data-keep]");
const said = place.querySelector("[data-keep-said]");
const bar = place.querySelector("progress");
const [first, second] = place.querySelectorAll("button");
const home = place.querySelector("[data-keep-home]");
const line = document.querySelector("[data-keep-line]");
const root = new URL("../", import.meta.url);
root.search = "";
// The pattern whose page this is; a shop of many patterns is kept pattern by pattern.
const pattern = /^patterns\/([^/]+)\//.exec(location.pathname.slice(root.pathname.length))?.[1] ?? null;
const digits = (file) => new URL(`${place.dataset[file]}`, root).href;

const SAYS = {
  no: "This browser can't keep the shop. Reading and asking works as long as there is a connection.",
  none: "You can keep the whole shop on this phone. Patterns, calculators and search then work without a connection.",
  whole: "Kept on this phone, complete. Everything works without a connection.",
  many: "In this shop you keep the patterns that you need: open a pattern and keep it from its own page.",
  onePattern: "You can keep this pattern on this phone. Its page, the calculators and search then work without a connection.",
  notThis: "Other patterns of this shop are kept on this phone; this one is not.",
  thisKept: "This pattern is kept on this phone, complete. It works without a connection.",
  dropped: "This pattern is removed from this phone; others stay.",
  mayGo: "The browser may clear it when room gets short, so have a look here before you go out.",
  busy: "The shop is being kept in another window of this browser.",
  saving: "This phone is set to save data.",
  changed: "Changed over. Every page that you open now is of the new edition.",
  removed: "Removed from this phone. Everything still works with a connection.",
  full: "There is no room left on this phone. What is kept so far stays; make room and go on.",
  broken: "The connection broke off, or a file on the way was not the shop's own. Nothing of it was used. Try again in a while.",
};

let kept = null;
let newest = null;
let pausing = null; // ends a fetching that is under way

const megabytes = (bytes) => {
  const number = bytes / 1e6;
  return `${number < 10 ? Math.max(0.1, Math.ceil(number * 10) / 10).toFixed(1) : Math.ceil(number)}\u00a0MB`;
};

function show(words, main = null, other = null, done = null) {
  said.setAttribute("aria-live", done === null ? "polite" : "off"); // megabytes that run past are not read out
  if (said.textContent !== words) said.textContent = words;
  for (const [button, does] of [[first, main], [second, other]]) {
    button.hidden = !does;
    button.textContent = does?.[0] ?? "";
    button.onclick = does?.[1] ?? null;
  }
  bar.hidden = done === null;
  if (done !== null) bar.value = done;
}

const inShort = (words) => {
  if (!line) return;
  line.textContent = words;
  line.classList.remove("keep-line--waiting");
};

const remove = ["Remove it", async () => {
  // Not while another window is fetching: it would go on and set up what has just been removed.
  await tell((await alone(() => kept.forget())) === "busy" ? SAYS.busy : SAYS.removed);
}];

const counted = (patterns) => (patterns.length === 1 ? "One pattern" : `${patterns.length} patterns`);

// A copy that is whole, of some patterns of the shop: whether this page's is one of them, and what can be done about it.
function tellOfThis(patterns, say, lasting) {
  const may = lasting ? "" : ` ${SAYS.mayGo}`;
  if (!pattern) {
    inShort(`${counted(patterns)} kept on this phone, complete`);
    show(say(`${counted(patterns)} of this shop ${patterns.length === 1 ? "is" : "are"} kept on this phone, complete.${may}`),
      null, remove);
  } else if (patterns.includes(pattern)) {
    inShort("Kept on this phone, complete");
    const drop = ["Remove this pattern", async () => {
      const busy = (await alone(() => kept.drop(pattern))) === "busy";
      await tell(busy ? SAYS.busy : SAYS.dropped);
    }];
    show(say(`${SAYS.thisKept}${may}`), null, patterns.length === 1 ? remove : drop);
  } else {
    const bytes = newest?.patterns?.[pattern];
    inShort("This pattern is not kept on this phone");
    show(say(SAYS.notThis), [`Keep this pattern too${bytes ? ` (${megabytes(bytes)})` : ""}`, keepThisToo], remove);
  }
}

// Where things stand, in words, with what can be done about it. `before` is said first.
async function tell(before = "") {
  const { current, next, opens, patterns } = await kept.look();
  const say = (words) => (before ? `${before} ${words}` : words);
  home.hidden = !current;
  if (current && !opens) {
    inShort("The copy on this phone can't be opened without a connection");
    show(say("The copy is on this phone, but the browser has dropped what opens it without a connection."),
      ["Make it work again", () => mend(current)], remove);
  } else if (current && next && !next.missing.length) {
    inShort("A new edition of the shop is ready on this phone");
    show(say("A new edition of the shop is on this phone, complete. You go on with the old one until you change over."),
      ["Change over now", changeOver], remove);
  } else if (current && current.missing.length) {
    const count = current.missing.length;
    const files = count === 1 ? "a file" : `${count} files`;
    inShort("The copy on this phone is no longer whole");
    show(say(`The copy on this phone is no longer whole: the browser has removed ${files}.`),
      [`Make it whole again (${megabytes(current.missing_bytes)})`, () => mend(current)], remove);
  } else if (next) {
    const part = `${megabytes(next.bytes - next.missing_bytes)} of ${megabytes(next.bytes)}`;
    const words = current
      ? `Kept on this phone, complete. A new edition is partly here, ${part}; until it is whole you go on with the old one.`
      : `Partly kept: ${part}. Without a connection the shop does not work yet.`;
    inShort(current ? "Kept on this phone; a new edition is partly here" : "Partly kept on this phone");
    show(say(words), ["Go on", () => fetchEdition(next.edition, true)], remove);
  } else if (current && newest && newest.edition !== current.edition) {
    inShort("Kept on this phone, complete; there is a new edition");
    show(say("Kept on this phone, complete. There is a new edition of the shop."),
      ["Get the new edition", () => fetchEdition(newest.edition)], remove);
  } else if (current) {
    const lasting = await navigator.storage?.persisted?.();
    if (patterns) return tellOfThis(patterns, say, lasting);
    inShort("Kept on this phone, complete");
    show(say(lasting ? SAYS.whole : `${SAYS.whole} ${SAYS.mayGo}`), null, remove);
  } else if (newest?.patterns && !newest.patterns[pattern]) {
    inShort("");
    show(before || SAYS.many);
  } else if (newest?.patterns) {
    inShort("Keep this pattern on my phone");
    const bytes = newest.rest_bytes + newest.patterns[pattern];
    show(before || SAYS.onePattern,
      [`Keep this pattern on my phone (${megabytes(bytes)})`, () => fetchEdition(newest.edition)]);
  } else {
    const size = newest ? ` (${megabytes(newest.bytes)})` : "";
    inShort("Keep this shop on my phone");
    show(before || SAYS.none, [`Keep this shop on my phone${size}`, () => fetchEdition(newest?.edition)]);
  }
}

// Somebody who saves data is asked once more.
function mayFetch(bytes) {
  if (!navigator.connection?.saveData) return true;
  return new Promise((resolve) => {
    show(`${SAYS.saving} Fetch ${megabytes(bytes)} all the same?`,
      ["Yes, fetch it", () => resolve(true)], ["Not now", () => resolve(false)]);
  });
}

// One window at a time; where the browser has no locks, two do the same work twice and nothing is harmed.
const alone = (work) =>
  navigator.locks
    ? navigator.locks.request(`boltside ${root.pathname}`, { ifAvailable: true }, (lock) => (lock ? work() : "busy"))
    : work();

function wordsFor(error) {
  console.warn(`Keeping: ${error.message}`);
  return error.name === "QuotaExceededError" ? SAYS.full : SAYS.broken;
}

async function work(doing) {
  let after = "";
  try {
    if ((await alone(doing)) === "busy") after = SAYS.busy;
  } catch (error) {
    if (!pausing?.signal.aborted) {
      after = wordsFor(error);
    }
  }
  pausing = null;
  newest = (await kept.newest()) ?? newest;
  await tell(after);
}

async function fetchFiles(part) {
  pausing = new AbortController();
  const { signal } = pausing;
  const before = part.bytes - part.missing_bytes;
  const pause = ["Pause", () => pausing.abort()];
  const step = (done_bytes) => {
    const all = before + done_bytes;
    show(`Keeping: ${megabytes(all)} of ${megabytes(part.bytes)}.`, pause, null, (100 * all) / part.bytes);
  };
  step(0);
  await kept.fetchMissing(part.missing, step, signal);
  signal.throwIfAborted();
}

async function fetchEdition(edition, going = false) {
  if (!edition) {
    newest = await kept.newest();
    if (!newest) return tell(SAYS.broken);
    edition = newest.edition;
  }
  const { current, next } = await kept.look();
  const whole = newest?.patterns?.[pattern] ? newest.rest_bytes + newest.patterns[pattern] : newest?.bytes;
  const bytes = going ? next.missing_bytes : whole;
  if (!(await mayFetch(bytes))) return tell();
  const asking = navigator.storage?.persist?.().catch(() => false); // while the tap still counts as one
  await work(async () => {
    // What was begun of an edition that the shop does not have any more can't be gone on with.
    const there = await kept.newest();
    if (!there) throw new Error("the shop can't be reached");
    newest = there;
    if (next?.edition !== there.edition) await kept.begin(there.edition, there.patterns ? pattern : null);
    await fetchFiles((await kept.look()).next);
    await kept.serve();
    if (!current) await kept.changeOver(); // nothing to choose between
  });
  // Some browsers ask her whether the copy may stay, and she need not answer: nothing waits for that.
  if (await asking) await (pausing ?? tell());
}

// This page's pattern beside those that are kept; it counts as kept once all of it is there.
async function keepThisToo() {
  const { current, next } = await kept.look(pattern);
  if (!(await mayFetch(current.missing_bytes))) return tell();
  await work(async () => {
    await fetchFiles({ ...current, bytes: current.missing_bytes });
    if (next) await fetchFiles({ ...next, bytes: next.missing_bytes });
    await kept.add(pattern);
  });
}

function mend(current) {
  return work(async () => {
    newest = (await kept.newest()) ?? newest;
    if (newest && newest.edition !== current.edition) await kept.begin(newest.edition);
    const { next } = await kept.look();
    await fetchFiles(next ?? current);
    await kept.serve();
  });
}

async function changeOver() {
  await tell(await kept.changeOver().then((has) => (has ? SAYS.changed : ""), wordsFor));
}

async function begin() {
  const { copy } = await import(digits("kept"));
  kept = copy(root);
  const has = await kept.exists();
  if (has && !(await navigator.serviceWorker.getRegistration(root.href)) && (await kept.look()).current) {
    await kept.serve().catch(() => {}); // the browser has dropped it, though the copy is there
  }
  if (has) await tell(); // at once, without waiting for the network
  newest = await kept.newest();
  await tell();
}

const COPY = `boltside state ${root.pathname}`;
// Null where the browser forbids even the look, as in some private windows.
const hasCopy = globalThis.caches && navigator.serviceWorker ? await caches.has(COPY).catch(() => null) : null;
if (hasCopy !== null) {
  // The shop's size is asked for when somebody comes to read about it; a copy is looked at on every page.
  const lookNow = () => begin().catch((error) => console.warn(`Keeping: ${error.message}`));
  if (hasCopy) lookNow();
  else {
    const many = place.dataset.many !== undefined;
    inShort(`Keep this ${many ? "pattern" : "shop"} on my phone`);
    show(many ? (pattern ? SAYS.onePattern : SAYS.many) : SAYS.none);
    const seen = new IntersectionObserver((entries) => {
      if (!entries.some((entry) => entry.isIntersecting)) return;
      seen.disconnect();
      lookNow();
    });
    seen.observe(place);
  }
} else {
  show(SAYS.no);
}
place.hidden = false;
