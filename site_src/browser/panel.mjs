// Moves text between the form, the worker with the calculators, and the page. Computes no length.
//
// The page comes with the answer for the default choices. Until the calculators have started, what is chosen from
// lists is answered by ready.mjs from files that they made when the shop was built; what is typed waits here, and
// nothing of it is lost. Once they have started, every change of the form is asked of them. What differs from
// the default stands in the address too, so that reloading or keeping the address keeps it. What does not go together
// is struck out by struck.mjs, drawings of lays come from lays.mjs, steps.mjs, counter.mjs and plans.mjs see to their
// parts. Still long: form, questions and showing share what was asked last, and would pass it to and fro if parted.

const START_TIMEOUT_MS = 60_000; // after so long without a start a sentence says so; a later start is still taken
const ANSWERS_FIRST_MS = 6_000; // Python is fetched behind the ready answers, but waits no longer for them than this
const TYPING_PAUSE_MS = 250; // after the last key, so that a half typed number is not answered

const SAYS = {
  loading: "The calculator is being fetched",
  starting: "The calculator is starting",
  waiting: "This is still the answer for the usual choices. Yours follows as soon as the calculator has started.",
  late:
    "The calculator has not started on this device so far. The tables below hold the amounts for the usual choices; " +
    "if it starts after all, your answer appears here by itself.",
  failed:
    "The calculator could not start on this device. What you see here is the answer for the usual choices; " +
    "the tables below hold every size and width for them.",
  fetching: "This is still the answer for what was chosen before. Yours is being fetched.",
  partly: "What you typed waits for the calculator, which is still being fetched. All else is answered already.",
  without:
    "The calculator could not start on this device. Sizes, options and ways of laying are answered all the same; " +
    "for other widths see the tables below.",
  waits: "waits for the calculator",
  unanswered: "The calculator could not answer this. The answer above is for what was chosen before.",
};

const form = document.getElementById("panel");
const data = JSON.parse(document.getElementById("panel-data").textContent);
const state = document.querySelector("[data-state]");
const note = document.querySelector("[data-calculator=panel]");
const ownAnswer = document.querySelector("[data-calculator=size]");
const takeSize = document.querySelector("[data-take-size]");
const controls = () => [...form.elements].filter((control) => control.name);
const isPicked = (control) => control.type === "radio" || control.type === "checkbox";
const base = new URL(data.base, location.href).href;

let ready = false;
let failed = false;
let advice = ""; // what helps where the calculators could not start
let late = false;
let shownText = JSON.stringify(asked("panel", data.request)); // the request whose answer the page shows
let known = null; // the fragments of that answer by id, once there is one from the calculators or looked up
let whole = false; // whether nothing of that answer is still to come
let number = 0;
let pause = 0;
const latest = {}; // number of the newest question of each part of the page: panel, size, lay.<cloth>
const sent = new Map(); // question number to the part of the page and the text that was asked

// The other scripts, with the beginning of their hash behind the address where the page lists it, so that none is
// taken from a cache that belongs to another edition.
async function script(name) {
  const listed = data.files.scripts?.[name];
  const address = new URL(listed ? listed.path : name, listed ? base : import.meta.url);
  if (listed) address.search = listed.sha256.slice(0, data.files.edition_digits);
  return import(address.href);
}

// ---- the form: what is chosen, and its place in the address ----

// Only what differs from the page as it came. A child's measurements and prices stay out of it: addresses get passed
// on.
const KEPT_OUT = /^(own|price)\./;

function changes() {
  const found = new URLSearchParams();
  for (const control of controls()) {
    if (KEPT_OUT.test(control.name)) continue;
    if (isPicked(control) ? control.checked && !control.defaultChecked : control.value !== (control.defaultValue ?? "")) {
      found.set(control.name, control.value);
    }
  }
  return found;
}

