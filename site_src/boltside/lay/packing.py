"""What does the packing library make of outlines, and when is it stopped? The only file that knows it (spyrrow).

The library reports as it goes, and a lay is taken from the reports alone: which of them is the last that counts is a
matter of their order, so the same pieces give the same lay on every machine, which a time budget does not.

How it is stopped: the library asks Python now and then whether a signal has come, at least before each new attempt to
get shorter. A thread here lets one come every few milliseconds, its handler reads the reports, and raises once they are
enough. So the library ends at once, and the process can go on to the next lay.
"""

import _thread
import contextlib
import signal
import threading
from collections.abc import Callable, Sequence
from importlib.metadata import version
from typing import Any, Final

import spyrrow

from .model import Outline, Placement, SolveFailed
from .outlines import posed, solver_outline
from .slots import Slot

LIBRARY: Final = "spyrrow"
LIBRARY_VERSION: Final = version("spyrrow")

_LONGEST_S: Final = 100_000
"""The library wants a time budget by the clock on the wall; this one is never reached, however busy the computer: the
worker's time-out comes first."""

_LOOK_EVERY_S: Final = 0.003
"""So often a signal comes; a lay takes some hundred times as long."""

Found = tuple[float, tuple[Placement, ...]]
"""The length of strip in millimetres that the library needs, and one placement a slot in the order of the slots."""


class Stop:
    """When a run ends: asked at every report, in their order.

    Arguments: after how many failed attempts to get shorter; as soon as a lay is so short (mm); after how many reports.
    """

    def __init__(self, *, failures: int, at_once_mm: float = 0.0, reports: int | None = None) -> None:
        self._failures, self._at_once_mm, self._reports = failures, at_once_mm, reports
        self.seen = self.failed = 0

    def enough(self, *, failed: bool, shortest_mm: float | None) -> bool:
        """Whether this report is the last that counts, and there is a lay to take."""
        self.seen += 1
        self.failed += failed
        if shortest_mm is None:
            return False
        return (
            shortest_mm <= self._at_once_mm
            or self.failed >= self._failures
            or (self._reports is not None and self.seen >= self._reports)
        )


def packed(
    slots: Sequence[Slot], strip_mm: float, *, seed: int, stop: Stop, as_drawn: bool = False
) -> Found:
    """The shortest lay that the library reports before it is stopped, or its last one if it ends of itself.

    Arguments: the slots, the width of the strip in millimetres, the seed, when to stop, and whether it is given the
    outlines as they are, not the simpler ones that contain them. Call it in a process's main thread, where signals
    come.
    Raises: :class:`.model.SolveFailed`.
    """
    instance, kinds = _instance(slots, strip_mm, as_drawn)
    config = spyrrow.StripPackingConfig(
        early_termination=True, num_workers=1, seed=seed, total_computation_time=_LONGEST_S
    )
    best = _Run(stop).solution(instance, config)
    return float(best.width), _placements(slots, kinds, best)


def packed_for_a_time(slots: Sequence[Slot], strip_mm: float, *, seed: int, budget_s: int) -> tuple[Found, int]:
    """The library left to itself for so many seconds: what it found, and the number of its reports.

    Does not repeat exactly; for references. Raises: :class:`.model.SolveFailed`.
    """
    instance, kinds = _instance(slots, strip_mm, as_drawn=False)
    queue = spyrrow.ProgressQueue()
    config = spyrrow.StripPackingConfig(
        early_termination=False, num_workers=1, seed=seed, total_computation_time=budget_s
    )
    best = _not_panicking(lambda: instance.solve(config, queue))
    return (float(best.width), _placements(slots, kinds, best)), len(queue.drain())


class _Enough(Exception):
    """The reports are enough. The library takes it for a key that was pressed, and ends."""


