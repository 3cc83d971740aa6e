"""Draft lays, made in the background by a process of its own that can be stopped when the outlines change again.

They are kept in the cache, never in a pattern's folder: what a designer commits are the lays of `boltside lay`.
Run as a program, this file makes them: `python -m boltside.serve.drafts SHOP PATTERN…`.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import IO

from boltside.errors import BoltsideError
from boltside.plan import LAYS_NAME, cache_of, run_pattern
from boltside.read.folder import read_patterns

DATA, PATTERNS = "data", "patterns"
PATIENCE_S = 5.0
"""How long the process may take to keep what it finished before it is killed."""
LAST_LINES = 3


class Drafts:
    """At most one run at a time."""

    def __init__(self, shop_dir: Path) -> None:
        self.shop_dir = shop_dir
        self._process: subprocess.Popen[bytes] | None = None
        self._said: IO[bytes] | None = None

    @property
    def running(self) -> bool:
        """Whether drafts are being made."""
        return self._process is not None

    def start(self, patterns: Sequence[str]) -> None:
        """Make the drafts that these patterns lack; a run that is still going is stopped first."""
        self.stop()
        command = [sys.executable, "-m", "boltside.serve.drafts", str(self.shop_dir), *patterns]
        self._said = tempfile.TemporaryFile()  # noqa: SIM115 - open as long as the run
        self._process = subprocess.Popen(
            command, stdin=subprocess.DEVNULL, stdout=self._said, stderr=subprocess.STDOUT
        )

    def ended(self) -> str | None:
        """None while a run is going or none was started; else, once, what went wrong: empty when nothing did."""
        if self._process is None:
            return None
        code = self._process.poll()
        if code is None:
            return None
        assert self._said is not None
        self._said.seek(0)
        lines = self._said.read().decode("utf-8", "replace").strip().splitlines()
        self._forget()
        return "" if code == 0 else "\n".join(lines[-LAST_LINES:]) or f"the run ended with code {code}"

    def stop(self) -> None:
        """End a run that is still going; the lays it finished are kept."""
        if self._process is None:
            return
        self._process.terminate()
        try:
            self._process.wait(PATIENCE_S)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        self._forget()

    def _forget(self) -> None:
        self._process = None
        if self._said is not None:
            self._said.close()
        self._said = None


def drafts_folder(data_dir: Path, pattern: str) -> Path:
    """Where the drafts of a pattern are kept, with all its stored lays that they add to."""
    return cache_of(data_dir) / "drafts" / pattern


def make_drafts(data_dir: Path, patterns: Sequence[str]) -> None:
    """Make the drafts that these patterns lack; one core is left for the server. Raises: BoltsideError."""
    for pattern in read_patterns(data_dir):
        if pattern.folder not in patterns:
            continue
        folder = drafts_folder(data_dir, pattern.folder)
        stored, kept = data_dir / PATTERNS / pattern.folder / LAYS_NAME, folder / LAYS_NAME
        folder.mkdir(parents=True, exist_ok=True)
        if stored.exists() and (not kept.exists() or kept.stat().st_mtime_ns < stored.stat().st_mtime_ns):
            shutil.copyfile(stored, kept)
        workers = max(1, (os.cpu_count() or 1) - 1)
        run_pattern(
            pattern, folder, profile="everyday", cache_dir=cache_of(data_dir), quality="draft", workers=workers
        )


def main(arguments: Sequence[str]) -> int:
    """Make drafts for the shop and patterns named; 1 and the reason where that failed."""
    # Ended by the server, it keeps what it finished, as after Ctrl-C.
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        make_drafts(Path(arguments[0]) / DATA, arguments[1:])
    except BoltsideError as error:
        print(error)
        return 1
    except KeyboardInterrupt:
        return 130
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
