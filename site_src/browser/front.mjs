// The shop front's filters: native controls, no network. What is chosen stands in the address, so it can be kept and
// passed on. Cards are hidden and shown where they stand; none is ever moved or made.

const form = document.getElementById("front");
const details = form.querySelector("details");
const cards = [...document.querySelectorAll("#cards > li")];
const words = cards.map((card) =>
  Object.fromEntries(Object.entries(card.dataset).map(([name, text]) => [name, text ? text.split("|") : []])),
);
const controls = [...form.elements].filter((control) => control.name);
const said = form.querySelector("[data-front-said]");
const clear = form.querySelector("[data-front-clear]");
const wide = matchMedia("(min-width: 46rem)");

const value = (control) => (control.type === "checkbox" && !control.checked ? "" : control.value);

// Difficulty is meant as *at most*; everything else as *this one*.
const fits = (fact, name, wanted) =>
  !wanted || (name === "difficulty" ? Number(fact.difficulty[0]) <= Number(wanted) : fact[name].includes(wanted));

const fitting = (wanted) => words.filter((fact) => wanted.every(([name, word]) => fits(fact, name, word)));

function show() {
  const wanted = controls.map((control) => [control.name, value(control)]);
  let shown = 0;
  cards.forEach((card, at) => {
    const keep = wanted.every(([name, word]) => fits(words[at], name, word));
    if (card.hidden === keep) card.hidden = !keep;
    shown += keep ? 1 : 0;
  });
  // A word that would leave nothing beside the other filters can't be taken.
  for (const control of controls) {
    if (control.type === "checkbox") continue;
    const others = fitting(wanted.filter(([name]) => name !== control.name));
    for (const option of control.options) {
      option.disabled = !option.selected && !others.some((fact) => fits(fact, control.name, option.value));
    }
  }
  const chosen = controls.filter((control) => value(control));
  const titles = chosen.map((control) => {
    if (control.type === "checkbox") return "free";
    const title = control.closest("label").querySelector("span").textContent.toLowerCase();
    const word = control.selectedOptions[0].textContent;
    return control.name === "size" || control.name === "difficulty" ? `${title} ${word}` : word;
  });
  form.querySelector("[data-front-chosen]").textContent = titles.length
    ? titles.join(", ").replace(/^./u, (first) => first.toUpperCase())
    : "All patterns";
  form.querySelector("[data-front-count]").textContent = titles.length ? `${shown} of ${cards.length}` : `${shown}`;
  clear.hidden = titles.length === 0;
  const sentence = shown
    ? `${shown} of ${cards.length} patterns`
    : `None of ${cards.length} patterns fits. Take one of the filters away.`;
  if (said.textContent !== sentence) said.textContent = sentence;
}

function keepInAddress() {
  const search = new URLSearchParams();
  for (const control of controls) if (value(control)) search.set(control.name, value(control));
  const text = search.toString();
  history.replaceState(null, "", `${location.pathname}${text ? `?${text}` : ""}${location.hash}`);
}

function restore() {
  const kept = new URLSearchParams(location.search);
  for (const control of controls) {
    const word = kept.get(control.name) ?? "";
    if (control.type === "checkbox") control.checked = word === control.value;
    else control.value = [...control.options].some((option) => option.value === word) ? word : "";
  }
  show();
}

form.addEventListener("input", () => {
  show();
  keepInAddress();
});
form.addEventListener("submit", (event) => event.preventDefault());
clear.addEventListener("click", () => {
  form.reset();
  for (const control of controls) {
    if (control.type === "checkbox") control.checked = false;
    else control.value = "";
  }
  show();
  keepInAddress();
  (wide.matches ? controls[0] : details.querySelector("summary")).focus();
});

// On a phone the filters are folded away at the foot of the screen; on a wide screen they stand open in a row.
const unfold = () => {
  details.open = wide.matches;
};
wide.addEventListener("change", unfold);
unfold();
addEventListener("pageshow", restore);
restore();
form.hidden = false;
document.documentElement.classList.add("has-front");
