// The garments on the list: each with size, options and cloth in words, what has changed since, and what can be done
// with it. One that was taken off leaves a line from which it can be put back, until the page is left.

let gone = null; // the one that was taken off last: {garment, at: its place}

export function show(said, actions, inBoth) {
  words = inBoth;
  const list = document.querySelector("[data-garments]");
  const rows = said.garments.map((garment) => row(garment, said, actions));
  if (gone && said.garments.some((one) => one.id === gone.garment.id)) gone = null; // it is back
  if (gone && said.own) {
    rows.splice(Math.min(gone.at, rows.length), 0, undo(actions));
    document.querySelector("[data-on-list]").hidden = false;
  }
  list.replaceChildren(...rows);
  if (list.dataset.focus) {
    list.querySelector(`[data-part="${list.dataset.focus}"]`)?.focus();
    delete list.dataset.focus;
  }
}

const make = (tag, className, content = "") => {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.append(content);
  return made;
};

let words = null; // shows a text in both systems: that of buys.mjs

const both = (said) => words(said);

function act(content, run, part) {
  const made = make("button", "plain", content);
  made.type = "button";
  made.dataset.part = part;
  made.addEventListener("click", run);
  return made;
}

const sizeWords = ({ size, second }) => (second ? `sizes ${size} and ${second}` : `size ${size}`);

function row(garment, { fragments, own, shop, base, known }, actions) {
  const item = make("li", "garment");
  item.dataset.garment = garment.id;
  const of = (part) => fragments.get(`item.${garment.id}${part}`);
  const pattern = shop && Object.hasOwn(shop.patterns, garment.pattern) ? shop.patterns[garment.pattern] : null;
  const main = of("");
  const name = pattern?.name ?? garment.name ?? garment.pattern;
  const title = main?.data.named ?? `${name}, ${sizeWords(garment)}`;
  item.append(make("h3", "", title));
  if (main?.kind === "problem") {
    item.append(make("p", "garment__changes", main.text.slice(main.text.indexOf(": ") + 2)));
  }
  for (const [part, className] of [[".options", "garment__options"], [".cloth", "garment__cloth"]]) {
    if (of(part)?.text) {
      const said = make("p", className);
      said.append(both(of(part)));
      item.append(said);
    }
  }
  const changes = of(".changes");
  if (changes?.text) {
    const said = make("p", "garment__changes");
    said.append(both(changes));
    item.append(said);
    if (own && known) item.append(act("All right, take it as it is now", () => actions.takeNow(garment.id, changes.data), "take-now"));
  }
  if ((!main || main.kind === "problem") && garment.said?.length) {
    item.append(make("p", "aside", "When it was put here it took:"));
    const lines = make("ul", "garment__said");
    lines.append(...garment.said.map((line) => {
      const one = make("li");
      one.append(both(line));
      return one;
    }));
    item.append(lines);
  }
  const acts = make("div", "acts");
  if (pattern) {
    const open = make("a", "plain", own ? "Open again" : "Open in the shop");
    open.href = addressOf(garment, new URL(pattern.address, base));
    acts.append(open);
  }
  acts.append(act("Its code", () => actions.sendOne(garment), "code"));
  if (own) {
    acts.append(act("Take off", () => {
      const { id, since, ...rest } = garment;
      const at = [...item.parentElement.children].filter((one) => one.dataset.garment).indexOf(item);
      gone = { garment: { id, since, rest }, at, title };
      item.parentElement.dataset.focus = "put-back";
      actions.remove(id);
    }, "take-off"));
  }
  item.append(acts);
  return item;
}

function undo(actions) {
  const item = make("li", "garment garment--gone");
  const said = make("p", "", `${gone.title} is off your list.`);
  said.setAttribute("role", "status");
  const { id, since, rest } = gone.garment;
  item.append(said, act("Put it back", () => {
    gone = null;
    actions.putBack(id, since, rest);
  }, "put-back"));
  return item;
}

// The pattern's page with everything chosen as it was: the names are those of the panel's controls.
export function addressOf(garment, address) {
  const asked = new URLSearchParams({ size: garment.size });
  if (garment.second) asked.set("second", garment.second);
  if (garment.unit === "in") asked.set("unit", "in");
  if (garment.cut) asked.set("cut", garment.cut);
  for (const [choice, word] of Object.entries(garment.choices)) asked.set(`choice.${choice}`, word);
  for (const [cloth, said] of Object.entries(garment.cloths)) {
    for (const [key, word] of Object.entries(said)) if (key !== "bolt" && key !== "price") asked.set(`${key}.${cloth}`, word);
  }
  address.search = asked.toString();
  return address.href;
}
