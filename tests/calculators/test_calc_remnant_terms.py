"""What fits in the fewest words, held against a published example and lays that are right on paper."""

from __future__ import annotations

import json
from itertools import product
from typing import Any

import pytest
from cases.paper_sheet import make_paper
from cases.remnant_cases import opening

from boltside.calculators.door import answer
from boltside.calculators.remnant_terms import Table, Terms


def length(terms: Terms) -> int:
    return sum(len(words) for term, _ in terms for words in term.values())


@pytest.mark.outside  # a textbook's function of four variables: m(4, 8, 10, 11, 12, 15), 9 and 14 left open
@pytest.mark.parametrize("swapped", [False, True])
def test_a_textbooks_function_takes_no_more_terms_than_there(swapped: bool) -> None:
    # Published: AC + BC'D' and AB' or AD', three terms with 2 + 3 + 2 = 7 letters. What is left open may fall under
    # either. Said may also be what does not hold: m(0, 1, 2, 3, 5, 6, 7, 13) is A'B' + A'C + C'D, three terms with 6.
    table = Table(list("ABCD"), list(product("01", repeat=4)))
    holds = sum(table.bit(number) for number in (4, 8, 10, 11, 12, 15))
    offered = table.all & ~table.bit(9) & ~table.bit(14)
    fit = offered & ~holds if swapped else holds
    said = table.said(offered, fit)
    terms = said.only or said.without
    assert not said.every and len(terms) == 3 and length(terms) == 6
    covered = 0
    for term, mask in terms:
        assert mask == sum(
            table.bit(number) for number, words in enumerate(table.variants)
            if all(words["ABCD".index(name)] in allowed for name, allowed in term.items())
        )  # fmt: skip
        covered |= mask
    assert covered & offered == (fit if said.only else offered & ~fit)


@pytest.mark.outside  # counted on paper
def test_one_word_that_decides_is_all_that_is_said() -> None:
    # Of 2 x 3 x 2 = 12 sets the 6 without sleeves fit, whatever collar and hem: one word. Of the 12 all but the 2 with
    # sleeves and the tall collar fit, whatever hem: two words for what does not, where what fits needs 1 + 2 more.
    table = Table(["sleeves", "collar", "hem"], list(product(("no", "yes"), ("none", "flat", "tall"), ("a", "b"))))
    without = sum(table.bit(number) for number, words in enumerate(table.variants) if words[0] == "no")
    assert [term for term, _ in table.said(table.all, without).only] == [{"sleeves": ["no"]}]
    tall = sum(table.bit(number) for number, words in enumerate(table.variants) if words[:2] == ("yes", "tall"))
    assert tall.bit_count() == 2
    assert [term for term, _ in table.said(table.all, table.all & ~tall).without] == [
        {"sleeves": ["yes"], "collar": ["tall"]}
    ]


@pytest.mark.outside  # geometry, on paper
@pytest.mark.parametrize(
    ("width", "long", "fits"),
    # Rectangles of 45 x 70 cm, two beside each other on 100 cm, three on 140: four panels take 140 cm on both, with two
    # sleeves of the same cloth 210 and 140. Sleeves of another cloth take nothing of this one.
    [
        ("100", "139", None), ("100", "140", "All but Cloth of the sleeves: outer cloth"), ("140", "139", None),
        ("100", "209", "All but Cloth of the sleeves: outer cloth"), ("100", "210", "All options fit"),
        ("140", "140", "All options fit"),
    ],
)  # fmt: skip
def test_what_fits_a_remnant_is_what_fits_on_paper(width: str, long: str, fits: str | None) -> None:
    answer(*opening([make_paper()]))
    asked: dict[str, Any] = {"kind": "woven", "wash": "washed", "nap": "without", "unit": "cm", "size": "92"}
    said = json.loads(answer("remnants", json.dumps({**asked, "width": width, "length": long})))
    whole = [one["text"] for one in said["fragments"] if one["id"].startswith("remnant.whole.")]
    assert len(whole) == (fits is not None)
    assert all(f"Size 92. {fits}." in text for text in whole)
