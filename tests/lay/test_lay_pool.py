"""Workers that hang, die, babble or take too much memory fail their own lay by name and nothing else."""

import itertools
import json
import sys
import time

import psutil
import pytest
from pieces_for_lays import jacket_request

from boltside.lay import memory, worker_process
from boltside.lay.codec import lay_to_json
from boltside.lay.folded import solve_by_filling
from boltside.lay.model import Lay, LayItem, LayRequest
from boltside.lay.pool import Order, Outcome, Pool
from boltside.lay.verify import faults

BAD_WORKER = """
import json, os, sys, time
def say(text):
    sys.stdout.write(text)
    sys.stdout.flush()
def right(name):
    return json.dumps({"name": name, "lay": json.loads(sys.argv[1])}) + "\\n"
for line in sys.stdin:
    name = json.loads(line)["name"]
    if name == "hangs":
        time.sleep(600)
    elif name == "is kept waiting":
        time.sleep(3)
        say(right(name))
    elif name == "dies":
        os._exit(3)
    elif name == "is killed":
        os.kill(os.getpid(), 9)
    elif name == "closes its answers":
        os.close(1)
        time.sleep(600)
    elif name == "answers half a line":
        say(right(name)[:40])
        os._exit(0)
    elif name == "answers bytes that are no text":
        sys.stdout.buffer.write(b"\\xff\\xfe\\x00\\n")
        sys.stdout.flush()
    elif name == "answers brackets":
        say("[" * 100000 + "\\n")
    elif name == "answers no number":
        say(right(name).replace(str(json.loads(sys.argv[1])["length"]), "NaN"))
    elif name == "answers a huge number":
        say(right(name).replace(str(json.loads(sys.argv[1])["length"]), "9" * 5000))
    elif name == "answers a list":
        say("[1, 2]\\n")
    elif name == "answers nothing of use":
        say(json.dumps({"name": name}) + "\\n")
    elif name == "answers another order":
        say(right("first"))
    elif name == "prints before it answers":
        say("a library greets you\\n" + right(name))
    elif name == "prints without end":
        while True:
            say("noise " * 1000)
    elif name == "prints lines without end":
        while True:
            say("noise\\n" * 1000)
    else:
        say(right(name))
"""

HANGS_S = 4.0
"""How long a hang is waited for where a test is about that; long enough for a busy computer to start a worker."""


@pytest.fixture(scope="module")
def lay() -> Lay:
    return solve_by_filling(jacket_request("folded"), trials=5)


def order(name: str) -> Order:
    return Order(name=name, request=jacket_request("folded"), quality="draft")


def bad_worker(lay: Lay) -> tuple[str, ...]:
    return (sys.executable, "-c", BAD_WORKER, json.dumps(lay_to_json(lay)))


def made(command: tuple[str, ...], *names: str, time_out_s: float = 60.0) -> dict[str, Outcome]:
    with Pool(workers=1, time_out_s=time_out_s, command=command) as pool:
        for name in names:
            pool.submit(order(name))
        return {outcome.order.name: outcome for outcome in pool.outcomes()}


NO_SENSE = "the solver's process gave an answer that makes no sense, "
BROKE_OFF = "the solver's process broke off, "


@pytest.mark.parametrize(
    ("bad", "said"),
    [
        ("hangs", "the solver gave no answer within 4 s and was stopped"),
        ("dies", BROKE_OFF + "it ended with exit code 3"),
        pytest.param(
            "is killed",
            BROKE_OFF + "the system ended it by SIGKILL",
            marks=pytest.mark.skipif(sys.platform == "win32", reason="Windows has no signals to end a process by"),
        ),
        ("closes its answers", BROKE_OFF + "it closed its answers and went on"),
        ("answers half a line", NO_SENSE),
        ("answers bytes that are no text", NO_SENSE),
        ("answers brackets", NO_SENSE + "brackets in each other without end"),
        ("answers no number", NO_SENSE + "'NaN' is no whole number"),
        ("answers a huge number", NO_SENSE),
        ("answers a list", NO_SENSE + "it is no answer"),
        ("answers nothing of use", NO_SENSE + "'lay'"),
        ("answers another order", NO_SENSE + "it is the answer to 'first'"),
        ("prints before it answers", NO_SENSE),
        ("prints without end", NO_SENSE),
        ("prints lines without end", NO_SENSE),
    ],
)
def test_a_bad_worker_fails_its_lay_by_name_and_the_others_are_made(lay, bad, said):
    outcomes = made(bad_worker(lay), "first", bad, "last", time_out_s=HANGS_S if bad == "hangs" else 60.0)
    assert outcomes[bad].lay is None
    assert outcomes[bad].error.startswith(f"{bad}: {said}")
    assert len(outcomes[bad].error) < 500
    assert (outcomes["first"].error, outcomes["first"].lay) == (None, lay)
    assert (outcomes["last"].error, outcomes["last"].lay) == (None, lay)


