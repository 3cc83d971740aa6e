"""Who drives plans, store and pool until every lay is there? Progress, resuming and verifying included."""

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from .brackets import CoverPlan, PlanSteps
from .model import Lay, LayError, LayRequest, Quality
from .pool import Order, Pool
from .solve import lay_key, likeness
from .store import LayStore, Receipts

_TELL_EVERY_S: Final = 1.0
"""Progress is told at most this often, and once at the end."""


@dataclass(frozen=True, kw_only=True)
class Progress:
    """How far a run is. ``expected`` counts the lays known so far; splitting families may add more."""

    finished: int
    from_store: int
    expected: int
    elapsed_s: float

    @property
    def seconds_left(self) -> float | None:
        """Time left at the pace so far, or None before the first lay is made."""
        made = self.finished - self.from_store
        return None if made == 0 else self.elapsed_s / made * (self.expected - self.finished)

    def __str__(self) -> str:
        left = self.seconds_left
        words = "" if left is None else f", about {_minutes(left)} left"
        return f"{self.finished} of {self.expected} lays, {self.from_store} kept from before{words}"


def _minutes(seconds: float) -> str:
    return f"{seconds:.0f} s" if seconds < 90 else f"{seconds / 60:.0f} min"


class LaysFailed(LayError):
    """One or more lays failed; ``sentences`` says which and why, each beginning with the lay's name."""

    def __init__(self, sentences: list[str]) -> None:
        self.sentences = sentences
        super().__init__("\n".join(sentences))


class _Run:
    """State of one call of :func:`run_plans`."""

    def __init__(
        self, store: LayStore, receipts: Receipts, pool: Pool, quality: Quality, tell: Callable[[Progress], None]
    ) -> None:
        self.store, self.receipts, self.pool, self.quality, self.tell = store, receipts, pool, quality, tell
        self.used_keys: set[str] = set()
        self.failures: list[str] = []
        self.results: dict[str, CoverPlan] = {}
        self.waiting: dict[str, list[tuple[str, PlanSteps]]] = {}
        self.finished = self.from_store = 0
        self.started_s = time.monotonic()
        self.told_s = 0.0
        self.verify_all = False
        self.only_stored = False

    def advance(self, name: str, steps: PlanSteps, lay: Lay | None) -> None:
        """Give a plan its lay; serve what it asks next from the store or order it."""
        try:
            while True:
                request = next(steps) if lay is None else steps.send(lay)
                lay = self.stored(name, request)
                if lay is None:
                    self.order(name, steps, request)
                    return
        except StopIteration as end:
            self.results[name] = end.value

    def stored(self, name: str, request: LayRequest) -> Lay | None:
        """A lay from the store that passes the verifier (full quality also serves a draft)."""
        qualities: tuple[Quality, ...] = ("full",) if self.quality == "full" else ("full", "draft")
        for quality in qualities:
            like = likeness(request, quality)
            own_key = lay_key(request, quality)
            exact = own_key in self.store
            key = own_key if exact else self.store.key_alike(_lay_name(name, request), like)
            lay = None if key is None else self.store.get(key)
            if key is None or lay is None:
                continue
            found = self.receipts.checked(key, request, lay, ignore=self.verify_all or not exact)
            if found and not exact:
                continue  # only looked alike
            if found:
                self.failures.append(f"{_lay_name(name, request)}: the stored lay is wrong: {'; '.join(found)}")
            self.store.note_likeness(key, like)
            self.used_keys.add(key)
            self.finished += 1
            self.from_store += 1
            self.progress()
            return lay
        return None

    def order(self, name: str, steps: PlanSteps, request: LayRequest) -> None:
        """Order a lay once, however many plans wait for it."""
        if self.only_stored:
            self.failures.append(f"{_lay_name(name, request)}: not laid yet")
            return
        key = lay_key(request, self.quality)
        if key not in self.waiting:
            self.pool.submit(Order(name=_lay_name(name, request), request=request, quality=self.quality))
        self.waiting.setdefault(key, []).append((name, steps))

    def take(self) -> None:
        """Take one outcome from the pool: verify, keep, and let the plans that waited for it go on."""
        outcome = self.pool.next_outcome()
        key = lay_key(outcome.order.request, outcome.order.quality)
        waiting = self.waiting.pop(key)
        self.finished += 1
        self.progress()
        if outcome.lay is None:
            self.failures.append(outcome.error or outcome.order.name)
            return
        found = self.receipts.checked(key, outcome.order.request, outcome.lay)
        if found:
            self.failures.append(f"{outcome.order.name}: the new lay is wrong: {'; '.join(found)}")
            return
        order = outcome.order
        self.store.put(key, order.name, outcome.lay, likeness(order.request, order.quality))
        self.used_keys.add(key)
        for name, steps in waiting:
            self.advance(name, steps, outcome.lay)

    def progress(self, *, last: bool = False) -> None:
        """Tell the progress if it is time to."""
        now_s = time.monotonic()
        if last or now_s - self.told_s >= _TELL_EVERY_S:
            self.told_s = now_s
            self.tell(
                Progress(
                    finished=self.finished,
                    from_store=self.from_store,
                    expected=self.finished + self.pool.unfinished,
                    elapsed_s=now_s - self.started_s,
                )
            )


def _lay_name(plan_name: str, request: LayRequest) -> str:
    pieces = ", ".join(item.item_id for item in request.items)
    return f"{plan_name} ({pieces})"


def run_plans(
    plans: Mapping[str, PlanSteps],
    *,
    store: LayStore,
    receipts: Receipts,
    quality: Quality = "full",
    verify_all: bool = False,
    only_stored: bool = False,
    keep_others: bool = False,
    workers: int | None = None,
    tell: Callable[[Progress], None] = lambda progress: None,
    pool: Pool | None = None,
) -> dict[str, CoverPlan]:
    """Drive plans to their end; every lay comes from the store or from the pool, and is verified.

    Arguments: plans by name, such as "Ferrylight, 92, outer, 140 cm, folded"; the store and the receipts; the
    quality; ``verify_all`` ignores receipts; ``only_stored`` makes no lay, a missing one fails;
    ``keep_others`` keeps stored lays that these plans do not use; number of workers; ``tell`` is called with
    the progress; a pool of one's own. A finished lay is journaled at once, so an interrupted run goes on where
    it stopped. When all went well, the store is compacted.

    Returns the result of each plan. Raises: :class:`LaysFailed` after all that can be made has been made.
    """
    with pool or Pool(workers=workers) as open_pool:
        run = _Run(store, receipts, open_pool, quality, tell)
        run.verify_all, run.only_stored = verify_all, only_stored
        for name, steps in plans.items():
            run.advance(name, steps, None)
        while open_pool.unfinished:
            run.take()
        run.progress(last=True)
    if run.failures:
        raise LaysFailed(sorted(run.failures))
    if not only_stored:
        store.compact(None if keep_others else run.used_keys)
    return run.results
