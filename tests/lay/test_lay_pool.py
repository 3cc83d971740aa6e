"""Workers that hang, die or babble fail their own lay by name and nothing else."""

import sys
import time

import psutil
import pytest
from pieces_for_lays import jacket_request

from boltside.lay.model import LayItem, LayRequest
from boltside.lay.pool import Order, Pool

BAD_WORKER = """
import json, os, sys, time
from boltside.lay.worker import answer
for line in sys.stdin:
    name = json.loads(line)["name"]
    if name == "hangs":
        time.sleep(600)
    if name == "dies":
        os._exit(3)
    print("{" if name == "babbles" else json.dumps(answer(line)), flush=True)
"""


def orders(*names: str) -> list[Order]:
    return [Order(name=name, request=jacket_request("folded"), quality="draft") for name in names]


@pytest.mark.parametrize(
    ("bad", "said"),
    [
        ("hangs", "hangs: the solver gave no answer within 3 s and was stopped"),
        ("dies", "dies: the solver's process broke off, it ended with exit code 3"),
        ("babbles", "babbles: the solver's process gave an answer that makes no sense, "),
    ],
)
def test_a_bad_worker_fails_its_lay_by_name_and_the_others_are_made(bad, said):
    with Pool(workers=1, time_out_s=3, command=(sys.executable, "-c", BAD_WORKER)) as pool:
        for order in orders("first", bad, "last"):
            pool.submit(order)
        outcomes = {outcome.order.name: outcome for outcome in pool.outcomes()}
    assert outcomes[bad].lay is None
    assert outcomes[bad].error.startswith(said)
    assert outcomes["first"].error is None and outcomes["first"].lay is not None
    assert outcomes["last"].lay == outcomes["first"].lay


def test_a_worker_that_can_not_start_fails_each_lay_by_name():
    with Pool(workers=1, time_out_s=3, command=(sys.executable, "-c", "raise SystemExit(7)")) as pool:
        for order in orders("a", "b"):
            pool.submit(order)
        errors = sorted(outcome.error for outcome in pool.outcomes())
    assert [error[:38] for error in errors] == [
        "a: the solver's process broke off, it ",
        "b: the solver's process broke off, it ",
    ]


def test_a_piece_too_wide_is_said_in_the_worker_too():
    board = LayItem(item_id="board", outline_mm=((0, 0), (9, 0), (9, 700), (0, 700)), mode="single", count=1)
    request = LayRequest(items=(board,), bolt_width_mm=500, way="flat", one_way=False)
    with Pool(workers=1) as pool:
        pool.submit(Order(name="outer, 50 cm", request=request))
        assert pool.next_outcome().error == (
            "outer, 50 cm: piece 'board' is 700 mm wide, flat cloth offers 470 mm; "
            "the narrowest cloth that works is 730 mm wide"
        )


def test_closing_kills_workers_in_the_middle_of_a_lay():
    before = set(psutil.Process().children(recursive=True))
    pool = Pool(workers=2, command=(sys.executable, "-c", BAD_WORKER))
    for order in orders("hangs", "hangs"):
        pool.submit(order)
    deadline = time.monotonic() + 10
    while len(set(psutil.Process().children(recursive=True)) - before) < 2 and time.monotonic() < deadline:
        time.sleep(0.05)
    pool.close()
    assert set(psutil.Process().children(recursive=True)) - before == set()


@pytest.mark.parametrize(("way", "quality"), [("flat", "full"), ("flat", "draft"), ("folded", "full")])
def test_the_same_request_gives_the_same_lay_in_different_processes(way, quality):
    lays = []
    for _ in range(2):
        with Pool(workers=1) as pool:
            pool.submit(Order(name="x", request=jacket_request(way), quality=quality))
            lays.append(pool.next_outcome().lay)
    assert lays[0] is not None
    assert lays[0] == lays[1]
    assert lays[0].quality == quality


def test_draft_lays_are_marked():
    with Pool(workers=1) as pool:
        pool.submit(Order(name="x", request=jacket_request("flat"), quality="draft"))
        assert pool.next_outcome().lay.quality == "draft"
