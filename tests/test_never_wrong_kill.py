"""Killed at any moment, a run leaves a file that reads, with every lay that it had reported; the next one goes on."""

from __future__ import annotations

import contextlib
import os
import random
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import pytest
import runs_to_kill

from boltside.lay.model import LayRequest
from boltside.lay.store import LayStore
from boltside.lay.verify import faults

KILLS = 30
SIDE_BY_SIDE = 3
SEED_NAME = "BOLTSIDE_KILL_SEED"
"""Set it to the seed that a failed test printed, to kill at the same moments again."""

LONGEST_RUN_S = 300.0
"""Only for a machine that does nothing any more."""

pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork") or not hasattr(os, "killpg"), reason="without fork and signals nothing can be killed so"
)


@dataclass(frozen=True)
class Starter:
    """The process that starts runs."""

    process: subprocess.Popen[str]
    lock: threading.Lock

    def start(self, folder: Path) -> int:
        """Start a run in a folder; the number of its process group."""
        assert self.process.stdin is not None and self.process.stdout is not None
        with self.lock:
            self.process.stdin.write(f"{folder}\n")
            self.process.stdin.flush()
            return int(self.process.stdout.readline())


@pytest.fixture(scope="module")
def starter() -> Iterator[Starter]:
    process = subprocess.Popen(
        [sys.executable, str(Path(runs_to_kill.__file__))], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    yield Starter(process, threading.Lock())
    assert process.stdin is not None and process.stdout is not None
    process.stdin.close()
    process.wait(timeout=LONGEST_RUN_S)
    process.stdout.close()


def gone(group: int) -> bool:
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return True
    except PermissionError:  # what macOS says of a group whose processes have all ended
        return True
    return False


def wait_until_gone(group: int) -> None:
    deadline_s = time.monotonic() + LONGEST_RUN_S
    while not gone(group):
        assert time.monotonic() < deadline_s, "a run does not end"
        time.sleep(0.002)


def kill(group: int) -> bool:
    """Kill the run with its workers; whether there was still one."""
    try:
        os.killpg(group, signal.SIGKILL)
    except (ProcessLookupError, PermissionError):
        return False
    wait_until_gone(group)
    return True


def told(folder: Path) -> list[str]:
    """What the runs in a folder have told."""
    file = folder / runs_to_kill.TOLD
    return file.read_text(encoding="utf-8").splitlines() if file.exists() else []


def whole_run(starter: Starter, folder: Path) -> float:
    """Let a run come to its end; how long it took, in seconds."""
    begun_s = time.monotonic()
    wait_until_gone(starter.start(folder))
    assert told(folder)[-1] == runs_to_kill.ENDED, "\n".join(told(folder))
    return time.monotonic() - begun_s


@dataclass(frozen=True)
class Whole:
    """What a run leaves that nobody killed."""

    content: bytes
    journal: bytes
    keys: frozenset[str]
    all_s: float
    end_s: float


@pytest.fixture(scope="module")
def whole(starter: Starter, tmp_path_factory: pytest.TempPathFactory) -> Whole:
    whole_run(starter, tmp_path_factory.mktemp("first"))  # it waits for the starter to have loaded its libraries
    folder = tmp_path_factory.mktemp("whole")
    all_s = whole_run(starter, folder)
    keys = told(folder)[:-1]
    assert len(keys) == len(set(keys)) > 20
    content = (folder / "lays.json").read_bytes()
    # The same lays as a journal: what is there just before the file is written.
    aside = tmp_path_factory.mktemp("journal")
    store, journal = LayStore(folder / "lays.json"), LayStore(aside / "lays.json")
    for plan in runs_to_kill.searches():
        for key in store.keys_of(plan):
            lay = store.get(key)
            assert lay is not None
            journal.put(key, plan, lay, store._entries[key]["like"])
    at_the_end = journal.journal.read_bytes()
    end_s = whole_run(starter, aside)
    assert told(aside) == [runs_to_kill.ENDED]
    assert (aside / "lays.json").read_bytes() == content
    return Whole(content, at_the_end, frozenset(keys), all_s, end_s)


def kill_at(starter: Starter, folder: Path, how: str, lays: int, after_s: float) -> bool:
    """Start a run and kill it a time after its start, its new file or so many lays; whether it was still running.

    Lays are counted and not only time, for a run that is timed alone may be five times as quick another time.
    """
    before = len(told(folder))
    group = starter.start(folder)
    begun_s = time.monotonic()
    new = folder / "lays.json.new"
    reached = {
        "end": lambda: True,
        "new file": new.exists,
    }.get(how, lambda: len(told(folder)) - before >= lays)
    while not reached() and not gone(group) and time.monotonic() - begun_s < LONGEST_RUN_S:
        time.sleep(0.0002)
    begun_s = time.monotonic()
    while time.monotonic() - begun_s < after_s:
        time.sleep(min(0.001, after_s / 10))
    return kill(group)


def look_at(folder: Path) -> int:
    """After a kill: the file reads, everything reported is there, and all of it is right. How many lays there are."""
    store = LayStore(folder / "lays.json")
    reported = {key for key in told(folder) if key != runs_to_kill.ENDED}
    assert reported <= set(store._entries)
    besides = set(store._entries) - reported
    assert len(besides) <= 1, "at most the lay that was just being reported is there besides"
    for key in besides:
        runs_to_kill.tell(folder, key)
    searches = runs_to_kill.searches()
    for plan, search in searches.items():
        for key in store.keys_of(plan):
            lay = store.get(key)
            assert lay is not None
            items = tuple(search.lattice.items[place.item_id] for place in lay.placements)
            request = LayRequest(items=items, bolt_width_mm=lay.bolt_width_mm, way=lay.way, one_way=lay.one_way)
            assert faults(request, lay) == []
    return len(store)


def killed_again_and_again(
    starter: Starter, whole: Whole, folder: Path, chance: random.Random, kills: int
) -> list[str]:
    """Kill runs in a folder, look at what each left, and let the last one end. Says what was hit."""
    hit: list[str] = []
    for number in range(kills):
        how = ("all", "going on", "end", "new file", "new file")[number % 5]
        if how != "going on":
            for file in folder.iterdir():
                file.unlink()
        if how in ("end", "new file"):
            (folder / "lays.journal").write_bytes(whole.journal)
            (folder / runs_to_kill.TOLD).write_text("".join(f"{key}\n" for key in sorted(whole.keys)), encoding="utf-8")
        to_come = len(whole.keys) - len(told(folder))
        a_lay_s = whole.all_s / len(whole.keys)
        longest_s = {"all": a_lay_s, "going on": a_lay_s, "end": whole.end_s, "new file": 0.01}[how]
        if kill_at(starter, folder, how, chance.randrange(max(1, to_come)), chance.uniform(0, longest_s)):
            left = sorted(file.name for file in folder.iterdir() if file.name != runs_to_kill.TOLD)
            hit.append(f"{how}: {look_at(folder)} lays in {', '.join(left) or 'nothing'}")
        else:
            look_at(folder)
    before = len(told(folder))
    whole_run(starter, folder)
    assert not set(told(folder)[before:-1]) & set(told(folder)[:before]), "made again though it was there"
    assert (folder / "lays.json").read_bytes() == whole.content
    assert sorted(file.name for file in folder.iterdir()) == ["lays.json", runs_to_kill.TOLD]
    return hit


def test_killed_at_any_moment_nothing_reported_is_lost_and_the_next_run_goes_on(
    starter: Starter, whole: Whole, tmp_path: Path
) -> None:
    seed = int(os.environ.get(SEED_NAME) or random.SystemRandom().randrange(10**6))
    print(f"the same moments again: {SEED_NAME}={seed}")
    print(f"a run takes {whole.all_s:.2f} s for {len(whole.keys)} lays, the end of one {whole.end_s:.2f} s")
    folders = [tmp_path / f"shop {number}" for number in range(SIDE_BY_SIDE)]
    for folder in folders:
        folder.mkdir()
    with ThreadPoolExecutor(SIDE_BY_SIDE) as threads:
        waiting = [
            threads.submit(
                killed_again_and_again, starter, whole, folder, random.Random(seed + at), KILLS // SIDE_BY_SIDE
            )
            for at, folder in enumerate(folders)
        ]
        hit = [one for of_folder in waiting for one in of_folder.result()]
    print("\n".join(sorted(hit)))
    assert len(hit) >= KILLS // 3, "most runs had ended before they were to be killed"


def test_killed_while_another_run_writes_the_same_file_nothing_reported_is_lost(
    starter: Starter, whole: Whole, tmp_path: Path
) -> None:
    """Two runs in one folder, one of which is killed: the other ends as if it had been alone."""
    chance = random.Random(7)
    for number in range(2):
        folder = tmp_path / str(number)
        folder.mkdir()
        first, second = starter.start(folder), starter.start(folder)
        time.sleep(chance.uniform(0, whole.all_s))
        kill(first)
        wait_until_gone(second)
        keys = set(told(folder)) - {runs_to_kill.ENDED}
        store = LayStore(folder / "lays.json")
        assert keys <= set(store._entries)
        with contextlib.suppress(FileNotFoundError):
            (folder / runs_to_kill.TOLD).unlink()
        whole_run(starter, folder)
        assert (folder / "lays.json").read_bytes() == whole.content
        shutil.rmtree(folder)
