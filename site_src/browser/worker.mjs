// Runs the calculators: the same Python files that made the page, compiled, in a module worker, through their one door.
//
// Python and the calculators come in two archives, packed already, so that every host sends them as small. Nothing is used
// before its SHA-256 equals the one that the build wrote into the page: neither archive, nor the pattern's sheet, nor a
// lay. One wrong byte and the page hears `failed`, or `unanswered` where it is a lay. After the start this worker asks the
// network for nothing but a lay that somebody wants to see, once.
//
// page → worker   {kind: "start", base, runtime: [FILE], calculators: [FILE], sheet: FILE, edition_digits, fresh}
//                 {kind: "ask", number, name, text, lays: [FILE]}   lays are opened before the question is asked
// worker → page   {kind: "progress", done_bytes, total_bytes} · {kind: "ready"} · {kind: "failed", reason}
//                 {kind: "answer", number, text} · {kind: "unanswered", number, reason}
// FILE is {path, sha256, bytes}, with the path seen from `base`; a `sheet` that is not one pattern's but about the whole
// shop says in `opens` which question opens it, as does what stands among the lays and is none: the sheets of a list's
// patterns. `fresh` asks past the browser's own cache: something in it was wrong.

const PACKAGE = "boltside.calculators";
const COMPILED = "calculators.zip"; // among the unpacked files, and its place in Python
const RUNTIME_TYPES = { ".wasm": "application/wasm", ".mjs": "text/javascript", ".json": "application/json" };

const load = self.fetch.bind(self); // the network; Python is given another fetch, which knows checked bytes only
const opened = new Map(); // path of a lay to the promise that it has been opened

let answer = null; // the calculators' door, once it is open
let editionDigits = 0;
let home = "";
let cache = "default";

self.onmessage = async ({ data: message }) => {
  if (message.kind === "start") {
    try {
      home = message.base;
      if (message.fresh) cache = "reload";
      editionDigits = message.edition_digits;
      answer = await openDoor(message);
      self.postMessage({ kind: "ready" });
    } catch (error) {
      self.postMessage({ kind: "failed", reason: String(error?.message ?? error) });
    }
  } else if (message.kind === "ask") {
    try {
      await Promise.all((message.lays ?? []).map(openLay));
      self.postMessage({ kind: "answer", number: message.number, text: answer(message.name, message.text) });
    } catch (error) {
      self.postMessage({ kind: "unanswered", number: message.number, reason: String(error?.message ?? error) });
    }
  }
};

// Each lay is fetched and opened once; one that did not arrive is asked for again.
function openLay(file) {
  if (!opened.has(file.path)) {
    const opening = checkedBytes(home, file, editionDigits, () => {}).then((bytes) => {
      answer(file.opens ?? "open-lays", new TextDecoder().decode(bytes));
    });
    opened.set(file.path, opening);
    opening.catch(() => opened.delete(file.path));
  }
  return opened.get(file.path);
}

const SMALLEST_MODULE = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]);

async function openDoor({ base, runtime, calculators, sheet, edition_digits }) {
  new WebAssembly.Module(SMALLEST_MODULE); // where that is not there or forbidden, no megabyte is fetched in vain
  const files = [...runtime, ...calculators, sheet];
  const total_bytes = files.reduce((sum, file) => sum + file.bytes, 0);
  let done_bytes = 0;
  const tell = (more_bytes) => {
    done_bytes += more_bytes;
    self.postMessage({ kind: "progress", done_bytes, total_bytes });
  };
  const contents = new Map();
  await Promise.all(files.map(async (file) => contents.set(file.path, await checkedBytes(base, file, edition_digits, tell))));

  const archives = [...runtime, ...calculators].map((file) => unpacked(contents.get(file.path)));
  const byName = new Map((await Promise.all(archives)).flat());
  const python = await startPython(byName);
  python.FS.writeFile(`/${COMPILED}`, byName.get(COMPILED));
  python.runPython(`import sys; sys.path.insert(0, "/${COMPILED}")`);
  const door = python.pyimport(`${PACKAGE}.door`);
  door.answer(sheet.opens ?? "open", new TextDecoder().decode(contents.get(sheet.path)));
  return (name, text) => door.answer(name, text);
}

// The file's bytes, counted while they come in, and only if they are the bytes that the build saw.
async function checkedBytes(base, file, edition_digits, tell) {
  const address = new URL(file.path, base);
  // A part of the hash behind the address, so that no older copy is taken from a cache.
  address.search = file.sha256.slice(0, edition_digits);
  const response = await load(address, { cache });
  if (!response.ok) throw new Error(`${file.path}: the server answered ${response.status}`);
  const bytes = new Uint8Array(file.bytes);
  let length = 0;
  for (const reader = response.body.getReader(); ; ) {
    const { done, value } = await reader.read();
    if (done) break;
    if (length + value.length > file.bytes) throw new Error(`${file.path}: longer than the file of this edition`);
    bytes.set(value, length);
    length += value.length;
    tell(value.length);
  }
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes.subarray(0, length)));
  const sha256 = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (sha256 !== file.sha256) throw new Error(`${file.path}: not the file of this edition`);
  return bytes;
}

// The files of an archive, by name: one gzip stream of a list's length, the list, and the contents (phone/prepare.py).
async function unpacked(archive) {
  const stream = new Blob([archive]).stream().pipeThrough(new DecompressionStream("gzip"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  const listed = new DataView(bytes.buffer).getUint32(0, true);
  let at = 4 + listed;
  return JSON.parse(new TextDecoder().decode(bytes.subarray(4, at))).map(([name, length]) => {
    at += length;
    return [name, bytes.subarray(at - length, at)];
  });
}

// Starts Python from checked bytes only: scripts as blobs, everything that the runtime fetches answered from `byName`.
async function startPython(byName) {
  const script = (name) => URL.createObjectURL(new Blob([byName.get(name)], { type: "text/javascript" }));
  self.fetch = async (request) => {
    const name = new URL(request.url ?? request, self.location.href).pathname.split("/").pop();
    if (!byName.has(name)) throw new TypeError(`${name} is not among the checked files`);
    const type = RUNTIME_TYPES[name.slice(name.lastIndexOf("."))] ?? "application/octet-stream";
    return new Response(byName.get(name), { headers: { "Content-Type": type } });
  };
  const { loadPyodide } = await import(script("pyodide.mjs"));
  const { default: createPyodideModule } = await import(script("pyodide.asm.mjs"));
  return loadPyodide({
    indexURL: new URL("checked/", self.location.href).href,
    createPyodideModule,
    lockFileContents: new TextDecoder().decode(byName.get("pyodide-lock.json")),
    packageBaseUrl: new URL("checked/", self.location.href).href,
    env: { PYTHONHASHSEED: "0" },
  });
}