function restore() {
  const kept = new URLSearchParams(location.search);
  for (const control of controls()) {
    if (!kept.has(control.name)) continue;
    if (isPicked(control)) control.checked = control.value === kept.get(control.name) || control.checked;
    else control.value = kept.get(control.name).slice(0, control.maxLength);
    if (control.selectedIndex === -1) control.value = ""; // a list that does not have this word
    const folded = control.closest("details.stripes");
    if (folded && isPicked(control) && control.checked && !control.defaultChecked) folded.open = true;
  }
}

function keepInAddress() {
  const search = changes().toString();
  history.replaceState(null, "", `${location.pathname}${search ? `?${search}` : ""}${location.hash}`);
}

const CLOTH_KINDS = new Set(["width", "way", "nap", "pattern", "every", "uneven", "wash", "along", "across", "price"]);
const IN_A_UNIT = new Set(["width", "every", "price"]);

// The form as a calculator's request; the keys come in a fixed order, so that equal questions are equal texts.
function asked(name, known) {
  if (known) return { pattern: known.pattern, size: known.size, choices: {}, cloths: {}, unit: known.unit };
  const values = new FormData(form);
  const request = { pattern: form.dataset.pattern, size: values.get("size") ?? "", choices: {}, cloths: {}, unit: unit() };
  if (name === "size") delete request.size;
  let typed = name === "size";
  for (const control of controls()) {
    const [kind, key] = control.name.split(/\.(.*)/s);
    const value = isPicked(control) ? (control.checked && !control.defaultChecked ? control.value : "") : control.value.trim();
    if (!value) continue;
    if (name === "size" && kind === "own") request[key] = value;
    if (kind === "choice") request.choices[key] = value;
    if (CLOTH_KINDS.has(kind)) (request.cloths[key] ??= {})[kind] = value;
    if (kind === "cut" || (kind === "second" && name === "panel")) request[kind] = value;
    typed ||= IN_A_UNIT.has(kind);
  }
  if (!typed) request.unit = "cm"; // without a typed number the unit changes nothing
  return request;
}

const ownTyped = () => controls().some((control) => control.name.startsWith("own.") && control.value.trim());

// ---- asking ----

function ask() {
  keepUnits();
  keepInAddress();
  markUnits();
  strike();
  const text = JSON.stringify(asked("panel"));
  if (text === shownText && whole) latest.panel = 0; // an answer that is still under way is for something else
  else if (ready) send("panel", "panel", text);
  else lookUp(text);
  if (ready && ownTyped()) send("size", "size", JSON.stringify(asked("size")));
  if (!ownTyped()) {
    latest.size = 0;
    showSize([]);
  }
  showState();
}

// The answer to listed choices, before the calculators have started.
function lookUp(text) {
  const fragments = ready ? null : answers?.answer(JSON.parse(text));
  if (!fragments) return;
  const same = text === shownText; // then what is still to come stands there already, and perhaps has the focus
  shownText = text;
  whole = !fragments.some((fragment) => fragment.waits || fragment.coming);
  show(fragments.map((fragment) => (fragment.waits ? waiting(fragment) : fragment)), same);
}

// In the place of a figure that was made for other numbers than those typed: what it is of, and that it waits.
function waiting(fragment) {
  const line = /^(?:cloth|notion|closure|finished)\.[^.]+$/.test(fragment.id) && fragment.text;
  if (fragment.id.startsWith("guide.")) return { ...fragment, text: "…", html: "…" }; // amid a sentence
  const words = document.createElement("span");
  words.textContent = line ? `${fragment.text.split(/[,:]/)[0]}: ${SAYS.waits}` : "";
  return { ...fragment, kind: "waits", text: words.textContent, html: words.innerHTML };
}

// A question of one part of the page to one calculator; `lays` are lay files that have to be opened before.
function send(part, name, text, lays = []) {
  number += 1;
  latest[part] = number;
  sent.set(number, { part, text });
  worker.postMessage({ kind: "ask", number, name, text, lays });
}

