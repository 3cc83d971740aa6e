"""Taking a cloth plan, held against sets that are counted on paper."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest

from boltside.calculators.plan_choices import is_had, present, taken


def choice(name: str, *words: str, asked_when: Any = ()) -> dict[str, Any]:
    return {"name": name, "default": words[0], "asked_when": asked_when, "alternatives": [{"name": w} for w in words]}


CHOICES = [choice("hem", "plain", "turn-up", "cuff"), choice("pocket", "same", "contrast"), choice("collar", "a", "b")]
PLAN = {"hem": ["plain", "turn-up"], "pocket": ["contrast"]}


@pytest.mark.outside  # counted on paper
def test_taking_a_plan_changes_as_little_as_it_can() -> None:
    # 3 x 2 x 2 = 12 sets, of which 2 x 1 x 2 = 4 are the plan. From the hem 1 of 3 words has to change, from the pocket
    # 1 of 2: over the 12 sets 4 and 6 changes, 10 in all. The collar is no matter of the plan.
    sets = [dict(zip(("hem", "pocket", "collar"), one, strict=True))
            for one in product(("plain", "turn-up", "cuff"), ("same", "contrast"), ("a", "b"))]  # fmt: skip
    then = [taken(CHOICES, PLAN, one) for one in sets]
    assert sum(is_had(PLAN, one) for one in sets) == 4 and all(is_had(PLAN, one) for one in then)
    changed = [sum(one[name] != other[name] for name in one) for one, other in zip(sets, then, strict=True)]
    assert (sum(changed), changed.count(0), max(changed)) == (10, 4, 2)
    assert all(one["collar"] == other["collar"] for one, other in zip(sets, then, strict=True))
    # To the plan with a turn-up come the sets with a turn-up, whatever the pocket: 2; to that with the plain hem those
    # with a plain hem or a cuff: 4. Twice each, for the two collars.
    assert sorted([then.count(one) for one in sets if is_had(PLAN, one)]) == [2, 2, 4, 4]


@pytest.mark.outside  # counted on paper
def test_a_choice_that_is_not_asked_does_not_count() -> None:
    # The cloth of the pocket is asked for 1 of 2 words: 1 + 2 = 3 sets. All of one cloth: 1 of them; contrast: 1; the
    # one without pockets is neither.
    asked = [choice("pocket", "none", "two"), choice("cloth", "same", "contrast", asked_when=[{"pocket": ["two"]}])]
    plans = [{"name": word, "choices": {"cloth": [word]}} for word in ("same", "contrast")]
    sets: list[dict[str, str]] = [{"pocket": "none"}, *({"pocket": "two", "cloth": w} for w in ("same", "contrast"))]
    assert [present(plans, one) for one in sets] == ["", "same", "contrast"]
    assert [taken(asked, {"cloth": ["contrast"]}, one) for one in sets] == [sets[0], sets[2], sets[2]]
