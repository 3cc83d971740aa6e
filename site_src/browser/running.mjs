// Keeps the worker with the calculators running: a start that hangs or fails is tried afresh once, a worker that crashes
// is replaced, one whose page has long been out of sight ends and comes back with the page.
//
// What the page hears is what the worker says (see worker.mjs), where `failed` has an `advice` or an empty one, and besides
// {kind: "resting"}: until the next `ready` nothing is answered. After `failed` nothing more comes. A worker can also end
// without a word, where a phone is short of memory: one that does not answer in time is taken to have done so.

export const PATIENCE_MS = 60_000; // from the last byte to `ready`; starting can hang without an error
export const OUT_OF_SIGHT_MS = 300_000; // after so long without being looked at the worker gives its memory back
export const ANSWER_MS = 15_000; // a question takes milliseconds
export const FILES_MS = 60_000; // one for which files have to be fetched before
const TRIES = 2;
const NEWER = "Load this page again: what the shop sends now is not of this page’s edition.";

// How much of the calculator is here, or that it is starting; `says` has the words.
export function showProgress(place, { done_bytes, total_bytes }, says) {
  const percent = Math.floor((100 * done_bytes) / total_bytes);
  place.querySelector("progress").value = percent;
  place.querySelector("span").textContent =
    done_bytes >= total_bytes ? says.starting : `${says.loading}: ${percent}\u00a0%`;
}

// `address` of the worker's script, `start` its first message. Returns what takes the page's questions.
export function run(address, start, hear) {
  let worker = null;
  let ready = false;
  let failures = 0;
  let watch = 0;
  let rest = 0;
  const open = new Map(); // number of a question without an answer to what waits for it in vain

  function begin(fresh) {
    const mine = new Worker(address, { type: "module" });
    worker = mine;
    mine.onmessage = (event) => worker === mine && heard(event.data);
    mine.onerror = (event) => worker === mine && again(event.message ?? "the worker could not be loaded");
    mine.postMessage({ ...start, fresh });
  }

  function heard(message) {
    if (message.kind === "failed") {
      again(message.reason);
      return;
    }
    if (message.kind === "progress") {
      clearTimeout(watch);
      if (message.done_bytes >= message.total_bytes) watch = setTimeout(() => again("it did not start"), PATIENCE_MS);
    } else if (message.kind === "ready") {
      clearTimeout(watch);
      ready = true;
    } else {
      answered(message.number);
    }
    hear({ data: message });
  }

  function answered(number) {
    clearTimeout(open.get(number));
    open.delete(number);
  }

  function end(reason) {
    clearTimeout(watch);
    worker?.terminate();
    worker = null;
    ready = false;
    for (const number of [...open.keys()]) {
      answered(number);
      hear({ data: { kind: "unanswered", number, reason } });
    }
  }

  function again(reason) {
    end(reason);
    failures += 1;
    if (failures >= TRIES) {
      hear({ data: { kind: "failed", reason, advice: reason.endsWith("the file of this edition") ? NEWER : "" } });
      return;
    }
    console.warn(`Calculator: ${reason}; tried once more`);
    hear({ data: { kind: "resting" } });
    begin(true);
  }

  function restSoon() {
    rest = setTimeout(() => {
      if (!ready || open.size) {
        restSoon();
        return;
      }
      end("");
      hear({ data: { kind: "resting" } });
    }, OUT_OF_SIGHT_MS);
  }

  document.addEventListener("visibilitychange", () => {
    clearTimeout(rest);
    if (document.hidden) restSoon();
    else if (!worker && failures < TRIES) {
      failures = 0; // what failed before it rested says nothing about now
      begin(false);
    }
  });
  begin(false);
  return {
    postMessage(message) {
      if (message.kind === "ask") {
        const patience_ms = message.lays?.length ? FILES_MS : ANSWER_MS;
        open.set(message.number, setTimeout(() => again("it did not answer"), patience_ms));
      }
      worker?.postMessage(message);
    },
  };
}
