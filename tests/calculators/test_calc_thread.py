"""How much thread, about: the trade's factors, the length of all seams, reels."""

from __future__ import annotations

import pytest
from cases.real_sheets import real_sheet

from boltside.calculators.request import read_request
from boltside.calculators.thread import LOCKSTITCH, MORE, OVERLOCK, one_thread, overlock_m, reels, sewn_mm, thread_m


@pytest.mark.outside
def test_the_factors_are_the_trades() -> None:
    """Lockstitch ≈ 2.5 to 3 × the seam's length, three-thread overlock ≈ 12 to 14 × (from memory)."""
    assert LOCKSTITCH == (2.5, 3) and OVERLOCK == (12, 14)
    # 10 m of seams: 10 × 1.25 × 3 = 37.5, told as 40; 10 × 14 = 140.
    assert thread_m(10_000) == 40 and overlock_m(10_000) == 140
    assert 10 * LOCKSTITCH[0] <= thread_m(10_000) / (1 + MORE) <= 10 * LOCKSTITCH[1] + 5


@pytest.mark.parametrize(("metres", "reel", "count"), [(1, 200, 1), (200, 200, 1), (205, 200, 2), (45, 20, 3)])
def test_reels_are_whole(metres: float, reel: float, count: int) -> None:
    assert reels(metres, reel) == count


def test_more_is_sewn_where_more_is_chosen() -> None:
    sheet = real_sheet("ferrylight")
    usual = {"lining": "facings", "collar": "none", "sleeves": "none"}
    plain = sewn_mm(read_request(sheet, {"size": "92", "choices": usual}))
    for more in ({"lining": "full"}, {"collar": "flat"}, {"sleeves": "long"}, {"pockets": "two", "length": "hip"}):
        assert sewn_mm(read_request(sheet, {"size": "92", "choices": {**usual, **more}})) > plain
    by_size = [sewn_mm(read_request(sheet, {"size": size, "choices": usual})) for size in sheet["sizes"]]
    assert by_size == sorted(by_size)


def test_it_is_said_as_an_estimate_and_for_both() -> None:
    sheet = real_sheet("ferrylight")
    notion = next(one for one in sheet["notions"] if one["reel_m"] is not None)
    one = one_thread(read_request(sheet, {"size": "92"}), notion)
    two = one_thread(read_request(sheet, {"size": "92", "second": "92"}), notion)
    assert "An estimate from the length of all seams and hems." in one.said.text and "a reel of 200 m" in one.said.text
    assert two.data["sewn_mm"] == 2 * one.data["sewn_mm"] and "of thread, for both:" in two.said.text
    rare = {**notion, "when": [{"length": ["none-such"]}]}
    assert one_thread(read_request(sheet, {"size": "92"}), rare).said.text == ""
