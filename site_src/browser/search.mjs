// Searches the list of words that the build made: patterns, options, terms, pages. Each word that is typed must be
// the beginning of a word of the entry; words of the title count for more. Nothing that is typed leaves the page.

const MOST_SHOWN = 20;
const TITLE_WORD = 4;
const TITLE_BEGINNING = 3;
const TEXT_BEGINNING = 1;

const folded = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
const wordsOf = (text) => folded(text).match(/[\p{L}\p{N}]+/gu) ?? [];

function score(entry, typed) {
  let sum = 0;
  for (const word of typed) {
    if (entry.titleWords.includes(word)) sum += TITLE_WORD;
    else if (entry.titleWords.some((known) => known.startsWith(word))) sum += TITLE_BEGINNING;
    else if (entry.textWords.some((known) => known.startsWith(word))) sum += TEXT_BEGINNING;
    else return 0;
  }
  return sum;
}

// Entries that have every typed word, best first; equals in the order of the list.
export function found(entries, text) {
  const typed = wordsOf(text);
  if (!typed.length) return [];
  return entries
    .map((entry) => [score(entry, typed), entry])
    .filter(([points]) => points > 0)
    .sort(([one], [other]) => other - one)
    .map(([, entry]) => entry);
}

export function readIndex({ kinds, entries }) {
  return entries.map(([kind, title, address, text]) => ({
    kind: kinds[kind], title, address, text, titleWords: wordsOf(title), textWords: wordsOf(text),
  }));
}

function line(entry, root) {
  const item = document.createElement("li");
  const link = document.createElement("a");
  link.href = new URL(entry.address, root).href;
  for (const [name, words] of [["kind", entry.kind], ["title", entry.title], ["text", entry.text]]) {
    const part = document.createElement("span");
    part.className = `search__${name}`;
    part.textContent = words;
    link.append(part);
  }
  item.append(link);
  return item;
}

export async function begin(dialog, index, root) {
  const response = await fetch(index);
  if (!response.ok) throw new Error(`${response.status}`);
  const entries = readIndex(await response.json());
  const field = dialog.querySelector("input");
  const said = dialog.querySelector("[data-search-said]");
  const list = dialog.querySelector("[data-search-results]");
  const show = () => {
    const all = found(entries, field.value);
    list.replaceChildren(...all.slice(0, MOST_SHOWN).map((entry) => line(entry, root)));
    if (!field.value.trim()) said.textContent = "Patterns, options, terms of the trade.";
    else if (!all.length) said.textContent = "Nothing found. Try the beginning of another word.";
    else if (all.length > MOST_SHOWN) said.textContent = `${MOST_SHOWN} of ${all.length} found; one more word makes them fewer.`;
    else said.textContent = `${all.length} found`;
  };
  field.addEventListener("input", show);
  dialog.querySelector("form").addEventListener("submit", (event) => {
    event.preventDefault();
    list.querySelector("a")?.click();
  });
  list.addEventListener("click", (event) => {
    if (event.target.closest("a")) dialog.close(); // an address on this page would stay covered
  });
  show();
  return show;
}
