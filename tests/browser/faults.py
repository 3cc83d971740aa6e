"""One command for all that a shop has to survive: `python -m tests.browser.faults`, with `--write` into the handbook.

Runs the tests that are marked as being about a fault and prints which browser held, as a dated table. The same tests
are part of the whole suite; this picks them out and writes down what came of them. What came of each test is kept in
the cache, so that a run that was interrupted goes on with `--go-on`: only what has not held yet is asked then.
"""

from __future__ import annotations

import argparse
import datetime
import json
import re
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

import pytest

HERE = Path(__file__).parent
TABLE = HERE.parents[1] / "site_src" / "handbook" / "faults.md"
BEGIN, END = "<!-- made by python -m tests.browser.faults -->", "<!-- until here -->"
KEPT = HERE.parents[1] / ".cache" / "boltside" / "faults.json"
BROWSERS = ("Chromium", "Firefox", "WebKitGTK")
FAULTS = {
    "nothing": "nothing: a page answers what is listed before Python, and a typed width with it; nothing is stored",
    "gone": "server gone after keeping: panel with Python, own width, remnants, search, lays, list, unknown address",
    "page from which it was kept": "server gone, in the page from which the shop was kept, not loaded again",
    "gone while keeping": "server killed while keeping: before, within and after a file, the lists, the keeper",
    "gone while updating": "server killed while a new edition is fetched, at as many moments",
    "wrong file": "a file corrupted, truncated, cut off, 404, 500, redirected while keeping",
    "wrong file in an update": "the same with a file of a new edition",
    "published halfway": "kept while the shop is just being published: new lists, old files",
    "published under an open page": "a new edition published under an open page, nothing kept",
    "update waits": "a new edition fetched, not changed over to; server gone; then changed over",
    "two windows": "two windows on two editions",
    "very old copy": "several editions skipped; a window of an edition that is no longer kept",
    "no room": "no room: at first keeping, at an update, at changing over",
    "list finds no room": "no room for the shopping list, or no storage at all",
    "removed or harmed": "a kept file removed or harmed behind our back",
    "kept state removed or strange": "all removed; the list of files or the state gone, unreadable, of an older form",
    "keeper dropped": "the browser has dropped the keeper, and it can't be fetched again",
    "keeper stopped": "the keeper stopped by the browser",
    "phone's clock wrong": "the phone's clock 27 years behind, 45 ahead, and set right between",
    "server's dates wrong": "the server's dates years ahead or behind; files that never go stale",
    "reload in the middle": "the page loaded again in the middle of keeping, four times",
    "back and forward": "back and forward over a change of edition",
    "update while typing": "changed over in another window in the middle of typing",
    "browser started anew": "the browser started anew, server gone: copy and list",
    "Python's worker ends": "Python's worker crashes, ends without a word, hangs at its start",
    "WebAssembly missing": "no WebAssembly",
    "WebAssembly forbidden": "WebAssembly forbidden by a policy of the host's",
    "JavaScript off": "JavaScript switched off",
    "list strange": "a list that can't be read, of a newer edition, or changed in two tabs at once",
    "one of many patterns": "one pattern kept of a shop of many: alone without a server, another added, a new edition",
    "list and edition": "a list from before a change of edition",
}
"""What can go wrong, by the name that tests are marked with."""


def browser_of(item: pytest.Item) -> str:
    """Which browser a test asks."""
    given = getattr(item, "callspec", None)
    words = list(given.params.values()) if given else []
    named = next((word for word in words if word in BROWSERS), None)
    marker = item.get_closest_marker("fault")
    return str(named or (marker.kwargs.get("browser") if marker else None) or "Chromium")