function answered(message) {
  const { part, text } = sent.get(message.number);
  sent.delete(message.number);
  if (message.number !== latest[part]) return; // something newer has been asked
  latest[part] = 0;
  const fragments = message.kind === "answer" ? JSON.parse(message.text).fragments : null;
  if (part !== "panel" && part !== "size") {
    drawings.answered(part, fragments);
    return;
  }
  if (!fragments) {
    showState(SAYS.unanswered);
    return;
  }
  if (part === "size") {
    showSize(fragments);
  } else {
    shownText = text;
    whole = true;
    show(fragments);
  }
  showState();
}

// ---- showing: the same places that the build filled ----

const putBefore = new WeakMap();

function put(place, fragment) {
  const html = fragment?.html ?? "";
  // The calculators escape everything that was typed. What a script has added, such as boxes to tick, is no difference.
  if ((putBefore.get(place) ?? place.innerHTML) !== html) place.innerHTML = html;
  putBefore.set(place, html);
  place.hidden = !html;
  if (fragment) place.dataset.kind = fragment.kind;
  else delete place.dataset.kind;
}

// What has the focus stays in sight when an answer makes what stands above it longer or shorter.
function show(fragments, same = false) {
  const at = document.activeElement;
  const top = () => at?.getBoundingClientRect().top ?? 0;
  const before = top();
  fill(fragments, same);
  if (before > 0 && before < innerHeight && Math.abs(top() - before) > 1) at?.scrollIntoView({ block: "nearest" });
}

function fill(fragments, same) {
  known = new Map(fragments.map((fragment) => [fragment.id, fragment]));
  for (const place of document.querySelectorAll("[data-fragment]")) {
    const fragment = known.get(place.dataset.fragment);
    if (same && fragment?.coming) continue;
    if (!place.closest("[data-calculator=lay]")) put(place, fragment);
  }
  for (const place of document.querySelectorAll("[data-fragments]")) {
    fillGroup(place, fragments.filter((fragment) => fragment.id.startsWith(place.dataset.fragments)));
  }
  for (const row of form.querySelectorAll("[data-choice]")) {
    row.hidden = known.get(`choice.${row.dataset.choice}`)?.data.asked === false;
  }
  showBolts();
  offerChanges(known.get("choices")?.data.changes ?? []);
  markSize();
  markSteps();
  markPlans(known);
  drawings.follow(known);
}

// The questions about a cloth are there while it is needed; nap is asked where the answer depends on the buyer.
function showBolts() {
  for (const bolt of form.querySelectorAll("[data-bolt]")) {
    const amount = known.get(`cloth.${bolt.dataset.bolt}`);
    bolt.hidden = !amount?.html && amount?.kind !== "problem";
    for (const part of bolt.querySelectorAll("[data-nap]")) part.hidden = part.dataset.nap !== amount?.data.nap;
  }
}

function fillGroup(place, fragments) {
  const said = fragments.filter((fragment) => fragment.html);
  place.replaceChildren(
    ...said.map((fragment) => {
      const part = document.createElement(place.dataset.each ?? "div");
      put(part, fragment);
      return part;
    }),
  );
  place.hidden = said.length === 0;
}

// What would make forbidden choices possible, as buttons; their words are those of the form's own labels.
function offerChanges(offers) {
  const place = document.querySelector("[data-changes]");
  place.replaceChildren(
    ...offers.flatMap(({ choice, alternative }) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "plain";
      if (choice === "second") {
        button.textContent = `Second size: ${alternative}`;
        button.addEventListener("click", () => choose(form.elements.second, alternative));
        return [button];
      }
      const control = radio(choice === "size" ? "size" : `choice.${choice}`, alternative);
      if (!control) return [];
      const question = control.closest("fieldset, [role=radiogroup]").querySelector("legend, .legend").textContent;
      button.textContent = `${question}: ${control.closest("label").textContent.trim()}`;
      button.addEventListener("click", () => choose(control));
      return [button];
    }),
  );
  place.hidden = place.childElementCount === 0;
}

