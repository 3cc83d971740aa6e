"""How much processor time does a start take, beside one from the stock files? In Chromium, by turns, in one run.

    python -m tests.start_time [STARTS]

A start is everything from the request of the worker's script to the first answer for the usual choices: Python, the
calculators, the pattern's sheet. Counted is the processor time of all the browser's processes, because a busy machine
is not a slow one. The prepared start is the shop's own worker; the stock start gets the five files as they come and the
calculators as text, and does nothing besides. Both must give the same answer, byte for byte. Printed are medians and
their ratio (target 0.45; ends with 1 where it is missed), and the bytes that each asks for.
"""

from __future__ import annotations

import gzip
import json
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

import psutil
from playwright.sync_api import Browser, sync_playwright

from boltside.phone.fetch import cache_dir_of, ensure_runtime
from boltside.shop_build import calculator_sources, default_request

from .browser.shop import BROWSER, BROWSER_ARGUMENTS, EXAMPLE_SHEET, ROOT, build_shop, served

STARTS = 5
RATIO = 0.45
"""The target."""
STOCK_WORKER = """
const bytes = async (path) => new Uint8Array(await (await fetch(path)).arrayBuffer());
onmessage = async ({ data }) => {
  if (data.kind === "start") {
    const { loadPyodide } = await import("./stock/pyodide.mjs");
    const sources = Object.entries(data.sources).map(async ([name, path]) => [name, await bytes(path)]);
    const python = await loadPyodide({ indexURL: new URL("stock/", location).href, env: { PYTHONHASHSEED: "0" } });
    python.FS.mkdirTree("/boltside/boltside/calculators");
    for (const [name, content] of await Promise.all(sources)) {
      python.FS.writeFile(`/boltside/boltside/calculators/${name}`, content);
    }
    python.runPython("import sys; sys.path.insert(0, '/boltside')");
    self.door = python.pyimport("boltside.calculators.door");
    self.door.answer("open", new TextDecoder().decode(await bytes(data.sheet.path)));
    postMessage({ kind: "ready" });
  } else {
    postMessage({ kind: "answer", text: self.door.answer(data.name, data.text) });
  }
};
"""
START = """
([address, start, text]) => new Promise((resolve, reject) => {
  const worker = new Worker(address, { type: "module" });
  worker.onerror = (event) => reject(new Error(event.message));
  worker.onmessage = ({ data }) => {
    if (data.kind === "failed" || data.kind === "unanswered") reject(new Error(data.reason));
    if (data.kind === "ready") worker.postMessage({ kind: "ask", number: 1, name: "panel", text });
    if (data.kind === "answer") resolve(data.text);
  };
  worker.postMessage(start);
})
"""


def used_s() -> float:
    """Processor time of all the browser's processes so far, in seconds."""
    total = 0.0
    for process in psutil.Process().children(recursive=True):
        try:
            if "chrom" in process.name():
                times = process.cpu_times()
                total += times.user + times.system
        except psutil.Error:
            continue
    return total


def one_start(browser: Browser, page_address: str, worker: str, start: object, text: str) -> tuple[float, float, str]:
    """Seconds of processor time, seconds by the clock, and the answer of one start with an empty cache."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(page_address)
    page.wait_for_timeout(300)  # what opening a page takes is not the start's
    before_s, began = used_s(), time.monotonic()
    said: str = page.evaluate(START, [worker, start, text])
    taken = used_s() - before_s, time.monotonic() - began
    context.close()
    return *taken, said


def main() -> int:
    """Build the example shop, start by turns, print; 1 when the target is missed."""
    starts = int(sys.argv[1]) if sys.argv[1:] else STARTS
    with tempfile.TemporaryDirectory() as name:
        site = build_shop(Path(name) / "site")
        stock = ensure_runtime(cache_dir_of(ROOT), print)
        shutil.copytree(stock.folder, site / "stock")
        (site / "sources").mkdir()
        for file, content in calculator_sources().items():
            (site / "sources" / file).write_bytes(content)
        (site / "stock_worker.mjs").write_text(STOCK_WORKER, "utf-8")
        (site / "empty.html").write_text("<!doctype html><title>Start</title>", "utf-8")
        home = site / "patterns" / "example-jacket"
        panel = home.joinpath("index.html").read_text("utf-8").split('id="panel-data">')[1].split("</script>")[0]
        files = json.loads(panel)["files"]
        text = json.dumps(default_request(json.loads(EXAMPLE_SHEET.read_text("utf-8"))))
        taken: dict[str, list[tuple[float, float]]] = {"stock": [], "prepared": []}
        said = set()
        with served(site) as address, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=BROWSER, args=BROWSER_ARGUMENTS)
            sources = {file: f"sources/{file}" for file in calculator_sources()}
            how = {
                "stock": ("stock_worker.mjs", {"kind": "start", "sources": sources, "sheet": files["sheet"]}),
                "prepared": (files["worker"]["path"], {"kind": "start", "base": address, **files}),
            }
            for _ in range(starts):
                for kind, (worker, start) in how.items():
                    *times, answer = one_start(browser, f"{address}empty.html", worker, start, text)
                    taken[kind].append((times[0], times[1]))
                    said.add(answer)
            browser.close()
        assert len(said) == 1, "they do not say the same"
        prepared = sum(file["bytes"] for file in [*files["runtime"], *files["calculators"]])
        stock_bytes = [*(file.path.read_bytes() for file in stock.files), *calculator_sources().values()]
        packed = sum(len(gzip.compress(content, 9)) for content in stock_bytes)
    print(f"bytes: prepared {prepared}, stock {sum(map(len, stock_bytes))} ({packed} if the host packs them)")
    medians = {}
    for kind, times in taken.items():
        medians[kind] = statistics.median(cpu_s for cpu_s, _ in times)
        clock_s = statistics.median(wall_s for _, wall_s in times)
        each = ", ".join(f"{cpu_s:.2f}" for cpu_s, _ in times)
        print(f"{kind}: {medians[kind]:.2f} s of processor time in the middle of {starts} ({each}); "
              f"{clock_s:.2f} s by the clock")  # fmt: skip
    ratio = medians["prepared"] / medians["stock"]
    print(f"ratio of the medians: {ratio:.2f}, {'met' if ratio <= RATIO else 'MISSED'}")
    return 0 if ratio <= RATIO else 1


if __name__ == "__main__":
    sys.exit(main())
