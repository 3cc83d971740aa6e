// The list line by line, each filling the screen, to be read across a counter: one tap ticks it and goes on.

export function lineByLine({ lines, actions, place }) {
  const dialog = place("large-dialog");
  const got = place("large-got");
  let at = 0;

  function show() {
    const all = lines();
    at = Math.max(0, Math.min(at, all.length - 1));
    const line = all[at];
    if (!line) {
      dialog.close();
      return;
    }
    // As it stands in the list, without its box.
    const row = document.querySelector(`[data-buys] > [data-key="${CSS.escape(line.key)}"]`);
    const parts = [row.querySelector(".buy__said"), row.querySelector(".buy__whose")].filter(Boolean);
    place("large-line").replaceChildren(...parts.map((part) => part.cloneNode(true)));
    place("large-at").textContent = `${at + 1} of ${all.length}${line.ticked ? ", ticked" : ""}`;
    const box = row.querySelector("input[type=checkbox]");
    got.hidden = !box || box.disabled;
    got.textContent = line.ticked ? "Not yet" : "Got it";
    place("large-back").disabled = at === 0;
    place("large-next").disabled = at === all.length - 1;
  }

  place("large").addEventListener("click", () => {
    at = Math.max(0, lines().findIndex((line) => !line.ticked)); // the first that is still to be had
    show();
    dialog.showModal();
    dialog.scrollTop = 0;
  });
  place("large-back").addEventListener("click", () => { at -= 1; show(); });
  place("large-next").addEventListener("click", () => { at += 1; show(); });
  got.addEventListener("click", () => {
    const line = lines()[at];
    actions.tick(line.key, !line.ticked, line.words);
    if (!line.ticked && at < lines().length - 1) at += 1;
    show();
  });
}
