// What fits this remnant? Moves text between the form, the worker with the calculators, and the page. Computes no length.
//
// What is typed and chosen stands in the address, so that reloading keeps it. Until the calculators have started it waits
// here; the newest question is asked as soon as they have.

const START_TIMEOUT_MS = 60_000;
const TYPING_PAUSE_MS = 250;

const SAYS = {
  loading: "The calculator is being fetched",
  starting: "The calculator is starting",
  waiting: "Your answer follows as soon as the calculator has started.",
  late: "The calculator has not started on this device so far; if it does, your answer appears here by itself.",
  failed:
    "The calculator could not start on this device. What you typed is kept in the address of this page; the tables on " +
    "each pattern's page say what it takes in every size and width for the usual choices.",
  unanswered: "The calculator could not answer this. What stands below is for what was asked before.",
};

const form = document.getElementById("remnant");
const data = JSON.parse(document.getElementById("remnant-data").textContent);
const answer = document.getElementById("fits");
const state = answer.querySelector("[data-state]");
const progress = answer.querySelector("[data-progress]");
const controls = [...form.elements].filter((control) => control.name);
const fields = controls.filter((control) => control.type === "text");
const told = form.querySelector("[data-said-all]");
const more = form.querySelector("details");
const inches = document.getElementById("unit-inch");
const base = new URL(data.base, location.href).href;

let worker = null;
let ready = false;
let failed = false;
let advice = ""; // what helps where the calculators could not start
let late = false;
let number = 0;
let pause = 0;
let shownText = "";
const sent = new Map(); // number of a question to its text

const unit = () => (inches?.checked ? "in" : "cm");
const typedAll = () => fields.every((field) => field.value.trim());

function asked() {
  const values = new FormData(form);
  const request = { unit: unit() };
  for (const name of ["width", "length", "kind", "nap", "wash", "size"]) request[name] = (values.get(name) ?? "").trim();
  return request;
}

// ---- the address ----

function keepInAddress() {
  const search = new URLSearchParams();
  for (const control of controls) {
    if (control.type === "radio" ? control.checked && !control.defaultChecked : control.value) {
      search.set(control.name, control.value);
    }
  }
  if (unit() === "in") search.set("unit", "in");
  const text = search.toString();
  history.replaceState(null, "", `${location.pathname}${text ? `?${text}` : ""}${location.hash}`);
}

function restore() {
  const kept = new URLSearchParams(location.search);
  for (const control of controls) {
    const word = kept.get(control.name);
    if (word === null) continue;
    if (control.type === "radio") control.checked = control.value === word || control.checked;
    else if (control.type === "text") control.value = word.slice(0, control.maxLength);
    else if ([...control.options].some((option) => option.value === word)) control.value = word;
  }
  if (kept.get("unit") === "in" && inches) inches.checked = true;
}

// A number that was typed while the page was set to the other unit keeps that unit: it is written behind it.
const BARE_NUMBER = /^[\s\d.,/½¼¾⅛⅜⅝⅞]*\d[\s\d.,/½¼¾⅛⅜⅝⅞]*$/;
let unitBefore = "cm";

function keepUnits() {
  if (unit() !== unitBefore) {
    for (const field of fields) if (BARE_NUMBER.test(field.value)) field.value = `${field.value.trim()} ${unitBefore}`;
    unitBefore = unit();
  }
  for (const field of fields) {
    field.parentElement.classList.toggle("with-unit", field.value !== "" && !BARE_NUMBER.test(field.value));
  }
}

// What stands folded away is told in one line.
function tellChosen() {
  const words = controls.map((control) => {
    if (control.type === "radio") return control.checked ? control.dataset.said : "";
    return control.type === "text" ? "" : control.selectedOptions[0].dataset.said;
  });
  told.textContent = words.filter(Boolean).join(", ");
}

// ---- asking and showing ----

