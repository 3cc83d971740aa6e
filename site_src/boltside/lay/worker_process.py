"""How is a worker process started, asked and ended, without waiting for it longer than it may take?"""

import contextlib
import os
import queue
import signal
import subprocess
import threading
import time
from collections.abc import Sequence
from pathlib import Path
from typing import IO, Final

from .memory import EXIT_OUT_OF_MEMORY, MEMORY_LIMIT_BYTES
from .processor_time import LOOK_EVERY_S, processor_time_s

_LONGEST_ANSWER: Final = 4_000_000
"""Bytes of the longest answer that is read: a lay of a hundred pieces takes some five thousand. Our choice."""

_MOST_ANSWERS: Final = 100
"""So many answers that nobody asked for are read before the worker is ended. Our choice."""

_LAST_BREATH_S: Final = 5.0
"""A process that closes its answers ends within this time, or never. Our choice."""

_LONGEST_WAIT: Final = 10
"""So many times the time-out is waited for by the clock on the wall, however busy the computer. Our choice."""

_ONE_THREAD: Final = ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "RAYON_NUM_THREADS")
"""Libraries in a worker must not start a thread for each core: the pool has a worker for each already."""


class WorkerProcess:
    """One worker process, and the threads that write to it and read from it: neither must stop the pool."""

    def __init__(self, command: Sequence[str]) -> None:
        package_root = str(Path(__file__).resolve().parents[2])
        environment = dict(os.environ)
        environment.update(dict.fromkeys(_ONE_THREAD, "1"))
        environment["PYTHONPATH"] = os.pathsep.join(
            part for part in (package_root, environment.get("PYTHONPATH")) if part
        )
        self._process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=environment,
        )
        self._answers: queue.SimpleQueue[bytes | None] = queue.SimpleQueue()
        assert self._process.stdout is not None
        threading.Thread(target=self._read, args=(self._process.stdout,), daemon=True).start()

    def _read(self, stream: IO[bytes]) -> None:
        """Thread: pass answers on; one that babbles without end is ended before it fills the memory."""
        with contextlib.suppress(OSError, ValueError), stream:
            while line := stream.readline(_LONGEST_ANSWER):
                self._answers.put(line)
                if self._answers.qsize() > _MOST_ANSWERS:
                    self._process.kill()
                    break
        self._answers.put(None)

    def _write(self, line: bytes) -> None:
        """Thread: hand an order over. Whoever does not take it gives no answer either, and that is noticed."""
        assert self._process.stdin is not None
        with contextlib.suppress(OSError, ValueError):
            self._process.stdin.write(line)
            self._process.stdin.flush()

    def ask(self, line: str, time_out_s: float) -> bytes:
        """The worker's answer.

        It may take ``time_out_s`` of processor time, and so long it may stand still; where the system does not tell
        processor time, and in any case at last, a clock on the wall counts, for ``_LONGEST_WAIT`` times as long.
        Raises: TimeoutError when it hangs, with the words for it; ConnectionError when it died.
        """
        threading.Thread(target=self._write, args=(line.encode() + b"\n",), daemon=True).start()
        reply = self._reply(time_out_s)
        if reply is None:
            raise ConnectionError(self._how_it_ended())
        return reply

    def _reply(self, time_out_s: float) -> bytes | None:
        asked_s = moved_s = time.monotonic()
        before_s = last_s = processor_time_s(self._process.pid)
        while True:
            with contextlib.suppress(queue.Empty):
                return self._answers.get(timeout=min(LOOK_EVERY_S, time_out_s))
            now_s, spent_s = time.monotonic(), processor_time_s(self._process.pid)
            if spent_s != last_s:
                last_s, moved_s = spent_s, now_s
            if before_s is not None and spent_s is not None:
                if spent_s - before_s >= time_out_s:
                    raise TimeoutError(f"took {time_out_s:g} s of processor time without an answer")
                if now_s - moved_s >= time_out_s:
                    raise TimeoutError(f"gave no answer within {time_out_s:g} s")
            if now_s - asked_s >= _LONGEST_WAIT * time_out_s:
                raise TimeoutError(f"gave no answer within {_LONGEST_WAIT * time_out_s:g} s")

    def _how_it_ended(self) -> str:
        try:
            code = self._process.wait(timeout=_LAST_BREATH_S)
        except subprocess.TimeoutExpired:
            return "it closed its answers and went on"
        if code == EXIT_OUT_OF_MEMORY:
            return f"it took more than {MEMORY_LIMIT_BYTES / 1e9:g} GB of memory"
        if code < 0:
            return f"the system ended it by {_signal_name(-code)}"
        return f"it ended with exit code {code}"

    def kill(self) -> None:
        """End the process, whatever it is doing."""
        self._process.kill()
        self._process.wait()
        if self._process.stdin is not None:
            with contextlib.suppress(OSError):
                self._process.stdin.close()


def _signal_name(number: int) -> str:
    try:
        return signal.Signals(number).name
    except ValueError:
        return f"signal {number}"
