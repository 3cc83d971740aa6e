"""One slip does not hide the others, and brings no others with it."""

from __future__ import annotations

from boltside.read.collect import Problems
from boltside.read.schema import Checked, check_document
from boltside.read.yaml_tree import read_tree

GOOD = """\
boltside: 1
name: Name
summary: Summary
garment: top
edition: "1"
difficulty: 1
minutes: 10
body_chart: chart
sizes: ["80"]
size_by: [height]
drawn: stitching
allowance_mm: 10
cloths:
  outer: {title: Outer, kinds: [woven], usual_width_mm: 1400, widths_mm: [1400], ways: [flat]}
pieces:
  front: {title: Front, edges: [{name: a, from: b}], cut: [{cloth: outer, mode: single, count: 1}]}
seams:
  - {name: one, join: [front.a], to: [front.b]}
  - {name: two, join: [front.c], to: [front.d]}
"""


def checked(text: str) -> tuple[Checked, list[str]]:
    problems = Problems()
    tree = read_tree(text, "p.yaml", problems)
    assert tree is not None
    return check_document(tree, "p.yaml", problems), [f"{p.line}:{p.column} {p.code}" for p in problems.found]


def test_good_document() -> None:
    found, noted = checked(GOOD)
    assert noted == []
    assert found.document is not None
    assert found.document.seams[1].join[0].edge == "front.c"
    assert found.broken == set()


def test_broken_item_of_a_list_leaves_the_places_of_the_others_true() -> None:
    found, noted = checked(GOOD.replace("name: one", "nam: one"))
    assert noted == ["18:6 unknown-key"]
    assert found.document is not None
    assert [seam.name for seam in found.document.seams] == ["two"]
    assert found.tree.value_place(("seams", 0, "join", 0, "edge")) == (19, 24)
    assert not found.whole("seams")
    assert found.whole("pieces")


def test_broken_condition_is_taken_out_whole() -> None:
    found, noted = checked(GOOD.replace("to: [front.b]", "to: [front.b], when: {x: [1, y], z: w}"))
    assert noted == ["18:60 wrong-type"]
    assert found.document is not None
    assert found.document.seams[0].when is None


def test_wrong_value_of_a_demanded_top_level_key_does_not_stop_reading() -> None:
    found, noted = checked(GOOD.replace("minutes: 10", "minutes: ten").replace("count: 1}", "count: 0}"))
    assert sorted(noted) == ["16:96 wrong-value", "7:10 wrong-type"]
    assert found.document is not None


def test_document_that_can_not_go_on() -> None:
    for text in ("- a list\n", "just text\n", GOOD.replace('sizes: ["80"]', "sizes: 80")):
        found, noted = checked(text)
        assert found.document is None
        assert [one.split()[1] for one in noted] == ["wrong-type"]


def test_list_that_lost_its_only_item_brings_no_second_message() -> None:
    _, noted = checked(GOOD.replace("to: [front.b]", "to: [frontb]"))
    assert noted == ["18:39 bad-name"]
