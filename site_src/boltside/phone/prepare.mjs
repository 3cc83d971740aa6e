// Prepares the browser's Python: starts it under Node, imports all calculators, and has it compile what it then needs.
//
//   node prepare.mjs STOCK LIBRARY CALCULATORS TRIMMING OUT
//
// STOCK is the folder of the files as they come; LIBRARY a zip file with the library to start from; CALCULATORS a folder
// with sources, at their place in Python; TRIMMING the Python file that does the work. Writes OUT/library.zip and
// OUT/calculators.zip.

import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const HOME = "/boltside";
const LIBRARY_IN_PYTHON = "/lib/python314.zip";

const [stock, library, calculators, trimming, out] = process.argv.slice(2);

// A script that fails has its whole text, a megabyte in one line, in what Node prints; the reason alone is enough.
process.on("uncaughtException", (error) => {
  process.stderr.write(`${String(error?.message ?? error).slice(-2000)}\n`);
  process.exit(1);
});

const sources = readdirSync(calculators, { recursive: true })
  .map((place) => place.replaceAll("\\", "/"))
  .filter((place) => place.endsWith(".py"))
  .sort();

const { loadPyodide } = await import(pathToFileURL(join(stock, "pyodide.mjs")).href);
const python = await loadPyodide({ indexURL: stock, stdLibURL: library, env: { PYTHONHASHSEED: "0" } });
for (const place of sources) {
  const path = `${HOME}/${place}`;
  python.FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
  python.FS.writeFile(path, readFileSync(join(calculators, place)));
}
python.FS.writeFile(`${HOME}/trimming.py`, readFileSync(trimming));
python.globals.set("places", python.toPy(sources));
python.runPython(`
import importlib, sys
sys.path.insert(0, "${HOME}")
for place in places:
    if not place.endswith("__init__.py"):
        importlib.import_module(place.removesuffix(".py").replace("/", "."))
needed = set(sys.modules)
import trimming
# What the trimming itself needs is not among what is kept.
later = {name: sys.modules.pop(name) for name in set(sys.modules) - needed}
library = trimming.trimmed_library("${LIBRARY_IN_PYTHON}")
compiled = trimming.compiled_calculators({place: open("${HOME}/" + place, "rb").read() for place in places})
`);
for (const [name, file] of [["library", "library.zip"], ["compiled", "calculators.zip"]]) {
  writeFileSync(join(out, file), python.globals.get(name).toJs());
}
