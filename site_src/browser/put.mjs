// The button "Put on my list" of a pattern's page. What it needs is fetched once somebody does anything on the page, so
// that it costs nobody anything who only reads, and is here at the counter when the connection is gone.

const NOT_HERE = "This can't be fetched now. It needs a connection the first time.";

// `known` is what putting.mjs is given; `script` imports one of the page's scripts by its name.
export function putButton({ form, script, ...known }) {
  const place = document.querySelector("[data-put]");
  const said = place.querySelector("[data-put-said]");
  let coming = null;

  async function fetched() {
    const [putting, listed, code] = await Promise.all(["putting.mjs", "listed.mjs", "code.mjs"].map(script));
    return putting.putting({ place, said, listed, code, ...known });
  }
  const fetchOnce = () => {
    coming ??= fetched();
    coming.catch(() => { coming = null; }); // asked for again with the next tap
    return coming;
  };

  place.querySelector("[data-put-on]").addEventListener("click", async () => {
    try {
      const putOn = await fetchOnce();
      putOn();
    } catch (error) {
      console.warn(`List: ${error.message}`);
      said.textContent = NOT_HERE;
      said.hidden = false;
    }
  });
  for (const kind of ["pointerdown", "keydown"]) addEventListener(kind, fetchOnce, { once: true, passive: true });
  form.addEventListener("input", () => { said.hidden = true; }); // it was about what was chosen then
  place.classList.add("put--ready");
}
