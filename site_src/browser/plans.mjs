// Buttons that choose options of the form: `data-checks` names radio buttons, each with the words that will do. One
// of these that is chosen already stays, else the first is checked. Which cloth plans there are and which of them is
// chosen comes with the answer.

export function planSwitch(form, controls, ask) {
  form.addEventListener("click", (event) => {
    const button = event.target.closest("[data-checks]");
    if (!button || button.hasAttribute("aria-disabled")) return;
    for (const [name, words] of JSON.parse(button.dataset.checks)) {
      const group = controls().filter((control) => control.name === name);
      if (group.some((control) => control.checked && words.includes(control.value))) continue;
      const wanted = group.find((control) => control.value === words[0]);
      if (wanted) wanted.checked = true;
    }
    ask();
  });

  return (known) => {
    for (const place of form.querySelectorAll("[data-plans]")) place.hidden = !known.get("plan")?.html;
    for (const place of form.querySelectorAll("[data-plan]")) {
      const said = known.get(`plan.${place.dataset.plan}`);
      const button = place.querySelector("button");
      place.hidden = !said?.data.offered;
      button.setAttribute("aria-pressed", String(said?.data.present === true));
      button.toggleAttribute("aria-disabled", false);
      if (said?.kind === "problem") button.setAttribute("aria-disabled", "true");
      button.dataset.checks = JSON.stringify(said?.data.checks ?? []);
    }
  };
}
