// The copy of the shop on this phone: what is there, fetching what is missing, changing over, removing.
//
// Two caches of our own, named after the shop's place: files by their SHA-256; and `state`, {current, previous, next,
// patterns}, with the list of each of these editions. `current` is what keeper.js answers from; it changes in one step,
// and only to an edition all of whose files are there. `next` is being fetched or waits to be changed over to. `previous`
// stays until the change after that, for pages that are still open. `patterns` names those that are kept, of a shop of
// many; without it all of them are. What belongs to no pattern is always kept.

const AT_ONCE = 4;

export function copy(root) {
  const FILES = `boltside files ${root.pathname}`;
  const STATE = `boltside state ${root.pathname}`;
  const keyOf = (name) => new URL(`kept/${name}`, root).href;

  async function read(name) {
    const kept = await (await caches.open(STATE)).match(keyOf(name));
    return kept ? kept.json().catch(() => null) : null; // what can't be read is fetched anew
  }

  async function write(name, value) {
    await (await caches.open(STATE)).put(keyOf(name), new Response(JSON.stringify(value)));
  }

  // Whether anything is kept; makes no cache where there is none, for nothing is stored before somebody asks for it.
  async function exists() {
    return caches.has(STATE);
  }

  // {current, next, opens, patterns}: each of the first two null or {edition, bytes, missing: [[path, sha256, bytes]],
  // missing_bytes}; `opens` is whether keeper.js is there, without which no page comes from the copy; `patterns` names
  // those that are kept, null where all are. `more` asks what it would be with this pattern too.
  async function look(more = null) {
    if (!(await exists())) return { current: null, next: null, opens: false, patterns: null };
    const state = (await read("state")) ?? {};
    const wanted = state.patterns && more ? [...state.patterns, more] : state.patterns;
    const files = await caches.open(FILES);
    const there = new Set((await files.keys()).map((request) => request.url));
    const told = async (edition) => {
      const list = edition && (await read(edition));
      if (!list?.files) return null;
      const all = new Map(wantedOf(list, wanted).map(([path, [sha256, bytes]]) => [sha256, [path, sha256, bytes]]));
      const missing = [...all.values()].filter(([, sha256]) => !there.has(keyOf(sha256)));
      const sum = (entries) => entries.reduce((total, [, , bytes]) => total + bytes, 0);
      return { edition, bytes: sum([...all.values()]), missing, missing_bytes: sum(missing) };
    };
    const opens = Boolean((await navigator.serviceWorker.getRegistration(root.href))?.active);
    return { current: await told(state.current), next: await told(state.next), opens, patterns: state.patterns ?? null };
  }

  // The newest edition as the shop names it: {edition, bytes, files}, and of a shop of many patterns {patterns, rest_bytes},
  // the bytes of each and of all else; null where the shop can't be reached.
  async function newest() {
    if (navigator.onLine === false) return null;
    try {
      const response = await fetch(new URL("shop/edition.json", root), { cache: "no-store" });
      return response.ok ? await response.json() : null;
    } catch {
      return null;
    }
  }

  async function bytesOf(address, sha256, signal) {
    const response = await fetch(address, { cache: "no-store", signal });
    if (!response.ok) throw new Error(`${address.pathname}: the server answered ${response.status}`);
    const bytes = await response.arrayBuffer();
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    const seen = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
    if (seen !== sha256) throw new Error(`${address.pathname}: not the file of this edition`);
    return bytes;
  }

  // Makes the edition the next one: from now on its files can be fetched; those of `pattern` alone if one is named and
  // nothing is kept yet.
  async function begin(edition, pattern = null) {
    const state = (await read("state")) ?? (pattern ? { patterns: [pattern] } : {});
    const list = new TextDecoder().decode(await bytesOf(new URL("shop/files.json", root), edition));
    await write(edition, JSON.parse(list));
    await write("state", { ...state, next: edition });
  }

  // Fetches what is missing, several at once; stops at the first that is not the right file. `tell` hears the bytes done.
  async function fetchMissing(missing, tell, signal) {
    const files = await caches.open(FILES);
    const rest = [...missing];
    let done_bytes = 0;
    const stop = new AbortController();
    const either = AbortSignal.any ? AbortSignal.any([signal, stop.signal]) : signal;
    async function one() {
      while (rest.length && !signal.aborted && !stop.signal.aborted) {
        const [path, sha256, length] = rest.pop();
        // The page itself, not the file's name: some hosts send the one to the other.
        const address = new URL(path.replace(/(^|\/)index\.html$/, "$1"), root);
        address.search = sha256.slice(0, 12);
        await files.put(keyOf(sha256), new Response(await bytesOf(address, sha256, either)));
        done_bytes += length;
        tell(done_bytes);
      }
    }
    const all = Array.from({ length: AT_ONCE }, one);
    try {
      await Promise.all(all);
    } finally {
      stop.abort();
      await Promise.allSettled(all); // so that nobody hears of progress after the end
    }
  }

  // The next edition becomes the current one, if all of it is there; returns whether it has.
  async function changeOver() {
    const { next } = await look();
    if (!next || next.missing.length) return false;
    const state = await read("state");
    await write("state", { ...state, current: next.edition, previous: state.current ?? null, next: null });
    await tidy().catch(() => {}); // it has been changed over all the same
    return true;
  }

  // From now on this pattern is kept too: once all its files are there, or at once while nothing opens from the copy yet.
  async function add(pattern) {
    const { current } = await look(pattern);
    if (current?.missing.length) throw new Error(`${current.missing.length} files of ${pattern} are missing`);
    const state = await read("state");
    await write("state", { ...state, patterns: [...new Set([...state.patterns, pattern])] });
  }

  // This pattern is no longer kept, the others are.
  async function drop(pattern) {
    const state = await read("state");
    await write("state", { ...state, patterns: state.patterns.filter((name) => name !== pattern) });
    await tidy().catch(() => {}); // it is not kept any more all the same
  }

  // Files and lists that no edition needs any more.
  async function tidy() {
    const state = await read("state");
    const editions = [state.current, state.previous, state.next].filter(Boolean);
    const lists = await Promise.all(editions.map(read));
    const files = lists.flatMap((list) => wantedOf(list, state.patterns));
    const needed = new Set(files.map(([, [sha256]]) => keyOf(sha256)));
    for (const name of ["state", ...editions]) needed.add(keyOf(name));
    for (const cache of [await caches.open(FILES), await caches.open(STATE)]) {
      for (const request of await cache.keys()) if (!needed.has(request.url)) await cache.delete(request);
    }
  }

  async function forget() {
    await caches.delete(STATE); // first: without it nothing is answered from the copy
    await caches.delete(FILES);
    await (await navigator.serviceWorker.getRegistration(root.href))?.unregister();
  }

  // What answers from the copy; only after this the copy works without a connection.
  async function serve() {
    const address = new URL("keeper.js", root);
    const registered = await navigator.serviceWorker.register(address, { scope: root.pathname, updateViaCache: "none" });
    const worker = registered.active ?? registered.waiting ?? registered.installing;
    await new Promise((resolve, reject) => {
      const look = () => {
        if (worker.state === "activated") resolve();
        if (worker.state === "redundant") reject(new Error("the browser did not take the keeper"));
      };
      worker.addEventListener("statechange", look);
      look();
    });
  }

  return { exists, look, newest, begin, fetchMissing, add, drop, changeOver, forget, serve };
}

// What of an edition's list is wanted, as [path, [sha256, bytes]]: of these patterns, or of all of them.
function wantedOf(list, patterns) {
  const of = (path) => /^patterns\/([^/]+)\/./.exec(path)?.[1];
  return Object.entries(list?.files ?? {}).filter(([path]) => !patterns || !of(path) || patterns.includes(of(path)));
}
