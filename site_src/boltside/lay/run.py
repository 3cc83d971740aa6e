"""Who drives searches, store and pool until every lay is there? Progress, resuming and verifying included."""

import heapq
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from .brackets import CoverPlan, CoverSearch
from .lattice import SERVED_BY_WAY, Node
from .model import QUALITIES, Lay, LayError, Quality
from .pool import Order, Outcome, Pool
from .solve import KeyMaker, lay_key, likeness, makers
from .store import LayStore, Receipts

_TELL_EVERY_S: Final = 1.0
"""Progress is told at most this often, and once at the end."""

_LAYS_A_NODE: Final = 0.25
"""How many lays a node that costs too much will take, for the time left. Seen on the demo; only a guess."""

_MOST_FAILED: Final = 3
"""After so many lays that could not be made, no more of that search are tried: something is wrong with its pieces."""


@dataclass(frozen=True, kw_only=True)
class Progress:
    """How far a run is. ``expected`` is a guess, for how much a lay settles is known only when it is there."""

    finished: int
    from_store: int
    expected: int
    elapsed_s: float
    memory_bytes: int = 0
    """The most that any process that made lays took; 0 before the first lay, and where the system does not tell."""

    @property
    def seconds_left(self) -> float | None:
        """Time left at the pace so far, or None before the first lay is made."""
        made = self.finished - self.from_store
        return None if made == 0 else self.elapsed_s / made * (self.expected - self.finished)

    def __str__(self) -> str:
        left = self.seconds_left
        words = "" if left is None else f", about {_minutes(left)} left"
        memory = f", {self.memory_bytes / 1e6:.0f} MB at most in a process" if self.memory_bytes else ""
        return f"{self.finished} of about {self.expected} lays, {self.from_store} kept from before{words}{memory}"


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
        self,
        plans: Mapping[str, CoverSearch],
        store: LayStore,
        receipts: Receipts,
        quality: Quality,
        tell: Callable[[Progress], None],
    ) -> None:
        self.plans, self.store, self.receipts, self.quality, self.tell = plans, store, receipts, quality, tell
        self.used_keys: set[str] = set()
        self.wrong: dict[str, str] = {}
        self.failures: list[str] = []
        self.memory_bytes = 0
        self.took_quick: set[str] = set()
        self.ordered: dict[str, tuple[str, Node]] = {}
        self.wanting = dict.fromkeys(plans, 0)
        self.failed = dict.fromkeys(plans, 0)
        self.finished = self.from_store = 0
        self.started_s = time.monotonic()
        self.told_s = 0.0

    def take_stored(self, name: str, *, verify_all: bool) -> None:
        """Give a search all stored lays that are of use to it and pass the verifier, the best quality first.

        Lays of a lower quality than the run makes are none to it: it makes them anew. But a full run, too, lays quickly
        what little can be gained by: once it is that far, everyday lays are as good to it as those that it makes.
        """
        self._take_qualities(name, QUALITIES[: QUALITIES.index(self.quality) + 1], verify_all=verify_all)

    def _take_quick(self, name: str) -> None:
        """In a full run near its end take the stored everyday lays, once."""
        if self.quality == "full" and name not in self.took_quick and self.plans[name].near_its_end:
            self.took_quick.add(name)
            self._take_qualities(name, ("everyday",), verify_all=False)

    def _take_qualities(self, name: str, qualities: Sequence[Quality], *, verify_all: bool) -> None:
        search = self.plans[name]
        keys = KeyMaker()
        elsewhere = self.store.keys_elsewhere(name, likeness(search.all_pieces(), "full")["shapes"])
        stored = [(key, self.store.get(key)) for key in dict.fromkeys((*self.store.keys_of(name), *elsewhere))]
        for quality in qualities:
            exact: list[tuple[str, Lay, Node, bool]] = []
            for key, lay in stored:
                if lay is None or lay.quality != quality:
                    continue
                node = Node(way=lay.way, nap=lay.one_way, item_ids=_item_ids(lay), width_mm=lay.bolt_width_mm)
                if search.knows(node) and (
                    quality != "everyday" or self.quality != "full" or search.quick_will_do(node)
                ):
                    exact.append((key, lay, node, keys.key(search.request(node), quality) == key))
            for key, lay, node, same in sorted(exact, key=lambda one: (not one[3], one[0])):
                self._take_one(name, key, lay, node, same=same, verify_all=verify_all)

    def _take_one(self, name: str, key: str, lay: Lay, node: Node, *, same: bool, verify_all: bool) -> None:
        search = self.plans[name]
        if not search.knows(node):
            return  # a lay with the right key is there already
        request = search.request(node)
        if not same and not self.store.alike(key, likeness(request, lay.quality)):
            return  # made for pieces that have changed
        own_key = key if same else lay_key(request, lay.quality)
        found = self.receipts.checked(own_key, request, lay, ignore=verify_all)
        if found:
            if same:
                where = self.store.where(key)
                self.wrong[key] = f"{name}, {node}: the stored lay is wrong: {'; '.join(found)}; it stands in {where}"
            return
        if not self.store.has_likeness(key):
            self.store.note_likeness(key, likeness(request, lay.quality))
        self.used_keys.add(key)
        self.finished += 1
        self.from_store += 1
        search.take(node, lay)

    def solve(self, pool: Pool) -> None:
        """Have laid what is missing; of all plans that with the greatest possible cost comes first."""
        waiting = [(-search.urgency, name) for name, search in self.plans.items()]
        heapq.heapify(waiting)
        for name, search in self.plans.items():
            self.wanting[name] = search.wanting
        while waiting or pool.unfinished:
            while waiting and pool.unfinished <= pool.workers:
                _, name = heapq.heappop(waiting)
                self._take_quick(name)
                node = self.plans[name].next_node() if self.failed[name] < _MOST_FAILED else None
                if node is None:
                    self.wanting[name] = 0
                else:
                    search = self.plans[name]
                    quick = self.quality == "full" and search.quick_will_do(node)
                    order = Order(
                        name=f"{name}, {node}",
                        request=search.request(node),
                        quality="everyday" if quick else self.quality,
                        enough_mm=search.enough_mm(node),
                        like=search.like(node),
                    )
                    self.ordered[order.name] = (name, node)
                    pool.submit(order)
            if pool.unfinished:
                name = self._take_outcome(pool.next_outcome(), pool)
                heapq.heappush(waiting, (-self.plans[name].urgency, name))

    def _take_outcome(self, outcome: Outcome, pool: Pool) -> str:
        """Verify and keep a new lay. Returns the name of its plan."""
        order = outcome.order
        self.memory_bytes = pool.memory_bytes
        name, node = self.ordered.pop(order.name)
        search = self.plans[name]
        key = lay_key(order.request, order.quality)
        found = [] if outcome.lay is None else self.receipts.checked(key, order.request, outcome.lay)
        if outcome.lay is None or found:
            self.failures.append(outcome.error or f"{order.name}: the new lay is wrong: {'; '.join(found)}")
            self.failed[name] += 1
            search.give_up(node)
        else:
            self.finished += 1
            self.store.put(key, name, outcome.lay, likeness(order.request, order.quality))
            self.used_keys.add(key)
            search.take(node, outcome.lay)
        self.wanting[name] = search.wanting
        self.progress(pool.unfinished)
        return name

    def progress(self, unfinished: int, *, last: bool = False) -> None:
        """Tell the progress if it is time to."""
        now_s = time.monotonic()
        if last or now_s - self.told_s >= _TELL_EVERY_S:
            self.told_s = now_s
            more = 0 if last else max(unfinished, round(sum(self.wanting.values()) * _LAYS_A_NODE))
            self.tell(
                Progress(
                    finished=self.finished,
                    from_store=self.from_store,
                    expected=self.finished + more,
                    elapsed_s=now_s - self.started_s,
                    memory_bytes=self.memory_bytes,
                )
            )