function showSize(fragments) {
  fillGroup(ownAnswer.querySelector("[data-size-said]"), fragments);
  const size = fragments.find((fragment) => fragment.data.size)?.data.size;
  takeSize.hidden = !size || !radio("size", size) || radio("size", size).checked;
  takeSize.value = size ?? "";
}

const radio = (name, value) => controls().find((control) => control.name === name && control.value === value);

function choose(control, word = null) {
  if (word === null) control.checked = true;
  else control.value = word;
  ask();
}

function markSize() {
  const { sizes = [JSON.parse(shownText).size], shown } = known?.get("chosen-size")?.data ?? {};
  for (const place of document.querySelectorAll("[data-shown-size]")) if (shown) place.textContent = shown;
  for (const row of document.querySelectorAll("tr[data-size]")) row.classList.toggle("chosen", sizes.includes(row.dataset.size));
}

// ---- the parts that have scripts of their own ----

// What the answer on the page is for, for each of the garments; a choice that is not asked is not there.
function shownChoices() {
  const { size, second, choices } = JSON.parse(shownText);
  const chosen = {};
  for (const row of form.querySelectorAll("[data-choice]:not([hidden])")) {
    const usual = [...row.querySelectorAll("input")].find((control) => control.defaultChecked);
    chosen[row.dataset.choice] = choices[row.dataset.choice] ?? usual?.value;
  }
  return [size, ...(second ? [second] : [])].map((one) => ({ ...chosen, size: one }));
}

// A number that was typed while the page was set to the other unit keeps that unit: it is written behind it. A field
// that is about something else than a length says what is written.
const BARE_NUMBER = /^[\s\d.,/½¼¾⅛⅜⅝⅞]*\d[\s\d.,/½¼¾⅛⅜⅝⅞]*$/;
const unit = () => new FormData(form).get("unit");
let unitBefore = "cm";

function keepUnits() {
  if (unit() === unitBefore) return;
  for (const field of form.querySelectorAll("input[type=text]")) {
    const behind = (unitBefore === "in" ? field.dataset.behindInch : field.dataset.behindCm) ?? unitBefore;
    if (BARE_NUMBER.test(field.value)) field.value = `${field.value.trim()} ${behind}`;
  }
  unitBefore = unit();
}

// A width that nobody typed shows the usual one, in the unit of the page, as a hint in the field.
function markUnits() {
  const inches = unit() === "in";
  for (const field of form.querySelectorAll("input[type=text]")) {
    field.parentElement.classList.toggle("with-unit", field.value !== "" && !BARE_NUMBER.test(field.value));
  }
  for (const field of form.querySelectorAll("[data-usual-inch]")) {
    field.placeholder = inches ? field.dataset.usualInch : field.dataset.usualCm;
  }
}

function showState(sentence) {
  const open = JSON.stringify(asked("panel")) !== shownText;
  note.classList.toggle("stale", open);
  let text = sentence ?? "";
  const waits = !open && known && [...known.values()].some((fragment) => fragment.waits);
  if (!text && open && !ready && answers?.coming(asked("panel").size)) text = SAYS.fetching;
  if (!text && failed) text = `${known && !open ? SAYS.without : SAYS.failed} ${advice}`.trim();
  if (!text && late && !ready && (open || waits || !known)) text = SAYS.late;
  if (!text && waits && !ready) text = SAYS.partly;
  if (!text && open && !ready) text = SAYS.waiting;
  if (state.textContent !== text) state.textContent = text;
  state.hidden = !text;
  form.setAttribute("aria-busy", String(open && ready));
}

// ---- the worker ----

const progress = document.querySelector("[data-progress]");

function showProgress(arrived) {
  progress.hidden = ready || failed;
  running.showProgress(progress, arrived, SAYS);
}

function giveUp(reason, what = "") {
  console.warn(`Calculator: ${reason}`);
  failed = true;
  advice = what;
  progress.hidden = true;
  drawings?.giveUp();
  showState();
}

