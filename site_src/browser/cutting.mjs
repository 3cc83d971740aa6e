// The cutting list, ticked off while cutting.
//
// What is ticked is kept in one place of this device's storage for each pattern: nothing before the first tick, and
// nothing once no line is ticked. A tick belongs to a line in its own words, cloth and piece and how it is cut: what is
// to be cut in another way, or twice as often, is to be ticked anew.

const FULL = "This browser keeps nothing for this page, so the ticks are gone once you leave it.";

export function cutting(place, storage = () => localStorage) {
  const key = `boltside cut: ${location.pathname}`;
  const again = Object.assign(document.createElement("button"), { type: "button", className: "plain", hidden: true });
  const said = Object.assign(document.createElement("p"), { className: "aside", role: "status" });
  place.after(again, said);
  let ticked = kept();
  let before = []; // what was ticked before all ticks were taken away

  function kept() {
    try {
      const lines = JSON.parse(storage().getItem(key) ?? "[]");
      return Array.isArray(lines) ? lines : [];
    } catch {
      return [];
    }
  }

  function keep(lines) {
    ticked = lines;
    try {
      if (ticked.length) storage().setItem(key, JSON.stringify(ticked));
      else storage().removeItem(key);
    } catch {
      said.textContent = FULL;
    }
    show();
  }

  const words = (line, name) => line.querySelector(name)?.textContent.trim() ?? "";
  const named = (line) =>
    `${line.closest("dd").previousElementSibling.textContent.trim()}: ${words(line, ".bs-piece")}, ${words(line, ".bs-how")}`;

  function show() {
    for (const line of place.querySelectorAll("li")) {
      const name = named(line);
      let input = line.querySelector("input");
      if (!input) {
        input = Object.assign(document.createElement("input"), { type: "checkbox", autocomplete: "off" });
        const label = Object.assign(document.createElement("label"), { className: "cut__done" });
        label.append(input);
        line.prepend(label);
        input.addEventListener("change", () => {
          before = [];
          keep(input.checked ? [...ticked, name] : ticked.filter((one) => one !== name));
        });
      }
      input.setAttribute("aria-label", `Cut: ${name}`);
      input.checked = ticked.includes(name);
      line.classList.toggle("done", input.checked);
    }
    again.hidden = !ticked.length && !before.length;
    again.textContent = before.length ? "Bring the ticks back" : "Cut again: take all ticks away";
  }

  again.addEventListener("click", () => {
    const bring = before;
    before = bring.length ? [] : ticked;
    keep(bring);
  });
  addEventListener("storage", (event) => {
    if (event.key !== key && event.key !== null) return;
    ticked = kept(); // another tab of this pattern, or all of the storage emptied
    show();
  });
  // Other choices bring another list, whose lines have no boxes yet.
  new MutationObserver((seen) => {
    if (seen.some(({ target, addedNodes }) => target === place && addedNodes.length)) show();
  }).observe(place, { childList: true, subtree: true });
  show();
}
