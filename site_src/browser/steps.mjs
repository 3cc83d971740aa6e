// The sewing steps: those that the shown options have, unless all are wanted; on paper unfolded.

export function followSteps(holds, shownChoices, script) {
  const list = document.querySelector(".steps");
  const all = document.querySelector("[data-all-steps]");
  const steps = [...list.children];

  function mark() {
    const garments = shownChoices();
    const wanted = all.querySelector("input").checked;
    let spare = 0;
    for (const step of steps) {
      const applies = !step.dataset.when || garments.some((chosen) => holds(JSON.parse(step.dataset.when), chosen));
      spare += applies ? 0 : 1;
      step.hidden = !applies && !wanted;
    }
    all.hidden = spare === 0;
    list.classList.toggle("fitting", !wanted); // then each needs no word on when it applies
  }

  all.addEventListener("change", mark);

  // What ticks them off is fetched when they come near.
  const place = document.querySelector("[data-sewing]");
  place.classList.add("sewing--waiting"); // has its room from the start, so that nothing is pushed along later
  place.hidden = false;
  const near = new IntersectionObserver(async (entries) => {
    if (!entries.some((entry) => entry.isIntersecting)) return;
    near.disconnect();
    const [{ sewing }, kinds] = await Promise.all(["sewing.mjs", "ticks.mjs"].map(script));
    sewing(list, place, document.querySelector("[data-machine-dialog]"), kinds);
  }, { rootMargin: "100% 0px" });
  near.observe(list);

  // Paper can't be unfolded: the steps that are shown are printed open, then folded again.
  let unfolded = [];
  addEventListener("beforeprint", () => {
    unfolded = [...document.querySelectorAll("details.step:not([open])")];
    for (const step of unfolded) step.open = true;
  });
  addEventListener("afterprint", () => {
    for (const step of unfolded) step.open = false;
  });
  return mark;
}