function heard({ data: message }) {
  if (message.kind === "progress") showProgress(message);
  else if (message.kind === "failed") giveUp(message.reason, message.advice);
  else if (message.kind === "resting") ready = false; // until it says again that it is ready
  else if (message.kind === "ready") {
    ready = true;
    late = false;
    progress.hidden = true;
    form.dataset.ready = "true";
    ask();
    if (whole) drawings.follow(known);
  } else {
    answered(message);
  }
}

let worker = null;

function start() {
  const address = new URL(data.files.worker.path, base);
  address.search = data.files.worker.sha256.slice(0, data.files.edition_digits);
  showProgress({ done_bytes: 0, total_bytes: 1 });
  setTimeout(() => {
    late = !form.dataset.ready; // once it has started, it comes back quickly
    showState();
  }, START_TIMEOUT_MS);
  try {
    worker = running.run(address, { kind: "start", base, ...data.files }, heard);
  } catch (error) {
    giveUp(error.message);
  }
}

let strike = () => {};
let markSteps = () => {};
let markPlans = () => {};
let drawings = null;
let answers = null;

restore();
unitBefore = unit();
markSize();
const [offered, struck, steps, fits, counter, layDrawings, plans, running, readyMade] = await Promise.all(
  ["offered", "struck", "steps", "fits", "counter", "lays", "plans", "running", "ready"].map((name) => script(`${name}.mjs`)),
).catch((error) => {
  giveUp(error.message);
  throw error;
});
strike = struck.striking(form, data.offer, offered, choose);
const markList = steps.followSteps(offered.holds, shownChoices, script);
const markFits = fits.followFits(offered.holds, shownChoices);
const cutList = document.querySelector("[data-fragment=cutting-list]");
fits.whenNear(cutList.parentElement, async () => {
  const [{ cutting }, kinds] = await Promise.all(["cutting.mjs", "ticks.mjs"].map(script));
  cutting(cutList, kinds);
});
markSteps = () => {
  markList();
  markFits();
};
drawings = layDrawings.lays({
  files: data.files,
  put,
  shown: () => JSON.parse(shownText),
  started: () => ready,
  ask: (part, name, text, files) => send(part, name, text, files),
});
markPlans = plans.followPlans(form);
script("put.mjs").then(({ putButton }) => {
  const panel = { asked: () => asked("panel"), shown: () => shownText, known: () => known };
  putButton({ form, script, base, panel, offer: data.offer, offered });
});
counter.counterNote();
counter.strip();
counter.told();
markSteps();
document.addEventListener("input", (event) => {
  if (event.target.form !== form) return;
  clearTimeout(pause);
  if (isPicked(event.target) || event.target.type === "select-one") ask();
  else pause = setTimeout(ask, TYPING_PAUSE_MS);
  showState();
});
form.addEventListener("submit", (event) => {
  event.preventDefault(); // Enter in a field asks at once
  clearTimeout(pause);
  ask();
});
takeSize.addEventListener("click", () => {
  const size = radio("size", takeSize.value);
  if (size.hasAttribute("aria-disabled")) {
    size.click(); // struck out: this shows why, and what to change
    size.focus();
  } else {
    choose(size);
  }
});
answers = readyMade.readyAnswers({
  listed: data.files.answers ?? [],
  base,
  digits: data.files.edition_digits,
  usual: Object.fromEntries(data.offer.choices.map((choice) => [choice.name, choice.default])),
  came: () => {
    if (!ready && (!whole || JSON.stringify(asked("panel")) !== shownText)) ask(); // it may be what was waited for
  },
  lost: () => showState(),
});
ask();
// Python is large: fetched beside the answers it would take the line from them.
const pause_ms = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
await Promise.race([answers.begin(asked("panel").size).catch(() => {}), pause_ms(ANSWERS_FIRST_MS)]);
start();