class Seen:
    """Gathers what came of the marked tests, of those of an earlier run too where `earlier` has them."""

    def __init__(self, earlier: dict[str, list[list[str]]] | None = None) -> None:
        self.tests = dict(earlier or {})
        """Name of a test → fault, browser, outcome; several where a test is about several faults."""

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Only what has not held yet; what is not there any more is forgotten."""
        there = {item.nodeid for item in items}
        self.tests = {name: told for name, told in self.tests.items() if name in there}
        held = {name for name, told in self.tests.items() if all(one[2] == "passed" for one in told)}
        items[:] = [item for item in items if item.nodeid not in held]

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_makereport(self, item: pytest.Item, call: pytest.CallInfo[None]):  # type: ignore[no-untyped-def]
        """Note each test once, and whatever fails before or after it."""
        report = yield
        if report.when == "call" or report.outcome != "passed":
            faults = [marker.args[0] for marker in item.iter_markers("fault")]
            self.tests[item.nodeid] = [[fault, browser_of(item), report.outcome] for fault in faults]
            KEPT.parent.mkdir(parents=True, exist_ok=True)
            KEPT.write_text(json.dumps(self.tests), "utf-8")
        return report

    @property
    def outcomes(self) -> dict[tuple[str, str], list[str]]:
        """What came of the tests about a fault in a browser."""
        found = defaultdict(list)
        for told in self.tests.values():
            for fault, browser, outcome in told:
                found[fault, browser].append(outcome)
        return found

    def cell(self, fault: str, browser: str) -> str:
        """What the table says."""
        outcomes = self.outcomes.get((fault, browser), [])
        if not outcomes:
            return "–"
        if "failed" in outcomes:
            return f"**failed** ({outcomes.count('failed')} of {len(outcomes)})"
        if "skipped" in outcomes:
            return "not here"
        return f"holds ({len(outcomes)})"


def version(*command: str) -> str:
    """The first number that a program says of itself."""
    try:
        said = subprocess.run(command, capture_output=True, text=True, timeout=30).stdout
    except (OSError, subprocess.TimeoutExpired):
        return "not here"
    found = re.search(r"\d+(\.\d+)+", said)
    return found[0] if found else "unknown"


def table(seen: Seen) -> str:
    """Faults × browsers, with the date and the browsers' versions."""
    from .phones import firefox
    from .shop import BROWSER

    webkit = version("dpkg-query", "--show", "--showformat=${Version}", "webkit2gtk-driver")
    versions = f"Chromium {version(BROWSER, '--version')}, Firefox {version(firefox() or 'firefox', '--version')}"
    lines = [
        f"{datetime.date.today():%-d %B %Y}; {versions}, WebKitGTK {webkit}. In brackets: the number of tests.",
        "",
        f"| what goes wrong | {' | '.join(BROWSERS)} |",
        "|---|" + "---|" * len(BROWSERS),
    ]
    for fault, words in FAULTS.items():
        lines.append(f"| {words} | " + " | ".join(seen.cell(fault, browser) for browser in BROWSERS) + " |")
    return "\n".join(lines)


def main() -> int:
    """Run, print, and write if that is wanted; the exit code is pytest's. Other arguments go on to pytest."""
    parser = argparse.ArgumentParser(description="Run the tests of all faults and print what held.")
    parser.add_argument("--write", action="store_true", help=f"put the table into {TABLE.name} of the handbook")
    parser.add_argument("--go-on", action="store_true", help="ask only what has not held in the last run")
    chosen, more = parser.parse_known_args()
    seen = Seen(json.loads(KEPT.read_text("utf-8")) if chosen.go_on and KEPT.exists() else None)
    code = pytest.main([str(HERE), "-m", "fault", "-q", *more], plugins=[seen])
    made = table(seen)
    print(made)
    if chosen.write:
        text = TABLE.read_text("utf-8")
        before, rest = text.split(BEGIN)
        TABLE.write_text(f"{before}{BEGIN}\n\n{made}\n\n{END}{rest.split(END)[1]}", "utf-8")
    return int(code)


if __name__ == "__main__":
    sys.exit(main())
