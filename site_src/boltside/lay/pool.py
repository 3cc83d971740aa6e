"""Who makes the lays? A small pool of worker processes that can be killed.

Each worker process has one thread here that feeds it. A worker that hangs beyond the time-out is killed, one
that dies is replaced; either way only that lay fails, by name.
"""

import contextlib
import json
import os
import queue
import subprocess
import sys
import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Final

from .codec import lay_from_json, lay_to_json, one_line, request_to_json
from .model import Lay, LayRequest, Quality

TIME_OUT_S: Final = 300.0
"""A lay takes seconds; a worker silent for this long hangs. Our choice."""

WORKER_COMMAND: Final = (sys.executable, "-m", "boltside.lay.worker")

_ONE_THREAD: Final = ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "RAYON_NUM_THREADS")
"""Libraries in a worker must not start a thread for each core: the pool has a worker for each already."""


@dataclass(frozen=True, kw_only=True)
class Order:
    """One lay to be made; ``name`` is what people read when it fails; a lay of ``enough_mm`` need not get shorter;
    ``like`` are finished lays to start from."""

    name: str
    request: LayRequest
    quality: Quality = "full"
    enough_mm: float = 0.0
    like: tuple[Lay, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What became of an order: a lay, or a sentence why not."""

    order: Order
    lay: Lay | None
    error: str | None


class _Worker:
    """One worker process and the thread that reads its answers."""

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
            text=True,
            encoding="utf-8",
            env=environment,
        )
        self._answers: queue.SimpleQueue[str | None] = queue.SimpleQueue()
        assert self._process.stdout is not None
        threading.Thread(target=self._read, args=(self._process.stdout,), daemon=True).start()

    def _read(self, stream: IO[str]) -> None:
        try:
            for line in stream:
                self._answers.put(line)
        except ValueError:  # closed while reading
            pass
        self._answers.put(None)

    def ask(self, line: str, time_out_s: float) -> str:
        """The worker's answer. Raises: TimeoutError when it hangs, ConnectionError when it died."""
        try:
            assert self._process.stdin is not None
            self._process.stdin.write(line + "\n")
            self._process.stdin.flush()
        except OSError as error:
            raise ConnectionError("it did not start or ended early") from error
        try:
            reply = self._answers.get(timeout=time_out_s)
        except queue.Empty:
            raise TimeoutError from None
        if reply is None:
            raise ConnectionError(f"it ended with exit code {self._process.wait()}")
        return reply

    def kill(self) -> None:
        """End the process, whatever it is doing."""
        self._process.kill()
        self._process.wait()
        for stream in (self._process.stdin, self._process.stdout):
            if stream is not None:
                with contextlib.suppress(OSError):
                    stream.close()


class Pool:
    """Makes lays in worker processes. Use as a context manager: leaving it kills all workers.

    Arguments: the number of workers (all cores by default), the time-out for one lay in seconds, the command
    that starts a worker.
    """

    def __init__(
        self,
        *,
        workers: int | None = None,
        time_out_s: float = TIME_OUT_S,
        command: Sequence[str] = WORKER_COMMAND,
    ) -> None:
        self.workers = workers or os.cpu_count() or 1
        self._time_out_s = time_out_s
        self._command = command
        self._orders: queue.SimpleQueue[Order | None] = queue.SimpleQueue()
        self._outcomes: queue.SimpleQueue[Outcome] = queue.SimpleQueue()
        self._alive: set[_Worker] = set()
        self._lock = threading.Lock()
        self._closed = False
        self._threads: list[threading.Thread] = []
        self._waiting = 0

    def __enter__(self) -> "Pool":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def submit(self, order: Order) -> None:
        """Queue an order; orders start in this order, and threads only when there is something to do."""
        self._orders.put(order)
        self._waiting += 1
        if len(self._threads) < min(self.workers, self._waiting):
            thread = threading.Thread(target=self._feed, daemon=True)
            self._threads.append(thread)
            thread.start()

    @property
    def unfinished(self) -> int:
        """Orders whose outcome has not been taken yet."""
        return self._waiting

    def next_outcome(self) -> Outcome:
        """Wait for the next outcome, in the order in which they finish."""
        while True:
            try:
                outcome = self._outcomes.get(timeout=0.5)  # short waits, so that Ctrl-C works on Windows too
            except queue.Empty:
                continue
            self._waiting -= 1
            return outcome

    def outcomes(self) -> Iterator[Outcome]:
        """Outcomes as they finish, until none is left. More may be submitted meanwhile."""
        while self._waiting:
            yield self.next_outcome()

    def close(self) -> None:
        """Kill all workers and forget all orders."""
        with self._lock:
            self._closed = True
            alive = list(self._alive)
        for _ in self._threads:
            self._orders.put(None)
        for worker in alive:
            worker.kill()
        for thread in self._threads:
            thread.join(timeout=5)

    def _start_worker(self) -> _Worker | None:
        with self._lock:
            if self._closed:
                return None
            worker = _Worker(self._command)
            self._alive.add(worker)
            return worker

    def _end_worker(self, worker: _Worker) -> None:
        with self._lock:
            self._alive.discard(worker)
        worker.kill()

    def _feed(self) -> None:
        """Thread of one worker: take orders, ask, pass the outcome on, replace the worker when needed."""
        worker: _Worker | None = None
        while (order := self._orders.get()) is not None:
            worker = worker or self._start_worker()
            if worker is None:
                return
            outcome, usable = self._outcome(worker, order)
            if not usable:
                self._end_worker(worker)
                # The next worker starts now, so that it is ready when the next order comes.
                worker = None if self._orders.empty() else self._start_worker()
            self._outcomes.put(outcome)
        if worker is not None:
            self._end_worker(worker)

    def _outcome(self, worker: _Worker, order: Order) -> tuple[Outcome, bool]:
        line = one_line(
            {
                "name": order.name,
                "quality": order.quality,
                "enough_mm": order.enough_mm,
                "like": [lay_to_json(lay) for lay in order.like],
                "request": request_to_json(order.request),
            }
        )
        try:
            reply = json.loads(worker.ask(line, self._time_out_s))
            if "error" in reply:
                return Outcome(order=order, lay=None, error=f"{order.name}: {reply['error']}"), True
            return Outcome(order=order, lay=lay_from_json(reply["lay"]), error=None), not reply["spent"]
        except TimeoutError:
            error = f"{order.name}: the solver gave no answer within {self._time_out_s:g} s and was stopped"
        except ConnectionError as died:
            error = f"{order.name}: the solver's process broke off, {died}"
        except (ValueError, KeyError, TypeError) as wrong:
            error = f"{order.name}: the solver's process gave an answer that makes no sense, {wrong}"
        return Outcome(order=order, lay=None, error=error), False
