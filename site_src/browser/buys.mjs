// What is to be bought, line by line: shows the calculators' fragments, with a box to tick and, folded away, how the
// amount came about, its price, and whether the cloth is one with another.

const PRICE_ALONE = /^[\s\d.,]*\d[\s\d.,]*$/;

let shown = []; // the lines as they stand there: {key, words, whose, ticked}
let open = new Set(); // keys of the lines whose “more” stands open

export const lines = () => shown;

export function show({ fragments, garments, ticks, own, some }, actions) {
  const list = document.querySelector("[data-buys]");
  const main = [...fragments.values()].filter((one) => /^buy\.(cloth|notion)\./.test(one.id) && one.data.key !== undefined);
  shown = main.map((fragment) => {
    const tick = ticks.get(fragment.id);
    const same = tick && tick.text === fragment.text && tick.text_inch === fragment.text_inch;
    return {
      key: fragment.id,
      words: fragment,
      whose: fragments.get(`${fragment.id}.whose`),
      ticked: Boolean(tick?.on && same),
      before: tick?.on && !same ? tick : null,
      problem: fragment.kind === "problem",
      price: priceOf(fragment.data.needs ?? [], garments),
    };
  });
  const focused = document.activeElement?.closest?.("[data-key]")?.dataset.key;
  const focusedPart = document.activeElement?.dataset?.part;
  const typed = focusedPart === "price" ? document.activeElement.value : null;
  list.replaceChildren(...shown.map((line) => row(line, { fragments, own }, actions)));
  // What was just tapped stays in reach of the keyboard.
  const again = focused && focusedPart && list.querySelector(`[data-key="${CSS.escape(focused)}"] [data-part="${CSS.escape(focusedPart)}"]`);
  if (again) {
    if (typed !== null && again.value !== typed) again.value = typed; // an answer came while somebody was typing
    again.focus();
  }
  put(document.querySelector("[data-total]"), fragments.get("buy.total"));
  put(document.querySelector("[data-safe]"), fragments.get("buy.safe"));
  put(document.querySelector("[data-not-counted]"), fragments.get("buy.not-counted"));
  put(document.querySelector("[data-cautions]"), fragments.get("buy.cautions"));
  const joinable = [...fragments.values()].some((one) => one.id.endsWith(".join") && one.data.join?.length);
  document.querySelector("[data-one-cloth]").hidden = !some || !joinable || !own;
  document.querySelector("[data-large]").hidden = shown.length === 0;
}

function row(line, { fragments, own }, actions) {
  const item = element("li", "buy-line");
  item.dataset.key = line.key;
  const label = element(line.problem ? "p" : "label", "buy__tick");
  if (!line.problem) {
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = line.ticked;
    box.disabled = !own;
    box.dataset.part = "tick";
    box.autocomplete = "off";
    box.addEventListener("change", () => actions.tick(line.key, box.checked, line.words));
    label.append(box);
  }
  const said = words(line.words, { amount: !line.problem });
  said.classList.add("buy__said");
  if (line.problem) said.classList.add("buy__said--problem");
  label.append(said);
  item.append(label);
  if (line.whose) item.append(withClass(words(line.whose), "buy__whose"));
  if (line.before) {
    const before = element("p", "buy__before");
    before.append("You ticked it when it was: ", words(line.before), ". Tick it again once you have it.");
    item.append(before);
  }
  const cost = fragments.get(`${line.key}.cost`);
  if (cost?.text) item.append(withClass(words(cost, { amount: cost.kind === "figure" }), cost.kind === "problem" ? "buy__before" : "buy__cost"));
  if (line.key.startsWith("buy.cloth.") && !line.problem) item.append(more(line, { fragments, own }, actions));
  return item;
}

function more(line, { fragments, own }, actions) {
  const details = element("details", "buy__more");
  details.open = open.has(line.key);
  details.addEventListener("toggle", () => (details.open ? open.add(line.key) : open.delete(line.key)));
  const summary = document.createElement("summary");
  summary.dataset.part = "more";
  summary.append("more", withClass(text(` about ${line.words.text}`), "unseen"));
  details.append(summary);
  const how = fragments.get(`${line.key}.how`);
  if (how?.text) details.append(withClass(words(how), "buy__how"));
  const { needs } = line.words.data;
  const join = fragments.get(`${line.key}.join`);
  if (join?.text) details.append(withClass(words(join), "buy__before"));
  if (!own) return details;
  details.append(price(line, needs, actions));
  if (needs.length > 1) {
    const split = button("Not from one cloth after all", "split");
    split.addEventListener("click", () => actions.split(needs));
    details.append(split);
  }
  for (const other of join?.data.join ?? []) {
    const one = button(`Cut from one cloth with: ${other.named}`, `join-${other.key}`);
    const theirs = fragments.get(`buy.cloth.${other.key}`)?.data.needs ?? [];
    one.addEventListener("click", () => actions.join([...needs, ...theirs], line.words.data.key));
    details.append(one);
  }
  return details;
}

// The price that was typed first for any of the cloths that are cut from it.
function priceOf(needs, garments) {
  const typed = needs.map(([id, cloth]) => garments.find((one) => one.id === id)?.cloths[cloth]?.price);
  return typed.find(Boolean) ?? "";
}

// Its price, in the unit that is written behind it; a bare number is one of the page's unit.
function price(line, needs, actions) {
  const field = element("label", "buy__price");
  const input = document.createElement("input");
  Object.assign(input, { type: "text", inputMode: "decimal", autocomplete: "off", maxLength: 40, size: 9 });
  input.dataset.part = "price";
  input.value = line.price;
  const inches = () => document.getElementById("unit-inch")?.checked;
  input.addEventListener("change", () => {
    const typed = input.value.trim();
    actions.price(needs, PRICE_ALONE.test(typed) ? `${typed} ${inches() ? "per yd" : "per m"}` : typed);
  });
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") input.blur();
  });
  field.append(words({ text: "Price of a metre", text_inch: "Price of a yard" }), input);
  return field;
}

// ---- the small parts that both halves of the page are made of ----

export function element(tag, className) {
  const made = document.createElement(tag);
  if (className) made.className = className;
  return made;
}

export function text(content) {
  const made = document.createElement("span");
  made.textContent = content;
  return made;
}

export function withClass(part, name) {
  part.classList.add(...name.split(" "));
  return part;
}

export function button(content, part) {
  const made = element("button", "plain");
  made.type = "button";
  made.textContent = content;
  if (part) made.dataset.part = part;
  return made;
}

// Words in both systems, of which the page shows one. With `amount` what stands behind the last colon is set apart.
export function words({ text: metric, text_inch: inch }, { amount = false } = {}) {
  const made = element("span", "words");
  const systems = metric === inch ? [["", metric]] : [["in-cm", metric], ["in-inch", inch]];
  for (const [name, plain] of systems) {
    const one = element("span", name);
    const content = unbroken(plain);
    const at = content.lastIndexOf(": ");
    if (amount && at > 0) {
      const figure = document.createElement("b");
      figure.textContent = content.slice(at + 2);
      one.append(content.slice(0, at + 1), " ", figure);
    } else {
      one.textContent = content;
    }
    made.append(one);
  }
  return made;
}

// A number and its unit stay on one line.
export const unbroken = (content) => content.replace(/(\d) (m|cm|mm|in|yd)\b/g, "$1\u00a0$2");

export function put(place, fragment, amount = fragment?.kind === "figure") {
  place.replaceChildren(...(fragment?.text ? [words(fragment, { amount })] : []));
  place.hidden = !fragment?.text;
}
