// Strikes out what does not go with the other options, also if only a second garment's size forbids it. A tap or the
// arrow keys on it choose nothing; they show why, and a button offers what would have to be changed along with it.

export function striking(form, offer, { forbidden }, choose) {
  const hint = document.querySelector("[data-struck-hint]");
  const controls = () => [...form.querySelectorAll("input[type=radio]")];
  const nameOf = (control) => (control.name === "size" ? "size" : control.name.startsWith("choice.") ? control.name.slice(7) : null);
  const controlOf = ([name, word]) =>
    controls().find((control) => nameOf(control) === name && control.value === word);
  const groupOf = (control) => control.closest("fieldset, [role=radiogroup]");
  const labelOf = (control) => control.closest("label").textContent.trim();
  const questionOf = (control) => groupOf(control).querySelector("legend, .legend").textContent;
  let shown = ""; // `name word` of the struck out one whose reason stands open

  // What the form holds now; a choice that is not asked keeps its word for later.
  function chosen() {
    const found = {};
    for (const control of controls()) if (control.checked && nameOf(control)) found[nameOf(control)] = control.value;
    return found;
  }

  // What either size forbids. For the second only other options are ways out: its size stands in a list of its own.
  function against() {
    const second = form.elements.second?.value;
    const found = new Map();
    if (second) {
      for (const one of forbidden(offer, { ...chosen(), size: second })) {
        const changes = one.changes.filter((change) => change.every(([name]) => name !== "size"));
        if (one.name !== "size") found.set(`${one.name} ${one.word}`, { ...one, changes });
      }
    }
    for (const one of forbidden(offer, chosen())) found.set(`${one.name} ${one.word}`, one);
    return found;
  }

  function mark() {
    const struck = against();
    if (!struck.has(shown)) shown = "";
    for (const place of form.querySelectorAll("[data-why-nots]")) place.replaceChildren();
    for (const control of controls()) {
      const one = struck.get(`${nameOf(control)} ${control.value}`);
      if (!one) {
        if (control.hasAttribute("aria-disabled")) {
          control.removeAttribute("aria-disabled");
          control.removeAttribute("aria-describedby");
        }
        continue;
      }
      control.setAttribute("aria-disabled", "true");
      const why = reason(control, one);
      control.setAttribute("aria-describedby", why.id);
      groupOf(control).querySelector("[data-why-nots]").append(why);
    }
    hint.hidden = struck.size === 0;
  }

  function reason(control, { name, word, because, changes }) {
    const why = document.createElement("div");
    why.className = "why-not";
    why.id = `why-not-${name}-${word}`;
    why.hidden = shown !== `${name} ${word}`;
    const words = document.createElement("p");
    const what = document.createElement("b");
    what.textContent = name === "size" ? `Size ${word}` : labelOf(control);
    words.append(what, `: ${because.join(" ")}`);
    why.append(words, ...changes.map((change) => offerOf(control, change)));
    return why;
  }

  function offerOf(control, change) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "plain";
    const along = change.map((one) => {
      const other = controlOf(one);
      return one[0] === "size" ? `size ${one[1]}` : `${questionOf(other)}: ${labelOf(other)}`;
    });
    button.textContent = `Take it with ${along.join(" and ")}`;
    button.addEventListener("click", () => {
      for (const one of change) controlOf(one).checked = true;
      choose(control);
      control.focus();
    });
    return button;
  }

  // A click is also what the arrow keys and the space bar make of a radio button; prevented, it changes nothing.
  form.addEventListener("click", (event) => {
    if (!event.target.hasAttribute("aria-disabled")) return;
    event.preventDefault();
    shown = `${nameOf(event.target)} ${event.target.value}`;
    for (const why of form.querySelectorAll(".why-not")) why.hidden = why.id !== event.target.getAttribute("aria-describedby");
  });

  return mark;
}