def told(monkeypatch: pytest.MonkeyPatch, *, each_look_s: float | None) -> None:
    """Stand in for the system: at every look a worker took so much more processor time; None: it does not tell."""
    looks = itertools.count()
    time_s = (lambda pid: None) if each_look_s is None else (lambda pid: next(looks) * each_look_s)
    monkeypatch.setattr(worker_process, "processor_time_s", time_s)


def test_a_worker_that_works_without_end_is_stopped(lay, monkeypatch):
    told(monkeypatch, each_look_s=30.0)
    outcomes = made(bad_worker(lay), "hangs", time_out_s=60.0)
    said = "hangs: the solver took 60 s of processor time without an answer and was stopped"
    assert outcomes["hangs"].error == said


def test_a_worker_on_a_busy_computer_is_waited_for_longer_than_the_time_out(lay, monkeypatch):
    """Slow by the clock on the wall, but it moves."""
    told(monkeypatch, each_look_s=0.01)
    outcome = made(bad_worker(lay), "is kept waiting", time_out_s=2.0)["is kept waiting"]
    assert (outcome.error, outcome.lay) == (None, lay)


def test_where_processor_time_is_not_told_the_clock_on_the_wall_ends_a_hang(lay, monkeypatch):
    told(monkeypatch, each_look_s=None)
    outcome = made(bad_worker(lay), "hangs", time_out_s=0.2)["hangs"]
    assert outcome.error == "hangs: the solver gave no answer within 2 s and was stopped"


def test_a_worker_that_can_not_go_on_fails_each_lay_by_name():
    outcomes = made((sys.executable, "-c", "raise SystemExit(7)"), "a", "b")
    assert [outcomes[name].error for name in "ab"] == [f"{name}: {BROKE_OFF}it ended with exit code 7" for name in "ab"]


def test_a_worker_that_is_not_there_fails_each_lay_by_name(tmp_path):
    outcomes = made((str(tmp_path / "no-such-solver"),), "a", "b")
    for name in "ab":
        assert outcomes[name].error.startswith(f"{name}: the solver's process could not be started, ")


def test_a_worker_that_does_not_even_take_its_order_is_stopped(lay):
    """An order is longer than what the system keeps for a process that does not read."""
    corners = tuple((float(x), float(y)) for x, y in [(0, 0), *((400, y / 10) for y in range(12_000)), (0, 1200)])
    long = LayItem(item_id="long", outline_mm=corners, mode="single", count=1)
    request = LayRequest(items=(long,), bolt_width_mm=1300.0, way="flat", one_way=False)
    sleeper = (sys.executable, "-c", "import time; time.sleep(600)")
    with Pool(workers=1, time_out_s=1.0, command=sleeper) as pool:
        pool.submit(Order(name="long", request=request))
        assert pool.next_outcome().error == "long: the solver gave no answer within 1 s and was stopped"


def test_a_piece_too_wide_is_said_in_the_worker_too():
    board = LayItem(item_id="board", outline_mm=((0, 0), (9, 0), (9, 700), (0, 700)), mode="single", count=1)
    request = LayRequest(items=(board,), bolt_width_mm=500, way="flat", one_way=False)
    with Pool(workers=1) as pool:
        pool.submit(Order(name="outer, 50 cm", request=request))
        assert pool.next_outcome().error == (
            "outer, 50 cm: piece 'board' is 700 mm wide, flat cloth offers 470 mm; "
            "the narrowest cloth that works is 730 mm wide"
        )