def _item_ids(lay: Lay) -> frozenset[str]:
    return frozenset(placement.item_id for placement in lay.placements)


def _missing(name: str, result: CoverPlan) -> list[str]:
    """A sentence for each node that nothing serves, but for those that a lay of another such node would serve."""
    widest: list[Node] = []
    for node in sorted(result.unserved, key=lambda node: (node.width_mm, -len(node.item_ids), str(node))):
        if not any(
            node.way in SERVED_BY_WAY[one.way]
            and (one.nap or not node.nap)
            and one.width_mm <= node.width_mm
            and one.item_ids >= node.item_ids
            for one in widest
        ):
            widest.append(node)
    return [f"{name}, {node}: not laid yet, and no other lay serves it" for node in widest]


def run_plans(
    plans: Mapping[str, CoverSearch],
    *,
    store: LayStore,
    receipts: Receipts,
    quality: Quality = "full",
    verify_all: bool = False,
    only_stored: bool = False,
    keep_others: bool = False,
    workers: int | None = None,
    tell: Callable[[Progress], None] = lambda progress: None,
    note: Callable[[str], None] = lambda sentence: None,
    pool: Pool | None = None,
) -> dict[str, CoverPlan]:
    """Drive searches to their end; every lay comes from the store or from the pool, and is verified.

    Arguments: searches by name, such as "ferrylight, outer, size 92"; the store and the receipts; the quality,
    of which lays are made, and below which stored ones are not taken;
    ``verify_all`` ignores receipts; ``only_stored`` makes no lay: what is there must serve everything;
    ``keep_others`` keeps stored lays that these searches can't use; number of workers; ``tell`` is called with
    the progress; ``note`` with a sentence for each stored lay that was not used; a pool of one's own. A stored lay that
    is wrong is a failure with ``only_stored``; else it is noted, left out, and made anew where it is needed.
    A finished lay is journaled at once, so an interrupted run goes on where
    it stopped. When all went well, the store is compacted.

    Returns the result of each search. Raises: :class:`LaysFailed` after all that can be made has been made.
    """
    run = _Run(plans, store, receipts, quality, tell)
    for name in plans:
        run.take_stored(name, verify_all=verify_all)
    if not only_stored:
        with pool or Pool(workers=workers) as open_pool:
            run.solve(open_pool)
    run.progress(0, last=True)
    results = {name: search.result() for name, search in plans.items()}
    for name, result in results.items():
        if not run.failed[name]:
            run.failures += _missing(name, result)
    if only_stored:
        run.failures += run.wrong.values()
    else:
        for sentence in run.wrong.values():
            note(f"{sentence}; it was left out")
    for sentence in store.not_used(run.used_keys | run.wrong.keys(), plans.keys()):
        note(sentence)
    if run.failures:
        raise LaysFailed(sorted(dict.fromkeys(run.failures)))
    if not only_stored:
        kept = store.keys() - run.wrong.keys() if keep_others else run.used_keys
        store.compact(kept, makers=makers())
    return results
