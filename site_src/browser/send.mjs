// Sends the list: by the device's share sheet, as a link, as text, on paper; and one garment as a code. Nothing of it
// goes anywhere by itself.

const SAYS = {
  link: "The link is copied. Whoever opens it sees this list; yours stays here.",
  text: "The list is copied as text.",
  code: "The code is copied. Whoever opens it sees this garment just as you chose it.",
  byHand: "This browser does not let the page copy. Here it is, to be copied by hand.",
};

export function sending({ view, encode, shop, base, place }) {
  const linkOf = ({ garments, cut }) => `${new URL("list/", base)}#${encode({ garments, cut })}`;
  const inches = () => document.getElementById("unit-inch")?.checked ?? false;

  function say(sentence, byHand = "") {
    const sent = place("sent");
    sent.textContent = sentence;
    sent.hidden = !sentence;
    const field = place("to-copy");
    field.value = byHand;
    field.hidden = !byHand;
    if (byHand) field.select();
    sent.scrollIntoView({ block: "nearest" });
  }

  async function copy(text, sentence) {
    try {
      await navigator.clipboard.writeText(text);
      say(sentence);
    } catch {
      say(SAYS.byHand, text);
    }
  }

  // The list as it stands on the page, in the units that the page shows.
  function textOf() {
    const shown = (place, part) => [...document.querySelectorAll(place)].map((one) => wordsIn(part ? one.querySelector(part) : one));
    const buys = [...document.querySelectorAll("[data-buys] > .buy-line")].map((line) => {
      const ticked = line.querySelector("input[type=checkbox]")?.checked ? "[x]" : "[ ]";
      const whose = line.querySelector(".buy__whose");
      return `${ticked} ${wordsIn(line.querySelector(".buy__said"))}${whose ? ` (${wordsIn(whose)})` : ""}`;
    });
    const garments = [...document.querySelectorAll("[data-garments] > [data-garment]")].map((one) =>
      [...one.querySelectorAll("h3, .garment__options, .garment__cloth, .garment__changes")].map(wordsIn).join("\n"),
    );
    const asides = shown("[data-total]:not([hidden]), [data-safe]:not([hidden]), [data-not-counted]:not([hidden])");
    return [`Shopping list, ${shop}`, buys.join("\n"), asides.join("\n"), garments.join("\n\n"), linkOf(view())]
      .filter(Boolean)
      .join("\n\n");
  }

  // Without what the page does not show in these units.
  function wordsIn(part) {
    if (!part) return "";
    const copy = part.cloneNode(true);
    for (const other of copy.querySelectorAll(inches() ? ".in-cm" : ".in-inch")) other.remove();
    return copy.textContent.replace(/\s+/g, " ").trim();
  }

  const share = place("share");
  share.hidden = !navigator.share;
  share.addEventListener("click", async () => {
    try {
      await navigator.share({ title: `Shopping list, ${shop}`, text: textOf() });
    } catch (error) {
      if (error.name !== "AbortError") await copy(linkOf(view()), SAYS.link);
    }
  });
  place("copy-link").addEventListener("click", () => copy(linkOf(view()), SAYS.link));
  place("copy-text").addEventListener("click", () => copy(textOf(), SAYS.text));
  place("print").addEventListener("click", () => print());
  return { one: (garment) => copy(linkOf({ garments: [garment], cut: "" }), SAYS.code) };
}
