"""Which id of the drawing is offered for one that is missing."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltside.read.collect import Problems
from boltside.read.document import PatternDoc
from boltside.read.drawn import Drawing
from boltside.read.near_id import near_id
from boltside.read.schema import check_document
from boltside.read.yaml_tree import read_tree

YAML = Path(__file__).parents[1] / "broken" / "base" / "patterns" / "plain" / "pattern.yaml"


@pytest.fixture(scope="module")
def document() -> PatternDoc:
    tree = read_tree(YAML.read_text(encoding="utf-8"), "pattern.yaml", Problems())
    assert tree is not None
    checked = check_document(tree, "pattern.yaml", Problems()).document
    assert checked is not None
    return checked


@pytest.mark.parametrize(
    ("wanted", "ids", "near"),
    [
        ("band.80.outline", ["bnad.80.outline"], "bnad.80.outline"),
        ("band.80.outline", ["Band.80.Outline"], "Band.80.Outline"),
        ("band.80.outline", ["waist-band.80.area.outer-half"], None),
        ("band.80.outline", ["band.80.area.outline"], None),
        ("band.80.outline", ["band.92.outline"], None),
        ("front.80.point.top-side-front", ["front.80.point.top-side-back"], "front.80.point.top-side-back"),
        (
            "front.80.point.top-side-front",
            ["front.80.point.top-side-back", "front.92.point.top-side-back"],
            None,
        ),
        ("front.80.point.waist", ["front.80.line.waist"], None),
        ("front.80.point.waist", ["back.80.point.waist"], None),
    ],
)
def test_near_id(wanted: str, ids: list[str], near: str | None, document: PatternDoc) -> None:
    drawing = Drawing((1, 1), {}, dict.fromkeys(ids, (1, 1)), frozenset())
    assert near_id(wanted, drawing, document) == near
