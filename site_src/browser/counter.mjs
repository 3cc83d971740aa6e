// The note filling the screen, to be read across a counter; its first line at the foot of the screen while the
// questions are in sight and the note is not; and the note told to who can't see it.

const ONLY_IN_THE_PAGE = ["id", "data-fragment", "data-fragments", "data-shown-size", "data-counter"];
const SETTLED_MS = 600; // an answer comes in several parts, and a quick hand chooses several times

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

// A screen reader is told the whole answer once, when it has settled and only if its words are others than before.
export function told() {
  const place = document.querySelector("[data-told]");
  const note = place.closest(".note");
  const wordsOf = (part) => {
    const copy = part.cloneNode(true);
    const inches = document.getElementById("unit-inch")?.checked;
    for (const one of copy.querySelectorAll(`.why, [hidden], ${inches ? ".in-cm" : ".in-inch"}`)) one.remove();
    const parts = copy.matches("ul") ? [...copy.children] : [copy];
    return parts.map((one) => one.textContent.replace(/\s+/g, " ").trim()).filter(Boolean);
  };
  const answer = () =>
    [...note.querySelectorAll("[data-counter], .note__problem")]
      .filter((part) => !part.closest("[hidden]"))
      .flatMap(wordsOf)
      .map((words) => (/[.!?]$/.test(words) ? words : `${words}.`))
      .join(" ");
  let before = answer();
  let pause = null;
  const tell = () => {
    const now = answer();
    if (now !== before) place.textContent = now;
    before = now;
  };
  const watcher = new MutationObserver(() => {
    clearTimeout(pause);
    pause = setTimeout(tell, SETTLED_MS);
  });
  const changes = { subtree: true, childList: true, characterData: true, attributes: true, attributeFilter: ["hidden"] };
  for (const part of note.querySelectorAll("[data-calculator=panel], #note-title")) watcher.observe(part, changes);
}
