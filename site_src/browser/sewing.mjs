// The steps at the machine: ticked off one by one, and shown one at a time in large type.
//
// A tick belongs to the step itself, so it stays when other options show other steps.

const IN_THE_PAGE = ["id", "data-fragment", "data-kind"];

// `kinds` is the script ticks.mjs.
export function sewing(list, place, dialog, kinds) {
  const steps = [...list.children];
  const boxes = new Map(steps.map((step) => [step.id, box(step)]));
  const part = (name, around = place) => around.querySelector(`[data-${name}]`);
  const ticked = kinds.ticks({
    kind: "steps", again: part("again"), anew: "Start again: take all ticks away", said: part("sewing-said"), show,
    known: (id) => boxes.has(id),
  });

  function box(step) {
    const { input, around } = kinds.tickBox(`Done: ${step.querySelector(".step__title").textContent}`, "step__done");
    step.append(around);
    input.addEventListener("change", () => ticked.set(step.id, input.checked));
    return input;
  }

  function show() {
    for (const [id, input] of boxes) {
      input.checked = ticked.has(id);
      document.getElementById(id).classList.toggle("done", input.checked);
    }
  }

  // ---- one step at a time ----

  let at = 0;
  let awake = null; // a screen that goes dark at the machine has to be touched with full hands
  const shown = () => steps.filter((step) => !step.hidden);

  function showOne() {
    const all = shown();
    at = Math.max(0, Math.min(at, all.length - 1));
    const step = all[at];
    const parts = [".step__title", ".step__text"].map((name) => step.querySelector(name).cloneNode(true));
    for (const copy of parts.flatMap((one) => [one, ...one.querySelectorAll("*")])) {
      for (const name of IN_THE_PAGE) copy.removeAttribute(name);
    }
    part("machine-step", dialog).replaceChildren(...parts);
    part("machine-at", dialog).textContent = `Step ${at + 1} of ${all.length}${ticked.has(step.id) ? ", done" : ""}`;
    part("machine-done", dialog).textContent = ticked.has(step.id) ? "Not done yet" : "Done, next";
    part("machine-back", dialog).disabled = at === 0;
    part("machine-next", dialog).disabled = at === all.length - 1;
    part("machine-step", dialog).scrollTop = 0;
  }

  function go(by) {
    at += by;
    showOne();
  }

  part("machine").addEventListener("click", async () => {
    at = Math.max(0, shown().findIndex((step) => !ticked.has(step.id)));
    showOne();
    dialog.showModal();
    awake = await navigator.wakeLock?.request("screen").catch(() => null);
  });
  dialog.addEventListener("close", () => awake?.release());
  part("machine-back", dialog).addEventListener("click", () => go(-1));
  part("machine-next", dialog).addEventListener("click", () => go(1));
  part("machine-done", dialog).addEventListener("click", () => {
    const { id } = shown()[at];
    ticked.set(id, !ticked.has(id));
    go(ticked.has(id) ? 1 : 0);
  });
  dialog.addEventListener("keydown", ({ key: pressed }) => {
    if (pressed === "ArrowLeft") go(-1);
    if (pressed === "ArrowRight") go(1);
  });

  ticked.showAll();
  list.classList.add("ticking");
  place.classList.remove("sewing--waiting");
}
