// Drawings of lays: fetched when somebody opens one, and again whenever what is chosen changes while it is open.

const SAYS = {
  waiting: "The drawing follows as soon as the calculator has started.",
  loading: "The lay is being fetched.",
  failed: "The lay could not be fetched. Close this and open it again when there is a connection.",
  none: "There is no lay for what you chose; the note says why.",
  without: "The calculator could not start on this device, so this can't be drawn.",
};

// The lay files of an answer: one, or two where two lays follow each other.
const laysOf = (lay) => [lay?.key, lay?.behind?.key].filter(Boolean);

// `ask(slot, name, request, files)` sends a question to the worker, with the files that have to be opened before;
// `shown()` is the request whose answer the page shows; `started()` whether there is a worker to be asked.
export function lays({ files, ask, shown, started, put }) {
  const parts = [...document.querySelectorAll("details[data-lay]")];
  const state = (part, text) => {
    const place = part.querySelector("[data-lay-state]");
    place.textContent = text;
    place.hidden = !text;
  };
  const drawn = new Map(); // cloth to the text of the request whose drawing stands there
  let amounts = null; // the fragments of the answer that the page shows
  const usual = JSON.stringify(shown()); // what the drawing was made for that came with the page
  let broken = false;

  function refresh(part) {
    const cloth = part.dataset.lay;
    const amount = amounts?.get(`cloth.${cloth}`);
    if (amount) part.hidden = !amount.html;
    if (!part.open || part.hidden) return;
    const request = { ...shown(), cloth };
    const text = JSON.stringify(request);
    if (drawn.get(cloth) === text) return;
    if (!amounts || !started()) {
      if (JSON.stringify(shown()) !== usual) clear(part);
      if (!part.querySelector("svg")) state(part, broken ? SAYS.without : SAYS.waiting);
      return;
    }
    const keys = laysOf(amount?.data.lay);
    if (!keys.length || !keys.every((key) => files.lays?.[key])) {
      drawn.delete(cloth);
      clear(part);
      state(part, SAYS.none);
      return;
    }
    drawn.set(cloth, text);
    state(part, SAYS.loading);
    ask(`lay.${cloth}`, "lay", text, keys.map((key) => ({ ...files.lays[key], key })));
  }

  function clear(part) {
    for (const place of part.querySelectorAll("[data-fragment]")) put(place, undefined);
    part.querySelector("[data-lay-scale]").textContent = "";
  }

  function answered(slot, fragments) {
    const part = parts.find((one) => `lay.${one.dataset.lay}` === slot);
    const byId = new Map((fragments ?? []).map((fragment) => [fragment.id, fragment]));
    const drawing = byId.get(slot);
    if (!drawing || drawing.kind === "needs") {
      drawn.delete(part.dataset.lay); // so that opening it again asks again
      state(part, SAYS.failed);
      return;
    }
    for (const place of part.querySelectorAll("[data-fragment]")) put(place, byId.get(place.dataset.fragment));
    part.querySelector("[data-lay-scale]").textContent = drawing.data.scale ? `On paper 1:${drawing.data.scale}.` : "";
    state(part, "");
  }

  for (const part of parts) part.addEventListener("toggle", () => refresh(part));
  return {
    // The page shows another answer: its fragments by id.
    follow(byId) {
      amounts = byId;
      for (const part of parts) refresh(part);
    },
    answered,
    giveUp() {
      broken = true;
      for (const part of parts) refresh(part);
    },
  };
}
