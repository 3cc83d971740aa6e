// Which cloth plans there are and which of them is chosen comes with the answer; shop.mjs takes one when it is tapped.

export function followPlans(form) {
  return (known) => {
    for (const place of form.querySelectorAll("[data-plans]")) place.hidden = !known.get("plan")?.html;
    for (const place of form.querySelectorAll("[data-plan]")) {
      const said = known.get(`plan.${place.dataset.plan}`);
      const button = place.querySelector("button");
      place.hidden = !said?.data.offered;
      button.setAttribute("aria-pressed", String(said?.data.present === true));
      if (said?.kind === "problem") button.setAttribute("aria-disabled", "true");
      else button.removeAttribute("aria-disabled");
      button.dataset.checks = JSON.stringify(said?.data.checks ?? []);
    }
  };
}
