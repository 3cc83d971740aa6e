// The note filling the screen, to be read across a counter; and its first line at the foot of the screen while the
// questions are in sight and the note is not.

const ONLY_IN_THE_PAGE = ["id", "data-fragment", "data-fragments", "data-shown-size", "data-counter"];

export function counterNote() {
  const dialog = document.querySelector("dialog.counter");
  const button = document.querySelector("[data-counter-note]");
  button.hidden = false;
  button.addEventListener("click", () => {
    dialog.querySelector("[data-counter-lines]").replaceChildren(
      ...[...document.querySelectorAll("[data-counter]")].map((part) => {
        const copy = part.cloneNode(true);
        for (const why of copy.querySelectorAll(".why")) why.remove();
        for (const each of [copy, ...copy.querySelectorAll("*")]) {
          for (const name of ONLY_IN_THE_PAGE) each.removeAttribute(name);
        }
        return copy;
      }),
    );
    dialog.showModal();
    dialog.scrollTop = 0; // the focus goes to the button at its end
  });
}

// It repeats what the note announces, so it is hidden from screen readers.
export function strip() {
  const line = document.querySelector("[data-strip]");
  const asks = document.querySelector(".asks");
  const note = document.querySelector(".note__lines");
  const inSight = new Map();
  const watcher = new IntersectionObserver((entries) => {
    for (const entry of entries) inSight.set(entry.target, entry.isIntersecting);
    line.hidden = !inSight.get(asks) || inSight.get(note);
  });
  for (const part of [asks, note]) watcher.observe(part);
}
