// What stands in the page for some options alone, such as the drawings of interfacing: hidden where these are not chosen.
// And what is fetched only when somebody comes near.

export function whenNear(place, then) {
  const near = new IntersectionObserver((entries) => {
    if (!entries.some((entry) => entry.isIntersecting)) return;
    near.disconnect();
    then();
  }, { rootMargin: "100% 0px" });
  near.observe(place);
}

export function followFits(holds, shownChoices) {
  const all = [...document.querySelectorAll("[data-fits]")];
  const parts = [...document.querySelectorAll("[data-fits-all]")];
  return () => {
    const garments = shownChoices();
    for (const one of all) {
      one.hidden = Boolean(one.dataset.fits) && !garments.some((chosen) => holds(JSON.parse(one.dataset.fits), chosen));
      one.classList.add("fitting"); // then it needs no word on when it applies
    }
    for (const part of parts) part.hidden = !part.querySelector("[data-fits]:not([hidden])");
  };
}
