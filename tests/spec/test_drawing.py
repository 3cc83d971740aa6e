"""The drawing over all choices: what is seen where."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from boltside.calculators.choices import all_allowed
from boltside.calculators.conditions import holds
from boltside.pattern import DrawingPart, Pattern
from boltside.read.folder import read_pattern
from boltside.spec.drawing import drawing_json, drawn_size
from boltside.spec.placing import place
from boltside.spec.simplify import GRID_MM, coarse


def seen(sheet: Mapping[str, Any], view: str, chosen: Mapping[str, str]) -> list[dict[str, Any]]:
    return [part for part in sheet["drawing"][view] if holds(part["when"], chosen)]


def test_the_middle_size_is_drawn(oblong: Pattern) -> None:
    assert drawn_size(oblong) == "92"


def test_every_combination_shows_what_placing_gives(oblong: Pattern, sheet: dict[str, Any]) -> None:
    """Enumerated in full: for each allowed combination the sheet's parts are those that are there, in their order."""
    views: dict[str, tuple[DrawingPart, ...]] = {"front": oblong.drawing_front, "back": oblong.drawing_back}
    for chosen in all_allowed(sheet["choices"], sheet["rules"], "92", steps_too=False):
        for view, parts in views.items():
            there = place(oblong, "92", parts, {name: word for name, word in chosen.items() if name != "size"})
            shown = seen(sheet, view, chosen)
            assert [part["piece"] for part in shown] == [parts[at].piece for at in sorted(there)]
            for part, at in zip(shown, sorted(there), strict=True):
                if part["both_sides"]:
                    width = max(x for x, _ in part["outline"]) - min(x for x, _ in part["outline"])
                    true = coarse(there[at].outline_mm, GRID_MM)
                    assert width == max(x for x, _ in true) - min(x for x, _ in true)


def test_what_is_cut_on_the_fold_is_drawn_whole(sheet: dict[str, Any]) -> None:
    chosen = {"opening": "front", "length": "hip", "sleeves": "none"}
    (back,) = seen(sheet, "back", chosen)
    assert not back["both_sides"]
    xs = [x for x, _ in back["outline"]]
    # 159 on each side of the centre, on the grid 160, and no corner on the fold but the neck's.
    assert (min(xs), max(xs)) == (-160, 160)
    assert sorted([-x, y] for x, y in back["outline"]) == sorted(back["outline"])
    assert len([x for x in xs if x == 0]) == 1
    (front,) = seen(sheet, "front", chosen)
    assert front["both_sides"]


def test_curves_of_a_whole_part_are_alike_on_both_sides() -> None:
    """A neck and armholes of a demo pattern: the part is its own mirror image, corner for corner."""
    data = Path(__file__).parents[2] / "data"
    views = drawing_json(read_pattern(data / "patterns" / "wrackline", data / "body_charts"))
    for view, piece in (("front", "front"), ("back", "back")):
        (whole,) = [one for one in views[view] if one["piece"] == piece and not one["both_sides"]]
        assert len(whole["outline"]) > 12, "curved"
        assert sorted([-x, y] for x, y in whole["outline"]) == sorted(whole["outline"])


def test_the_garment_does_not_jump_when_it_gets_shorter(sheet: dict[str, Any]) -> None:
    def top(length: str) -> int:
        parts = seen(sheet, "front", {"opening": "front", "length": length, "sleeves": "none"})
        return max(y for part in parts for _, y in part["outline"])

    assert top("hip") == top("waist")


def test_with_the_usual_choices_both_views_stand_on_one_line(sheet: dict[str, Any]) -> None:
    usual = {"opening": "front", "length": "hip", "sleeves": "none"}
    for view in ("front", "back"):
        assert min(y for part in seen(sheet, view, usual) for _, y in part["outline"]) == 0


def test_a_pattern_without_a_drawing(oblong: Pattern) -> None:
    from dataclasses import replace

    bare = replace(oblong, drawing_front=(), drawing_back=())
    assert drawing_json(bare) == {"size": "92", "front": [], "back": []}
