// The cutting list, ticked off while cutting.
//
// A tick belongs to a line in its own words, cloth and piece and how it is cut: what is to be cut in another way, or
// twice as often, is to be ticked anew.

// `kinds` is the script ticks.mjs.
export function cutting(place, kinds) {
  const again = Object.assign(document.createElement("button"), { type: "button", className: "plain", hidden: true });
  const said = Object.assign(document.createElement("p"), { className: "aside", role: "status" });
  place.after(again, said);
  const ticked = kinds.ticks({ kind: "cut", again, anew: "Cut again: take all ticks away", said, show });

  const words = (line, name) => line.querySelector(name)?.textContent.trim() ?? "";
  const named = (line) =>
    `${line.closest("dd").previousElementSibling.textContent.trim()}: ${words(line, ".bs-piece")}, ${words(line, ".bs-how")}`;

  function show() {
    for (const line of place.querySelectorAll("li")) {
      const name = named(line);
      let input = line.querySelector("input");
      if (!input) {
        const box = kinds.tickBox("", "cut__done");
        input = box.input;
        line.prepend(box.around);
        input.addEventListener("change", () => ticked.set(name, input.checked));
      }
      input.setAttribute("aria-label", `Cut: ${name}`);
      input.checked = ticked.has(name);
      line.classList.toggle("done", input.checked);
    }
  }

  // Other choices bring another list, whose lines have no boxes yet.
  new MutationObserver((seen) => {
    if (seen.some(({ target, addedNodes }) => target === place && addedNodes.length)) show();
  }).observe(place, { childList: true, subtree: true });
  ticked.showAll();
}
