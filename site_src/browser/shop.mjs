// What every page has: the search, how many garments are on the list, words about the connection, the filter of
// photographs, buttons that choose. Small, because every page loads it;
// the search itself and its list of words are fetched when the search is opened for the first time.

// ---- search ----

const dialog = document.querySelector("[data-search]");
const opener = document.querySelector("[data-search-open]");
let search = null;

async function openSearch() {
  if (!dialog.open) dialog.showModal();
  dialog.querySelector("input").focus();
  if (search) return;
  const said = dialog.querySelector("[data-search-said]");
  said.textContent = "The list of words is being fetched.";
  try {
    const root = new URL("../", import.meta.url);
    const { begin } = await import(new URL(dialog.dataset.script, root).href);
    search = await begin(dialog, new URL(dialog.dataset.index, root), root);
  } catch {
    said.textContent = "The search can't be fetched now. It needs a connection the first time.";
  }
}

opener.hidden = false;
opener.addEventListener("click", openSearch);
dialog.querySelector("[data-search-close]").addEventListener("click", () => dialog.close());
dialog.addEventListener("click", (event) => {
  if (event.target === dialog) dialog.close(); // beside the search, on what it covers
});

// ---- how many garments are on the list (listed.mjs keeps it) ----

const listLinks = document.querySelectorAll("[data-list-count]");
function countList() {
  let count = 0;
  try {
    const kept = localStorage.getItem(`boltside list: ${new URL("../", import.meta.url).pathname}`);
    count = Object.values(JSON.parse(kept)?.items ?? {}).filter((one) => one?.garment).length;
  } catch {
    count = 0; // not allowed to look, or not to be read: the page of the list says so
  }
  for (const place of listLinks) {
    place.textContent = count || "";
    place.closest("[data-list-link]").hidden = count === 0 && place.closest(".bar") !== null;
  }
}
addEventListener("storage", countList);
addEventListener("boltside-list", countList);
countList();

// ---- the connection ----

const offlineWords = document.querySelectorAll("[data-offline]");
const sayConnection = () => {
  for (const words of offlineWords) words.hidden = navigator.onLine;
};
if (offlineWords.length) {
  addEventListener("online", sayConnection);
  addEventListener("offline", sayConnection);
  sayConnection();
}

// ---- photographs by what they show ----

const tag = document.querySelector("[data-gallery-tag]");
if (tag) {
  const photographs = [...document.querySelectorAll(".gallery > li")];
  const showTagged = () => {
    let shown = 0;
    for (const photograph of photographs) {
      photograph.hidden = tag.value !== "" && !photograph.dataset.tags.split("|").includes(tag.value);
      shown += photograph.hidden ? 0 : 1;
    }
    document.querySelector("[data-gallery-count]").textContent = `${shown} of ${photographs.length}`;
  };
  tag.closest("[hidden]").hidden = false;
  tag.addEventListener("input", showTagged);
  showTagged();
}

// ---- buttons that choose for the buyer: a cloth plan, the kind of cloth ----

// `data-checks` names radio buttons, each with the words that will do. One of these that is chosen already stays, else
// the first is checked; then the page goes on as if somebody had chosen it there.
document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-checks]");
  if (!button || button.hasAttribute("aria-disabled")) return;
  let chosen = null;
  for (const [name, words] of JSON.parse(button.dataset.checks)) {
    const group = [...document.getElementsByName(name)];
    if (group.some((control) => control.checked && words.includes(control.value))) continue;
    const wanted = group.find((control) => control.value === words[0]);
    if (!wanted) continue;
    wanted.checked = true;
    chosen = wanted;
  }
  chosen?.dispatchEvent(new Event("input", { bubbles: true }));
});
