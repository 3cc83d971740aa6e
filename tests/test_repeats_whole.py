"""Stripes and checks from pattern.yaml to sheet and lay files; lays are quick drafts, of two rectangles and a band."""

from __future__ import annotations

import json
from dataclasses import replace
from itertools import pairwise, product
from pathlib import Path
from typing import Any

import pytest
from broken.folders import broken_data

from boltside.calculators.door import answer
from boltside.demands import RepeatKey
from boltside.measure.cutting_list import cut_lines
from boltside.measure.lay_items import lay_mark
from boltside.pattern import Pattern
from boltside.plan import LaysMissing, run_pattern
from boltside.read.folder import read_pattern
from boltside.shop_lays import ShopPattern, shop_pattern

YAML = "patterns/plain/pattern.yaml"
REPEATS = (
    "repeats: {stripes-40: {title: Stripes, along_mm: 40}, checks-60: {title: Checks, along_mm: 60, across_mm: 60}, "
    "uneven-70: {title: Uneven stripes, along_mm: 70, even: false}}"
)
EVERY = {"stripes-40": (40, None), "checks-60": (60, 60), "uneven-70": (70, None)}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a pattern with drafts of all its lays."""
    changes = {
        YAML: (
            (
                "usual_width_mm: 1400, widths_mm: [1100, 1400], ways: [folded, flat]",
                f"usual_width_mm: 700, widths_mm: [700, 1100], ways: [folded, flat], {REPEATS}",
            ),
            ("    title: Front\n", "    title: Front\n    in_step: top-side\n"),
            ("    title: Back\n", "    title: Back\n    in_step: top-side\n"),
            ("    - {piece: band, put: mark, on: front.hem-centre, when: {band: two}}\n", ""),
        )
    }
    made: Path = broken_data(changes, tmp_path_factory.mktemp("repeats") / "data") / "patterns" / "plain"
    run_pattern(pattern_of(made), made, quality="draft", workers=1)
    return made


def pattern_of(folder: Path) -> Pattern:
    return read_pattern(folder, folder.parents[1] / "body_charts")


@pytest.fixture(scope="module")
def shop(folder: Path) -> ShopPattern:
    return shop_pattern(pattern_of(folder), folder, cache_dir=None)


def test_the_sheet_lists_repeats_and_their_lengths(shop: ShopPattern) -> None:
    outer, interfacing = shop.sheet["cloths"]
    assert "repeats" not in interfacing
    assert outer["repeats"][1] == {
        "name": "checks-60", "title": "Checks", "along_mm": 60, "across_mm": 60, "even": True
    }  # fmt: skip
    assert [(one["along_mm"], one["across_mm"]) for one in outer["repeats"]] == list(EVERY.values())
    lengths = shop.sheet["lays"]["outer"]
    assert set(lengths["flat"]) == {"with", "without", *(f"repeat:{name}" for name in EVERY)}
    assert set(lengths["folded"]) == {"with", "without", "repeat:stripes-40", "repeat:checks-60"}
    assert all("repeat" not in nap for by_nap in shop.sheet["lays"]["interfacing"].values() for nap in by_nap)


def test_laws_of_lengths_in_step(shop: ShopPattern) -> None:
    """Wider never more, a larger size or set never less, in step never less than one way without a repeat."""
    sets = [frozenset(ids) for ids in shop.sheet["sets"]["outer"]]
    compared = 0
    for by_nap in shop.sheet["lays"]["outer"].values():
        for nap, by_size in by_nap.items():
            if not nap.startswith("repeat:"):
                continue
            for size, of_sets in by_size.items():
                assert len(of_sets) == len(sets)
                for steps, plain in zip(of_sets, by_nap["with"][size], strict=True):
                    for narrow, wide in pairwise(steps):
                        assert narrow[0] < wide[0] and narrow[1] > wide[1] and narrow[3] >= wide[3]
                    for width in (700, 1100):
                        assert _at(plain, width) <= _at(steps, width)
                        compared += 1
                for (one, fewer), (other, more) in product(enumerate(sets), enumerate(sets)):
                    if fewer < more:
                        assert all(_at(of_sets[one], w) <= _at(of_sets[other], w) for w in (700, 1100))
            small, large = (by_size[size] for size in shop.sheet["sizes"])
            for at in range(len(sets)):
                assert all(_at(small[at], width) <= _at(large[at], width) for width in (700, 1100))
    assert compared > 20


def _at(steps: list[list[int]], width_mm: int) -> int:
    return min((step[1] for step in steps if step[0] <= width_mm), default=10**6)


def test_marks_in_lay_files_are_in_step(shop: ShopPattern) -> None:
    """Along the cloth whole repeats apart, to the whole millimetre; across it too, in the way the lay was made for."""
    seen = set()
    for key, file in shop.lay_files.items():
        numbers = {
            step[2]: nap
            for nap, by_size in shop.sheet["lays"][file["cloth"]][file["way"]].items()
            for steps in by_size[file["size"]]
            for step in steps
        }
        for number, lay in file["lays"].items():
            name = lay.get("repeat")
            assert numbers[int(number)] == (f"repeat:{name}" if name else numbers[int(number)])
            assert name is not None or all(len(one) == 6 for one in lay["at"])
            if name is None:
                continue
            marks = [one[6] for one in lay["at"] if len(one) == 7]
            assert {file["items"][one[0]] for one in lay["at"] if len(one) == 7} == {
                item for item in (file["items"][one[0]] for one in lay["at"]) if not item.startswith("band")
            }
            for axis, every in enumerate(EVERY[name]):
                for mark in marks if every else ():
                    off = (mark[axis] - marks[0][axis]) % every
                    assert min(off, every - off) <= 1, (key, number)
            seen.add((name, file["way"], len(marks) > 1))
    assert seen >= {("stripes-40", "flat", True), ("checks-60", "folded", True), ("uneven-70", "flat", True)}


def test_pages_can_open_what_is_published(shop: ShopPattern) -> None:
    assert json.loads(answer("open", json.dumps(shop.sheet))) == {"opened": "plain"}
    for file in shop.lay_files.values():
        assert "opened" in json.loads(answer("open-lays", json.dumps(file)))


def test_plans_have_names_that_people_read(folder: Path) -> None:
    pattern = pattern_of(folder)
    lays = run_pattern(pattern, folder, quality="draft", only_stored=True, verify_all=True)
    names = [str(key) for key in lays.repeats]
    assert "plain, outer, size 92, in step with checks-60" in names
    assert all(isinstance(key, RepeatKey) for key in lays.repeats)
    assert len(names) == len(set(names)) == 2 * len(EVERY)


def test_another_repeat_or_point_needs_other_lays(folder: Path) -> None:
    """What was made for checks of 60 mm, or for the top of the side, is not taken for anything else."""
    pattern = pattern_of(folder)
    outer = pattern.cloths[0]
    wider = replace(outer, repeats=(replace(outer.repeats[0], along_mm=41), *outer.repeats[1:]))
    other = [replace(piece, in_step="hem-side") if piece.in_step else piece for piece in pattern.pieces]
    for changed, said in (
        (replace(pattern, cloths=(wider, *pattern.cloths[1:])), "size 80, in step with stripes-40, "),
        (replace(pattern, pieces=tuple(other)), "size 80, in step with checks-60, "),
    ):
        with pytest.raises(LaysMissing, match=f"{said}.*not laid yet"):
            run_pattern(changed, folder, quality="draft", only_stored=True)


def test_a_tampered_repeat_is_refused_by_name(folder: Path, tmp_path: Path) -> None:
    pattern = pattern_of(folder)
    text = (folder / "lays.json").read_text(encoding="utf-8")
    old = '"repeat":[6000,6000]'
    assert old in text
    (tmp_path / "lays.json").write_text(text.replace(old, '"repeat":[6000,3000]'), encoding="utf-8")
    with pytest.raises(LaysMissing, match=r"checks-60, .*made for another repeat of the cloth's pattern; it stands in"):
        run_pattern(pattern, tmp_path, quality="draft", only_stored=True, verify_all=True)


@pytest.mark.outside  # source: the tables in tests/garment/README.md, and geometry
def test_marks_in_the_lay_are_where_the_piece_has_its_point() -> None:
    """The underarm of Oblong's front in size 92: side 240 up, hem allowance 30; half 48 + 72 + 39 = 159 wide.

    On the fold the piece lies with its fold on y = 0, the grain (up the drawing) along x: 30 + 240 along, 159 across.
    Opened, as a pair, it has 20 more in the middle: nothing changes along, and across it lies 20 + 159 from the edge,
    or 10 (the side's allowance) from the other one, whichever edge is at 0.
    """
    garment = Path(__file__).parent / "garment" / "data"
    pattern = read_pattern(garment / "patterns" / "oblong", garment / "body_charts")
    found: dict[str, Any] = {}
    for line in cut_lines(pattern):
        if line.piece == "front" and line.cloth == "outer" and "92" in line.sizes and "waist" not in str(line.when):
            found[line.mode] = lay_mark(pattern, line, "92")
        if line.piece in ("sleeve", "cuff") or line.kind == "interfacing":
            assert all(lay_mark(pattern, line, size) is None for size in line.sizes)
    assert set(found) == {"fold", "pair"}
    assert found["fold"] == pytest.approx((270, 159), abs=0.1)
    assert found["pair"] == pytest.approx((270, 10), abs=0.1) or found["pair"] == pytest.approx((270, 179), abs=0.1)
