"""How many bytes are the ready answers, and how soon are they there over a slow link? By Chromium's emulation.

    python -m tests.browser.before_python [SITE]

SITE is a built shop; without one the shop of the data is built. For each pattern: bytes of the first and of the later
files, the largest of all sizes; then, each time with an empty cache on 1.6 Mbps and 150 ms, from the first paint until
the chosen size's files are here and until those of all sizes are, and the longest time from a tap on a size to the new
answer, Python being fetched meanwhile. The server compresses as common hosts do. Ends with 1 where a target is missed:
a size's files at most 25 kB packed, all sizes within 3 s after the first paint, an answer within 100 ms after the tap.
"""

from __future__ import annotations

import contextlib
import gzip
import http.server
import json
import statistics
import sys
import tempfile
import threading
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from .shop import BROWSER, BROWSER_ARGUMENTS, build_shop

BITS_A_SECOND, LATENCY_MS = 1_600_000, 150
RUNS = 3
WAIT_MS = 60_000
SIZE_KB, ALL_S, TAP_MS = 25.0, 3.0, 100
"""The targets."""
COMPRESSED = (".html", ".css", ".mjs", ".js", ".json", ".svg", ".py")

TIMES = """
() => {
  const paint = performance.getEntriesByName("first-contentful-paint")[0].startTime;
  const came = performance.getEntriesByType("resource").filter((one) => one.name.includes("/answers/"));
  const chosen = (one) => one.name.includes("/every-size.") || one.name.includes(`/sizes/${size}.`);
  const size = new FormData(document.getElementById("panel")).get("size");
  const last = (some) => Math.max(...some.map((one) => one.responseEnd)) - paint;
  const first = came.filter((one) => !one.name.includes(".later."));
  return { paint, chosen: last(first.filter(chosen)), later: last(came.filter(chosen)), all: last(first) };
}
"""
TAP = """
(value) => new Promise((resolve) => {
  const line = document.querySelector("[data-shown-size]");
  const began = performance.now();
  new MutationObserver((seen, watcher) => { watcher.disconnect(); resolve(performance.now() - began); })
    .observe(line, { childList: true, characterData: true, subtree: true });
  document.querySelector(`input[name=size][value="${value}"]`).click();
})
"""


class Compressing(http.server.SimpleHTTPRequestHandler):
    """Serves files, text compressed."""

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if not path.is_file():
            self.send_error(404)
            return
        body, packed = path.read_bytes(), path.suffix in COMPRESSED
        body = gzip.compress(body) if packed else body
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(path)))
        self.send_header("Content-Length", str(len(body)))
        if packed:
            self.send_header("Content-Encoding", "gzip")
        self.end_headers()
        with contextlib.suppress(OSError):  # a visit that has ended takes no more of Python
            self.wfile.write(body)

    def log_message(self, *_: Any) -> None:
        """Nothing is said of each request."""


CAME = """() => performance.getEntriesByType("resource")
  .filter((one) => one.name.includes("/answers/") && one.responseEnd).length"""


def bytes_of(answers: Path) -> tuple[str, float]:
    """The gzipped bytes of the files of every size, and the largest of a single size; in words, and that in kB."""
    packed = {path: len(gzip.compress(path.read_bytes())) for path in answers.rglob("*.json")}
    found: list[float] = []
    for folder in (answers, answers / "sizes"):
        for later in (False, True):
            here = [path for path in packed if path.parent == folder and (".later" in path.name) is later]
            found.append(max(packed[path] for path in here) / 1000)
    every, every_later, one, one_later = (f"{kilobytes:.1f}" for kilobytes in found)
    return f"all sizes {every} + {every_later} kB, one size at most {one} + {one_later} kB", found[2]


def slow_visit(page: Page, address: str, sizes: list[str]) -> dict[str, float]:
    """One visit with an empty cache."""
    link = page.context.new_cdp_session(page)
    rate = BITS_A_SECOND / 8
    link.send("Network.enable")
    link.send("Network.emulateNetworkConditions",
              {"offline": False, "latency": LATENCY_MS, "downloadThroughput": rate, "uploadThroughput": rate})
    page.goto(address)
    until = time.monotonic() + WAIT_MS / 1000
    while page.evaluate(CAME) < len(sizes) + 3:
        assert time.monotonic() < until, "the answers did not come"
        page.wait_for_timeout(50)
    times: dict[str, float] = page.evaluate(TIMES)
    now = page.evaluate("new FormData(document.getElementById('panel')).get('size')")
    page.wait_for_timeout(500)
    times["tap"] = max(page.evaluate(TAP, size) for size in sizes if size != now)
    return times


def main() -> int:
    """Measure, and print a line for each pattern; 1 when a target is missed."""
    missed = 0
    with tempfile.TemporaryDirectory() as folder:
        site = Path(sys.argv[1]) if len(sys.argv) > 1 else build_shop(Path(folder) / "site", sheets=())
        serve = http.server.ThreadingHTTPServer(
            ("127.0.0.1", 0), lambda *given: Compressing(*given, directory=str(site))  # type: ignore[arg-type]
        )
        threading.Thread(target=serve.serve_forever, daemon=True).start()
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=BROWSER, args=BROWSER_ARGUMENTS)
            for spec in sorted(site.glob("patterns/*/spec.json")):
                sheet = json.loads(spec.read_text("utf-8"))
                address = f"http://127.0.0.1:{serve.server_port}/patterns/{sheet['pattern']}/"
                visits = []
                for _ in range(RUNS):
                    context = browser.new_context(viewport={"width": 360, "height": 740})
                    visits.append(slow_visit(context.new_page(), address, sheet["sizes"]))
                    context.close()
                middle = {name: statistics.median(visit[name] for visit in visits) for name in visits[0]}
                said, size_kb = bytes_of(spec.parent / "answers")
                print(f"{sheet['pattern']}: {said}")
                paint, chosen, reasons, whole = (middle[name] / 1000 for name in ("paint", "chosen", "later", "all"))
                print(f"  first paint {paint:.2f} s; after it the chosen size {chosen:.2f} s, its reasons"
                      f" {reasons:.2f} s, all sizes {whole:.2f} s; from a tap {middle['tap']:.0f} ms")  # fmt: skip
                for what, met in (("bytes", size_kb <= SIZE_KB), ("time", whole <= ALL_S),
                                  ("tap", middle["tap"] <= TAP_MS)):  # fmt: skip
                    missed += not met
                    print(f"  {'met' if met else 'MISSED'}: {what}")
            browser.close()
        serve.shutdown()
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
