"""How large is the index of remnants, and how long does looking through it take? Forty invented patterns, ten sizes.

    python -m tests.remnant_speed [SEED] [--without-phone]

prints the seed, the size of the index, and the times that one question takes: the first after opening, and further
ones, in this Python and, under Node, in the Python that the page runs: processor time, because a busy machine is not a
slow one. Times say nothing about another machine; their ratio does. Both must give the same answers, byte for byte.
"""

from __future__ import annotations

import gzip
import json
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from boltside.calculators.door import answer
from boltside.pages.remnant_index import index_text, kinds_in, remnant_index
from boltside.phone.fetch import cache_dir_of, ensure_runtime

sys.path.insert(0, str(Path(__file__).parent))

from cases.remnant_cases import asked
from cases.remnant_shop import SEED, generated_shop

ROOT = Path(__file__).parents[1]
QUESTIONS = 12
NODE = """
import { readFileSync, readdirSync } from "node:fs";
import { loadPyodide } from "%(runtime)s/pyodide.mjs";
const python = await loadPyodide({ indexURL: "%(runtime)s/", env: { PYTHONHASHSEED: "0" } });
python.FS.mkdirTree("/boltside/boltside/calculators");
for (const name of readdirSync("%(calculators)s").filter((name) => name.endsWith(".py"))) {
  python.FS.writeFile(`/boltside/boltside/calculators/${name}`, readFileSync(`%(calculators)s/${name}`));
}
python.runPython("import sys; sys.path.insert(0, '/boltside')");
const door = python.pyimport("boltside.calculators.door");
const asked = JSON.parse(readFileSync("%(asked)s", "utf-8"));
const said = [];
for (const [name, text] of asked) {
  const before = process.cpuUsage();
  const text_said = door.answer(name, text);
  const { user, system } = process.cpuUsage(before);
  said.push([(user + system) / 1000, text_said]);
}
console.log(JSON.stringify(said));
"""


def here(questions: list[tuple[str, str]]) -> list[tuple[float, str]]:
    """Milliseconds and answer of each question in this Python."""
    found = []
    for name, text in questions:
        before = time.process_time()
        said = answer(name, text)
        found.append(((time.process_time() - before) * 1000, said))
    return found


def on_the_phone(questions: list[tuple[str, str]]) -> list[tuple[float, str]]:
    """The same in the page's Python, under Node."""
    runtime = ensure_runtime(cache_dir_of(ROOT), print).folder
    with tempfile.TemporaryDirectory() as folder:
        given, script = Path(folder) / "asked.json", Path(folder) / "ask.mjs"
        given.write_text(json.dumps(questions), encoding="utf-8")
        places = {"runtime": runtime, "calculators": ROOT / "calculators", "asked": given}
        script.write_text(NODE % places, encoding="utf-8")
        run = subprocess.run(["node", str(script)], capture_output=True, text=True, check=True)
    found: list[tuple[float, str]] = [tuple(one) for one in json.loads(run.stdout.splitlines()[-1])]
    return found


def told(title: str, times: list[tuple[float, str]]) -> None:
    """Print the times of opening, of the first question, and of the further ones."""
    opening, first, *more = (ms for ms, _ in times)
    print(f"{title}: open {opening:.0f} ms, first question {first:.0f} ms, further ones "
          f"{sorted(more)[len(more) // 2]:.0f} ms (median), {max(more):.0f} ms (longest)")  # fmt: skip


def main() -> None:
    """Make the shop, ask, print."""
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    seed = numbers[0] if numbers else SEED
    sheets: list[dict[str, Any]] = generated_shop(seed)
    before = time.process_time()
    index = remnant_index([(sheet, f"patterns/{sheet['pattern']}/") for sheet in sheets])
    made_ms = (time.process_time() - before) * 1000
    text = index_text(index)
    packed = len(gzip.compress(text.encode(), 9, mtime=0))
    sets = [len(rows) for sheet in sheets for rows in sheet["sets"].values()]
    print(f"seed {seed}: {len(sheets)} patterns, {len(sheets[0]['sizes'])} sizes, {len(sets)} cloths, "
          f"{sum(sets)} sets of pieces (most: {max(sets)})")  # fmt: skip
    lengths = [cloth["lengths"] for pattern in index["patterns"] for cloth in pattern["cloths"]]
    bits = 8 * len(gzip.compress("".join(lengths).encode(), 9, mtime=0)) / sum(map(len, lengths))
    print(f"index: {len(text.encode())} bytes, {packed} packed, {bits:.2f} bits a length; made in {made_ms:.0f} ms")
    draw = random.Random(seed)
    # The first one is the hardest: woven cloth of a middling length, where much fits in part.
    middling = {"width": "112", "length": "80", "kind": "woven"}
    questions = [middling, *(asked(draw, kinds_in(sheets), ["86"]) for _ in range(QUESTIONS - 1))]
    all_asked = [("open-remnants", text), *(("remnants", json.dumps(one)) for one in questions)]
    in_this = here(all_asked)
    told("this Python", in_this)
    if "--without-phone" not in sys.argv:
        on_phone = on_the_phone(all_asked)
        told("the page's Python", on_phone)
        assert [said for _, said in on_phone] == [said for _, said in in_this], "they do not say the same"
        print(f"ratio of the first questions: {on_phone[1][0] / in_this[1][0]:.1f}")


if __name__ == "__main__":
    main()
