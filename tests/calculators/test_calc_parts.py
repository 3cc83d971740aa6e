"""Parts of an answer, held against how many different amounts of cloth there are on paper."""

from __future__ import annotations

from typing import Any

import pytest
from cases.paper_sheet import make_paper

from boltside.calculators.cloth import one_cloth
from boltside.calculators.parts import several, single
from boltside.calculators.request import read_request
from boltside.calculators.spread import spread_alike

CHOICES = ({"sleeves": "none"}, {"sleeves": "long"}, {"sleeves": "long", "sleeve-cloth": "contrast"})


@pytest.mark.outside  # counted on paper
@pytest.mark.parametrize(
    ("cloth", "amounts"),
    # Of outer cloth there are the panels alone (2 rows, 1.45 m), also where the sleeves are of another cloth, and the
    # panels with the sleeves (3 rows, 2.15 m); of contrast cloth nothing, or a row of sleeves (0.75 m); of the lining
    # always the two triangles (0.75 m). So of the 3 sets of choices 2, 2 and 1 have to be made.
    [("outer", ["1.45 m", "2.15 m"]), ("contrast", ["", "0.75 m"]), ("lining", ["0.75 m"])],
)
def test_as_many_as_differ_on_paper_have_to_be_made(cloth: str, amounts: list[str]) -> None:
    sheet, shared = make_paper(), dict[Any, Any]()
    of = next(one for one in sheet["cloths"] if one["name"] == cloth)
    part = several(one_cloth, of, alike=spread_alike)
    assert part.alike is not None
    made: dict[Any, list[Any]] = {}
    for chosen in CHOICES:
        request = read_request(sheet, {"choices": chosen}, shared)
        fragments = part.make(request)
        assert made.setdefault(part.alike(request), fragments) == fragments
    told = [fragments[0].said.text.rpartition(": ")[2] for fragments in made.values()]
    assert told == amounts


def test_what_compares_nothing_says_so() -> None:
    assert single(lambda request: request).alike is None