class _Run:
    """One run of the library, and what it has reported so far."""

    def __init__(self, stop: Stop) -> None:
        self._stop = stop
        self._queue = spyrrow.ProgressQueue()
        self._best: spyrrow.StripPackingSolution | None = None
        self._over = self._running = False

    def solution(
        self, instance: spyrrow.StripPackingInstance, config: spyrrow.StripPackingConfig
    ) -> spyrrow.StripPackingSolution:
        """The lay that counts. Raises: :class:`.model.SolveFailed`."""
        ended = threading.Event()
        before = signal.signal(signal.SIGINT, self._signalled)
        ticks = threading.Thread(target=_tick, args=(ended,), daemon=True)
        ticks.start()
        final = None
        try:
            self._running = True
            with contextlib.suppress(_Enough):
                final = _not_panicking(lambda: instance.solve(config, self._queue))
            self._running = False
        except _Enough:
            pass  # it came between the two lines above
        finally:
            self._running = False
            ended.set()
            ticks.join()
            signal.signal(signal.SIGINT, before)
        self._look()
        if self._over and self._best is not None:
            return self._best
        if final is None:
            raise SolveFailed("the solver ended without a lay")
        return final

    def _signalled(self, _number: int, _frame: object) -> None:
        if self._running:
            self._look()
            if self._over:
                raise _Enough

    def _look(self) -> None:
        for kind, solution in self._queue.drain():
            if self._over:
                return
            failed = kind == spyrrow.ReportType.ExplInfeas
            if not failed and kind != spyrrow.ReportType.ExplImproving:
                self._best = solution
            shortest_mm = None if self._best is None else float(self._best.width)
            self._over = self._stop.enough(failed=failed, shortest_mm=shortest_mm)


def _tick(ended: threading.Event) -> None:
    while not ended.wait(_LOOK_EVERY_S):
        _thread.interrupt_main()


def _not_panicking(run: Callable[[], Any]) -> Any:
    """What the library returns. Raises: :class:`.model.SolveFailed` where it panics, which is no Exception."""
    try:
        return run()
    except (_Enough, KeyboardInterrupt, SystemExit, MemoryError):
        raise
    except BaseException as error:
        raise SolveFailed(f"the solver stopped: {error}") from None


_Kinds = dict[tuple[str, bool], list[Slot]]
"""Slots of one item in one hand, which the library may exchange among each other."""


def _instance(
    slots: Sequence[Slot], strip_mm: float, as_drawn: bool
) -> tuple[spyrrow.StripPackingInstance, _Kinds]:
    kinds: _Kinds = {}
    for slot in slots:
        kinds.setdefault((slot.item_id, slot.poses[0].mirrored), []).append(slot)
    items = []
    for number, ((_, mirrored), same) in enumerate(kinds.items()):
        drawn: Outline = same[0].outline_mm
        outline = posed(
            drawn if as_drawn else solver_outline(drawn, move_all_edges=True), turned=False, mirrored=mirrored
        )
        angles = [180.0 if pose.turned else 0.0 for pose in same[0].poses]
        items.append(spyrrow.Item(str(number), list(outline), len(same), angles))
    return spyrrow.StripPackingInstance("lay", strip_mm, items), kinds


def _placements(
    slots: Sequence[Slot], kinds: _Kinds, best: spyrrow.StripPackingSolution
) -> tuple[Placement, ...]:
    waiting = [list(same) for same in kinds.values()]
    placements: dict[tuple[str, int], Placement] = {}
    for placed in sorted(best.placed_items, key=lambda item: (int(item.id), item.translation)):
        slot = waiting[int(placed.id)].pop(0)
        placements[slot.item_id, slot.copy] = Placement(
            item_id=slot.item_id,
            copy=slot.copy,
            x_mm=placed.translation[0],
            y_mm=placed.translation[1],
            turned=round(placed.rotation) % 360 == 180,
            mirrored=slot.poses[0].mirrored,
        )
    return tuple(placements[slot.item_id, slot.copy] for slot in slots)
