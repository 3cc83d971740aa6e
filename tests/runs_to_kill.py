"""Runs of the lay engine that a test may kill: a process that starts one for each folder it reads a line about.

Each is in a process group of its own. Forked, because a run that has to load its libraries first takes ten times as
long as the run itself. Lays are rows of rectangles, made by a worker that takes a moment for each, so that there is
time to kill it; everything else is what `boltside lay` does.
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import traceback
from pathlib import Path

from boltside.lay.brackets import CoverSearch
from boltside.lay.lattice import AskedSet
from boltside.lay.model import Lay, LayItem
from boltside.lay.pool import Pool
from boltside.lay.run import run_plans
from boltside.lay.store import LayStore, Receipts

TOLD = "told"
"""The file beside lays.json in which a run says what it has kept, line by line, and that it has ended."""
ENDED = "ended"

ROW_WORKER = """
import json, sys, time
for line in sys.stdin:
    time.sleep(0.005)
    order = json.loads(line)
    request, at, x = order["request"], [], 0
    for item in request["items"]:
        at.append([item["id"], 0, x, 0, 0, 0])
        x += max(point[0] for point in item["outline"])
    lay = {"length": x, "placements": at, "quality": order["quality"]}
    lay.update({key: request[key] for key in ("width", "way", "one_way")})
    print(json.dumps({"name": order["name"], "lay": lay}), flush=True)
"""
COMMAND = (sys.executable, "-I", "-S", "-c", ROW_WORKER)


def rectangle(name: str, length_mm: float) -> LayItem:
    """A single piece of this length."""
    corners = ((0, 0), (length_mm, 0), (length_mm, 100), (0, 100))
    return LayItem(item_id=name, outline_mm=corners, mode="single", count=1)


def searches() -> dict[str, CoverSearch]:
    """Two sizes of three rectangles, each set of which costs more than a purchase step less than the next."""
    found = {}
    for size in (86, 92):
        items = {name: rectangle(name, size * share) for name, share in (("a", 1.0), ("b", 1.5), ("c", 2.0))}
        asked = [AskedSet(item_ids=frozenset(names), naps=frozenset({True, False})) for names in ("abc", "ab", "b")]
        found[f"quay, outer, size {size}"] = CoverSearch(
            items, asked, widths_mm=[400.0, 700.0], ways=["folded", "flat"]
        )
    return found


class TellingStore(LayStore):
    """Says of each lay that it is kept, once it is."""

    def put(self, key: str, plan: str, lay: Lay, like: dict[str, object] | None = None) -> None:
        """As the store does, and then say so."""
        super().put(key, plan, lay, like)
        tell(self.path.parent, key)


def tell(folder: Path, text: str) -> None:
    """Add a line to what the run has told, so that it is there whatever becomes of the run."""
    handle = os.open(folder / TOLD, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    os.write(handle, f"{text}\n".encode())
    os.close(handle)


def run(folder: Path) -> None:
    """One run, as far as it comes."""
    pool = Pool(workers=1, command=COMMAND)
    run_plans(searches(), store=TellingStore(folder / "lays.json"), receipts=Receipts(None), pool=pool)
    tell(folder, ENDED)


def main() -> None:
    """For each line, a folder, start a run and print its process number."""
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for the runs
    for line in sys.stdin:
        process = os.fork()
        with contextlib.suppress(OSError):  # both do it, so that the group is there whoever is first
            os.setpgid(process, process)
        if process == 0:
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            try:
                run(Path(line.rstrip("\n")))
            except BaseException:
                tell(Path(line.rstrip("\n")), traceback.format_exc())
            os._exit(0)
        print(process, flush=True)


if __name__ == "__main__":
    main()
