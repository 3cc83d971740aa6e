// Answers to listed choices, made by the calculators when the shop was built: looked up here while Python is on its way.
//
// Each fragment says which choices it was made from; this walks from what is chosen to the pieces of its text and joins
// them. It computes nothing; what depends on something else (a typed number, a second garment) waits. How a file is
// written is told in pages/ready_answers.py. None is used before its SHA-256 equals the one in the page.

const EVERY_SIZE = null; // the key of what does not depend on the size
const OWN_PART = /^(?:way|nap)$/; // what is said of a cloth and has ready answers

export function readyAnswers({ listed, base, digits, usual, came, lost }) {
  const wanted = new Map(listed.map(([size, first, later]) => [size, [first, later]]));
  const opened = new Map(); // path of a file to what is in it
  const opening = new Map(); // path of a file to the promise that it is

  async function open(file) {
    const address = new URL(file.path, base);
    address.search = file.sha256.slice(0, digits); // so that no older copy is taken from a cache
    const response = await fetch(address);
    if (!response.ok) throw new Error(`${file.path}: the server answered ${response.status}`);
    const bytes = await response.arrayBuffer();
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    const sha256 = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
    if (sha256 !== file.sha256) throw new Error(`${file.path}: not the file of this edition`);
    opened.set(file.path, JSON.parse(new TextDecoder().decode(bytes)));
    came();
  }

  // Each file is fetched once; one that did not arrive is asked for again.
  function get(file) {
    if (!opening.has(file.path)) {
      const done = open(file);
      opening.set(file.path, done);
      done.catch(() => {
        opening.delete(file.path);
        lost();
      });
    }
    return opening.get(file.path);
  }

  const files = (size, which) => [EVERY_SIZE, size].map((of) => wanted.get(of)[which]);
  const have = (size) => files(size, 0).every((file) => opened.has(file.path));
  const knows = (size) => wanted.has(EVERY_SIZE) && wanted.has(size) && size !== EVERY_SIZE;

  async function fetchSize(size) {
    await Promise.all(files(size, 0).map(get));
    await Promise.all(files(size, 1).map(get));
  }

  // The chosen size, then all other sizes as far as they are seen first.
  async function begin(size) {
    if (!knows(size)) return;
    await fetchSize(size);
    if (navigator.connection?.saveData) return;
    await Promise.all([...wanted.values()].map(([first]) => get(first)));
  }

  // The fragments of a request, in order; `waits` is true of one that depends on more than listed choices, with its
  // words for the listed ones, `coming` of one whose file is not here yet. Null where the first files are not here.
  function answer(request) {
    if (!knows(request.size)) return null;
    fetchSize(request.size).catch(() => {}); // at once where it is here
    if (!have(request.size)) return null;
    const here = [0, 1].flatMap((which) => files(request.size, which).map((file) => opened.get(file.path)).filter(Boolean));
    const { names, order } = opened.get(wanted.get(EVERY_SIZE)[0].path);
    const values = names.map(([name, words]) => words.indexOf(valueOf(request, name)));
    if (values.includes(-1)) return null;
    const typed = typedIn(request);
    return order.map((id) => {
      const file = here.find((one) => Object.hasOwn(one.fragments, id));
      if (!file) return { id, kind: "coming", html: "", text: "", data: {}, coming: true };
      const fragment = JSON.parse(textOf(file, file.fragments[id], values));
      return file.fragments[id].waits?.some((name) => typed.has(name)) ? { ...fragment, waits: true } : fragment;
    });
  }

  function valueOf(request, name) {
    const [kind, cloth] = name.split(/\.(.*)/s);
    return cloth === undefined ? (request.choices[name] ?? usual[name]) : (request.cloths[cloth]?.[kind] ?? "");
  }

  return { begin, answer, knows, coming: (size) => knows(size) && !have(size) && opening.has(files(size, 0)[1].path) };
}

// What was asked besides listed choices, by the names under which fragments depend on it.
function typedIn(request) {
  const found = new Set(["second", "cut"].filter((name) => request[name]));
  for (const [cloth, parts] of Object.entries(request.cloths)) {
    for (const part of Object.keys(parts)) if (!OWN_PART.test(part)) found.add(`${part}.${cloth}`);
  }
  return found;
}

function textOf(file, fragment, values) {
  const number = fragment.text === undefined ? 0 : end(file.ways[fragment.text][1], values);
  return fragment.slots
    .map((slot) => {
      if (typeof slot === "string") return slot;
      if (typeof slot === "number") return file.texts[slot];
      const way = file.ways[slot[0]];
      return slot[1][way[0] ? end(way[1], values) : way[1 + number]];
    })
    .join("");
}

function end(tree, values) {
  while (Array.isArray(tree)) tree = tree[1 + values[tree[0]]];
  return tree;
}
