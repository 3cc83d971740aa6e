// What "Put on my list" does: keeps what is chosen there, and the amounts that the page shows for it.
//
// The calculators' words and rounded amounts are kept as they are, so that the list can be read without them, and can
// say later what has changed. A child's measurements are no part of it.

const PRICE_ALONE = /^[\s\d.,]*\d[\s\d.,]*$/;

// `panel` tells what is asked now and which answer the page shows: {asked(), shown(), known()}; `offer` is what
// offered.mjs reads.
// Returns what puts it on.
export function putting({ place, said, base, panel, offer, offered, code, listed }) {
  const list = listed.shopList(base, code);

  return () => {
    const { failed } = list.add([chosen()]);
    const { garments } = list.look();
    said.replaceChildren(failed || "On your list. ");
    if (!failed) {
      const link = document.createElement("a");
      link.href = new URL("list/", base);
      link.textContent = garments.length > 1 ? `Open it: ${garments.length} garments` : "Open it";
      said.append(link);
    }
    said.classList.toggle("put__said--failed", Boolean(failed));
    said.hidden = false;
  };

  function chosen() {
    const request = panel.asked();
    const cloths = structuredClone(request.cloths);
    for (const said of Object.values(cloths)) {
      // A bare number is a price in the unit of the page; on the list it says so.
      if (said.price && PRICE_ALONE.test(said.price)) said.price += request.unit === "in" ? " per yd" : " per m";
    }
    // Every choice by its word, also the usual ones: what is usual may be another thing in a later edition.
    const { size, ...choices } = offered.completed(offer, { ...request.choices, size: request.size });
    // An amount that still waits for the calculators is not told; the list works it out itself.
    const waits = [...(panel.known()?.values() ?? [])].some(({ id, kind }) => kind === "waits" && /^(cloth|notion)\.[^.]+$/.test(id));
    const answered = JSON.stringify(request) === panel.shown() && !waits;
    const fragments = answered ? panel.known() : null;
    return {
      ...code.sound({ ...request, size, choices, cloths, edition: place.dataset.edition, was: fragments ? amounts(fragments) : {} }),
      name: place.dataset.name,
      said: answered ? linesOn(fragments) : [],
    };
  }
}

// The amounts of an answer, as the shop cuts them.
function amounts(fragments) {
  const was = { cloths: {}, notions: {} };
  for (const { id, kind, data } of fragments.values()) {
    const [part, name, more] = id.split(".");
    if (kind !== "figure" || more !== undefined) continue;
    const length = [data.buy_mm, data.buy_eighth_yards];
    if (part === "cloth") was.cloths[name] = length;
    if (part === "notion" && data.buy_mm !== undefined) was.notions[name] = length;
    else if (part === "notion" && data.count !== null) was.notions[name] = [data.count];
  }
  return was;
}

// The note's lines as words in both systems: from the answer, else as the build wrote them into the page.
function linesOn(fragments) {
  const places = [...document.querySelectorAll(".note__lines .figure-line > [data-fragment]:not([hidden])")];
  return places.map((place) => {
    const known = fragments?.get(place.dataset.fragment);
    if (known) return { text: known.text, text_inch: known.text_inch };
    return { text: wordsOf(place, ".in-inch"), text_inch: wordsOf(place, ".in-cm") };
  });
}

function wordsOf(place, without) {
  const copy = place.cloneNode(true);
  for (const part of copy.querySelectorAll(without)) part.remove();
  return copy.textContent.trim();
}
