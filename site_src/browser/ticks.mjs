// Ticks that stay: of the cutting list while cutting, of the steps at the machine.
//
// They are kept in one place of this device's storage for each pattern and kind: nothing before the first tick, and
// nothing once none is left.

const FULL = "This browser keeps nothing for this page, so the ticks are gone once you leave it.";
const BACK = "Bring the ticks back";

// `kind` and the page's address name the place; `again` is the button that takes all ticks away, `anew` its words;
// `said` is told when nothing can be kept; `show` is called whenever ticks have changed; `known` says whether a name
// that was kept is still one of the page's.
export function ticks({ kind, again, anew, said, show, known = () => true, storage = () => localStorage }) {
  const key = `boltside ${kind}: ${location.pathname}`;
  let ticked = kept();
  let before = []; // what was ticked before all ticks were taken away

  function kept() {
    try {
      const names = JSON.parse(storage().getItem(key) ?? "[]");
      return Array.isArray(names) ? names.filter(known) : [];
    } catch {
      return [];
    }
  }

  function keep(names) {
    ticked = names;
    try {
      if (ticked.length) storage().setItem(key, JSON.stringify(ticked));
      else storage().removeItem(key);
    } catch {
      said.textContent = FULL;
    }
    showAll();
  }

  function showAll() {
    again.hidden = !ticked.length && !before.length;
    again.textContent = before.length ? BACK : anew;
    show();
  }

  again.addEventListener("click", () => {
    const bring = before;
    before = bring.length ? [] : ticked;
    keep(bring);
  });
  addEventListener("storage", (event) => {
    if (event.key !== key && event.key !== null) return;
    ticked = kept(); // another tab of this pattern, or all of the storage emptied
    showAll();
  });
  return {
    has: (name) => ticked.includes(name),
    set(name, on) {
      before = [];
      keep(on ? [...ticked.filter((one) => one !== name), name] : ticked.filter((one) => one !== name));
    },
    showAll,
  };
}

// A box to be ticked, in a label of its own that is large enough for a thumb.
export function tickBox(label, className) {
  const input = Object.assign(document.createElement("input"), { type: "checkbox", autocomplete: "off" });
  if (label) input.setAttribute("aria-label", label);
  const around = Object.assign(document.createElement("label"), { className });
  around.append(input);
  return { input, around };
}
