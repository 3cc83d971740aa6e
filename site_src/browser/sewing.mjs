// The steps at the machine: ticked off one by one, and shown one at a time in large type.
//
// What is ticked is kept in one place of this device's storage for each pattern: nothing before the first tick, and
// nothing once no step is ticked. A tick belongs to the step itself, so it stays when other options show other steps.

const FULL = "This browser keeps nothing for this page, so the ticks are gone once you leave it.";
const IN_THE_PAGE = ["id", "data-fragment", "data-kind"];

export function sewing(list, place, dialog, storage = () => localStorage) {
  const key = `boltside steps: ${location.pathname}`;
  const steps = [...list.children];
  const boxes = new Map(steps.map((step) => [step.id, box(step)]));
  const part = (name, around = place) => around.querySelector(`[data-${name}]`);
  const again = part("again");
  let before = []; // what was ticked before all ticks were taken away

  function box(step) {
    const input = Object.assign(document.createElement("input"), { type: "checkbox", autocomplete: "off" });
    input.setAttribute("aria-label", `Done: ${step.querySelector(".step__title").textContent}`);
    const label = Object.assign(document.createElement("label"), { className: "step__done" });
    label.append(input);
    step.append(label);
    input.addEventListener("change", () => { before = []; keep(); });
    return input;
  }

  // ---- what is kept ----

  const ticked = () => steps.map((step) => step.id).filter((id) => boxes.get(id).checked);

  function kept() {
    try {
      const ids = JSON.parse(storage().getItem(key) ?? "[]");
      return Array.isArray(ids) ? ids : [];
    } catch {
      return [];
    }
  }

  function keep() {
    const ids = ticked();
    try {
      if (ids.length) storage().setItem(key, JSON.stringify(ids));
      else storage().removeItem(key);
    } catch {
      part("sewing-said").textContent = FULL;
    }
    show();
  }

  function tick(ids) {
    for (const [id, input] of boxes) input.checked = ids.includes(id);
  }

  function show() {
    for (const [id, input] of boxes) document.getElementById(id).classList.toggle("done", input.checked);
    again.hidden = !ticked().length && !before.length;
    again.textContent = before.length ? "Bring the ticks back" : "Start again: take all ticks away";
  }

  again.addEventListener("click", () => {
    const bring = before;
    before = bring.length ? [] : ticked();
    tick(bring);
    keep();
  });
  addEventListener("storage", (event) => {
    if (event.key !== key && event.key !== null) return;
    tick(kept()); // another tab of this pattern, or all of the storage emptied
    show();
  });

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
    part("machine-at", dialog).textContent = `Step ${at + 1} of ${all.length}${boxes.get(step.id).checked ? ", done" : ""}`;
    part("machine-done", dialog).textContent = boxes.get(step.id).checked ? "Not done yet" : "Done, next";
    part("machine-back", dialog).disabled = at === 0;
    part("machine-next", dialog).disabled = at === all.length - 1;
    part("machine-step", dialog).scrollTop = 0;
  }

  function go(by) {
    at += by;
    showOne();
  }

  part("machine").addEventListener("click", async () => {
    at = Math.max(0, shown().findIndex((step) => !boxes.get(step.id).checked));
    showOne();
    dialog.showModal();
    awake = await navigator.wakeLock?.request("screen").catch(() => null);
  });
  dialog.addEventListener("close", () => awake?.release());
  part("machine-back", dialog).addEventListener("click", () => go(-1));
  part("machine-next", dialog).addEventListener("click", () => go(1));
  part("machine-done", dialog).addEventListener("click", () => {
    const input = boxes.get(shown()[at].id);
    input.checked = !input.checked;
    before = [];
    keep();
    go(input.checked ? 1 : 0);
  });
  dialog.addEventListener("keydown", ({ key: pressed }) => {
    if (pressed === "ArrowLeft") go(-1);
    if (pressed === "ArrowRight") go(1);
  });

  tick(kept());
  show();
  list.classList.add("ticking");
  place.classList.remove("sewing--waiting");
}