function ask() {
  keepUnits();
  tellChosen();
  keepInAddress();
  const text = JSON.stringify(asked());
  if (typedAll() && ready && text !== shownText) {
    number += 1;
    sent.set(number, text);
    worker.postMessage({ kind: "ask", number, name: "remnants", text, lays: [] });
  }
  if (!typedAll()) {
    number += 1; // an answer that is still under way is for something else
    shownText = "";
    show([]);
  }
  showState();
}

function put(place, fragment) {
  const html = fragment?.html ?? "";
  if (place.innerHTML !== html) place.innerHTML = html; // the calculators escape everything that was typed
  place.hidden = !html;
  if (fragment) place.dataset.kind = fragment.kind;
  else delete place.dataset.kind;
}

function show(fragments) {
  const byId = new Map(fragments.map((fragment) => [fragment.id, fragment]));
  for (const place of answer.querySelectorAll("[data-fragment]")) put(place, byId.get(place.dataset.fragment));
  let any = false;
  for (const place of answer.querySelectorAll("[data-fragments]")) {
    const found = fragments.filter((fragment) => fragment.id.startsWith(place.dataset.fragments));
    place.replaceChildren(
      ...found.map((fragment) => {
        const part = document.createElement("article");
        put(part, fragment);
        // The addresses are seen from the site's root.
        for (const link of part.querySelectorAll("a[href]")) link.href = new URL(link.getAttribute("href"), base);
        return part;
      }),
    );
    place.parentElement.hidden = found.length === 0;
    any ||= found.length > 0;
  }
  answer.querySelector("[data-after]").hidden = !any;
}

function showState(sentence = "") {
  const open = typedAll() && JSON.stringify(asked()) !== shownText;
  let text = sentence;
  if (!text && failed) text = `${SAYS.failed} ${advice}`.trim();
  if (!text && open && !ready) text = late ? SAYS.late : SAYS.waiting;
  if (state.textContent !== text) state.textContent = text;
  state.hidden = !text;
  answer.classList.toggle("stale", open && shownText !== "");
  answer.setAttribute("aria-busy", String(open && ready));
}

function answered(message) {
  const text = sent.get(message.number);
  sent.delete(message.number);
  if (message.number !== number) return; // something newer has been asked
  if (message.kind !== "answer") {
    showState(SAYS.unanswered);
    return;
  }
  shownText = text;
  show(JSON.parse(message.text).fragments);
  showState();
}

// ---- the worker ----

let running = null;

function showProgress(arrived) {
  progress.hidden = ready || failed;
  running.showProgress(progress, arrived, SAYS);
}

function giveUp(reason, what = "") {
  console.warn(`Calculator: ${reason}`);
  failed = true;
  advice = what;
  progress.hidden = true;
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
  } else {
    answered(message);
  }
}

async function start() {
  const address = new URL(data.files.worker.path, base);
  address.search = data.files.worker.sha256.slice(0, data.files.edition_digits);
  progress.hidden = false; // at once, so that nothing is pushed along later
  progress.querySelector("span").textContent = SAYS.loading;
  setTimeout(() => {
    late = !form.dataset.ready; // once it has started, it comes back quickly
    showState();
  }, START_TIMEOUT_MS);
  try {
    const kept = data.files.scripts["running.mjs"];
    running = await import(new URL(`${kept.path}?${kept.sha256.slice(0, data.files.edition_digits)}`, base).href);
    showProgress({ done_bytes: 0, total_bytes: 1 });
    worker = running.run(address, { kind: "start", base, ...data.files }, heard);
  } catch (error) {
    giveUp(error.message);
  }
}

restore();
more.open = matchMedia("(min-width: 60rem)").matches; // beside it, there is room for the answer
document.addEventListener("input", (event) => {
  const mine = event.target.form === form || event.target.name === "unit";
  if (!mine) return;
  clearTimeout(pause);
  if (event.target.type === "text") pause = setTimeout(ask, TYPING_PAUSE_MS);
  else ask();
  showState();
});
form.addEventListener("submit", (event) => {
  event.preventDefault(); // Enter in a field asks at once
  clearTimeout(pause);
  ask();
});
ask();
start();
