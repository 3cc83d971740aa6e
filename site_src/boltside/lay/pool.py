"""Who makes the lays? A small pool of worker processes that can be killed.

Each worker process has one thread here that feeds it. A worker that hangs beyond the time-out is killed, one
that dies is replaced; either way only that lay fails, by name.
"""

import contextlib
import os
import queue
import sys
import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from .codec import lay_from_json, lay_to_json, one_line, request_to_json
from .model import Lay, LayRequest, Quality
from .store_text import shown, value_of
from .worker_process import WorkerProcess

TIME_OUT_S: Final = 300.0
"""A lay takes seconds; a worker that is silent for so much processor time, or stands still for so long, hangs (see
:meth:`.worker_process.WorkerProcess.ask`). Our choice."""

_SAID: Final = 300
"""So many letters of what a worker says about a failure are passed on."""

WORKER_COMMAND: Final = (sys.executable, "-m", "boltside.lay.worker")


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


class Pool:
    """Makes lays in worker processes. Use as a context manager: leaving it kills all workers.

    Arguments: the number of workers (all cores by default), the time-out for one lay in seconds, the command
    that starts a worker. Attribute: ``memory_bytes``, the most that a worker said it took, 0 while none did.
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
        self._alive: set[WorkerProcess] = set()
        self._lock = threading.Lock()
        self._closed = False
        self._threads: list[threading.Thread] = []
        self._waiting = 0
        self.memory_bytes = 0

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

    def _start_worker(self) -> WorkerProcess | None:
        """A new worker, or None when the pool is closed. Raises: OSError when the system can't start one."""
        with self._lock:
            if self._closed:
                return None
            worker = WorkerProcess(self._command)
            self._alive.add(worker)
            return worker

    def _end_worker(self, worker: WorkerProcess) -> None:
        with self._lock:
            self._alive.discard(worker)
        worker.kill()

    def _feed(self) -> None:
        """Thread of one worker: take orders, ask, pass the outcome on, replace the worker when needed.

        Every order has an outcome, whatever goes wrong: a run waits for it.
        """
        worker: WorkerProcess | None = None
        while (order := self._orders.get()) is not None:
            try:
                worker = worker or self._start_worker()
            except OSError as error:
                reason = f"{order.name}: the solver's process could not be started, {error.strerror}"
                self._outcomes.put(Outcome(order=order, lay=None, error=reason))
                continue
            if worker is None:
                return
            outcome, usable = self._outcome(worker, order)
            if not usable:
                self._end_worker(worker)
                worker = None
                if not self._orders.empty():
                    # The next worker starts now, so that it is ready when the next order comes.
                    with contextlib.suppress(OSError):
                        worker = self._start_worker()
            self._outcomes.put(outcome)
        if worker is not None:
            self._end_worker(worker)

    def _outcome(self, worker: WorkerProcess, order: Order) -> tuple[Outcome, bool]:
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
            return self._understood(worker.ask(line, self._time_out_s), order)
        except TimeoutError as hangs:
            error = f"{order.name}: the solver {hangs} and was stopped"
        except ConnectionError as died:
            error = f"{order.name}: the solver's process broke off, {died}"
        except Exception as wrong:  # of all that an answer may be, nothing must end this thread
            error = f"{order.name}: the solver's process gave an answer that makes no sense, {str(wrong)[:_SAID]}"
        return Outcome(order=order, lay=None, error=error), False

    def _understood(self, answer: bytes, order: Order) -> tuple[Outcome, bool]:
        """The outcome that an answer stands for, and whether its worker can go on. Raises: anything."""
        reply = value_of(answer.decode())
        if not isinstance(reply, dict):
            raise ValueError("it is no answer")
        if reply["name"] != order.name:
            raise ValueError(f"it is the answer to {shown(reply['name'])}")
        usable = reply.get("spent") is not True
        memory_bytes = reply.get("memory")
        if type(memory_bytes) is int:
            with self._lock:
                self.memory_bytes = max(self.memory_bytes, memory_bytes)
        if "error" in reply:
            return Outcome(order=order, lay=None, error=f"{order.name}: {str(reply['error'])[:_SAID]}"), usable
        return Outcome(order=order, lay=lay_from_json(reply["lay"]), error=None), usable