WORKER_WITH_A_BAD_SOLVER = """
from boltside.lay import worker
from boltside.lay.folded import solve_by_filling

class Panic(BaseException):
    "As the panics of libraries in other languages arrive."

kept = []

def bad(request, quality, *, enough_mm, like):
    print("a library greets you", flush=True)
    if request.bolt_width_mm == 731.0:
        raise Panic("index out of bounds")
    while request.bolt_width_mm == 732.0:
        kept.append(bytearray(b"x") * 10_000_000)
    return solve_by_filling(request, trials=5)

worker.solve = bad
worker.main()
"""


def bad_solver(bolt_width_mm: float) -> tuple[Outcome, Outcome, int]:
    """Outcomes of a lay on this cloth and of one after it, and the most memory that a worker took."""
    command = (sys.executable, "-c", WORKER_WITH_A_BAD_SOLVER)
    with Pool(workers=1, command=command) as pool:
        pool.submit(Order(name="bad", request=jacket_request("folded", bolt_width_mm=bolt_width_mm)))
        pool.submit(order("next"))
        first, second = pool.outcomes()
        return first, second, pool.memory_bytes


def test_a_panic_fails_its_lay_by_name_and_what_a_library_prints_spoils_no_answer(lay):
    bad, after, _ = bad_solver(731.0)
    assert bad.error == "bad: Panic: index out of bounds"
    assert (after.error, after.lay) == (None, lay)


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere no limit makes an allocation fail: see memory.py")
def test_a_search_that_allocates_without_end_fails_its_lay_by_name_and_the_pool_goes_on(lay):
    bad, after, memory_bytes = bad_solver(732.0)
    assert bad.error == "bad: the solver wanted more than the 1 GB of memory that it may take"
    assert (after.error, after.lay) == (None, lay)
    assert memory.MEMORY_LIMIT_BYTES * 0.8 < memory_bytes < memory.MEMORY_LIMIT_BYTES * 1.1


@pytest.mark.skipif(memory.peak_memory_bytes() is None, reason="this system does not tell a process its peak")
def test_where_no_limit_is_enforced_a_watching_thread_ends_the_process_and_the_lay_is_named():
    greedy = (
        "import threading; from boltside.lay.memory import watch_memory\n"
        "threading.Thread(target=watch_memory, args=(150_000_000,), daemon=True).start()\n"
        "kept = []\n"
        "import time\n"
        "while True:\n"
        "    kept.append(bytearray(b'x') * 10_000_000)\n"
        "    time.sleep(0.01)\n"
    )
    outcomes = made((sys.executable, "-c", greedy), "greedy")
    assert outcomes["greedy"].error == f"greedy: {BROKE_OFF}it took more than 1 GB of memory"


def test_closing_kills_workers_in_the_middle_of_a_lay(lay):
    before = set(psutil.Process().children(recursive=True))
    pool = Pool(workers=2, command=bad_worker(lay))
    for _ in range(2):
        pool.submit(order("hangs"))
    deadline = time.monotonic() + 10
    while len(set(psutil.Process().children(recursive=True)) - before) < 2 and time.monotonic() < deadline:
        time.sleep(0.05)
    pool.close()
    assert set(psutil.Process().children(recursive=True)) - before == set()


@pytest.mark.parametrize(("way", "quality"), [("flat", "full"), ("flat", "draft"), ("folded", "full")])
def test_the_same_request_gives_the_same_right_lay_in_different_processes(way, quality):
    """Also shows that the solvers and their libraries run within the memory that a worker may take."""
    lays = []
    for _ in range(2):
        with Pool(workers=1) as pool:
            pool.submit(Order(name="x", request=jacket_request(way), quality=quality))
            outcome = pool.next_outcome()
            assert outcome.error is None
            lays.append(outcome.lay)
            peak = memory.peak_memory_bytes()
            assert peak is None or 20_000_000 < pool.memory_bytes < memory.MEMORY_LIMIT_BYTES / 2
    assert lays[0] is not None
    assert lays[0] == lays[1]
    assert lays[0].quality == quality
    assert faults(jacket_request(way), lays[0]) == []
