"""The list of cloths with nap holds what the trade says of them."""

from __future__ import annotations

import pytest

from boltside.calculators.nap_kinds import KINDS, yes_or_no


@pytest.mark.outside  # common practice
def test_the_cloths_of_the_trade_are_listed_with_nap() -> None:
    # Common practice: corduroy, velvet, fleece, many knits and one-way prints.
    with_nap = " ".join(kind.title.lower() for kind in KINDS if kind.nap)
    for word in ("corduroy", "velvet", "fleece", "jersey", "interlock", "print with a top and a bottom"):
        assert word in with_nap
    # A plain weave without pile looks the same from both ends: from the words' meaning.
    without = " ".join(kind.title.lower() for kind in KINDS if not kind.nap)
    for word in ("poplin", "linen", "denim", "looks the same upside down"):
        assert word in without


def test_each_is_listed_once_and_says_why() -> None:
    titles = [kind.title for kind in KINDS]
    assert len(set(titles)) == len(titles)
    assert all(kind.why.endswith(".") for kind in KINDS)
    assert [yes_or_no(kind) for kind in KINDS] == sorted((yes_or_no(kind) for kind in KINDS), reverse=True)
