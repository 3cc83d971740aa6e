"""The list for the designer, word by word, and its table."""

from __future__ import annotations

import csv
import io

from boltside.samples.plan import sample_plan
from boltside.samples.words import COLUMNS, plan_csv, plan_text
from tests.samples.test_plan import choice, guide

ONE = guide(
    [choice("Sleeves", "Long", "None"), choice("Collar", "Flat, wide", "Stand")],
    steps=[("Cut", []), ("Set the sleeves in", [{"Sleeves": ["Long"]}]), ("Bind", [{"Sleeves": ["None"]}]),
           ("Lost", [{"Collar": ["no"]}])],
)  # fmt: skip

TEXT = """\
Tryout: 4 garments and 3 takes show every step and all 4 pairs of options that meet.
Fewer garments can't show all of it: that is proven.

1. Size 92. Sleeves: long | Collar: flat, wide
   Film 2 steps: 1 Cut | 2 Set the sleeves in
   All of this is new: each option, and any two of them together.

2. Size 92. Sleeves: none | Collar: stand
   Film 1 step: 3 Bind
   New options, each with all others here: Sleeves: none | Collar: stand

3. Size 92. Sleeves: long | Collar: stand
   New together: Sleeves: long with Collar: stand

4. Size 92. Sleeves: none | Collar: flat, wide
   New together: Sleeves: none with Collar: flat, wide

No garment has these steps, whatever is chosen: 4 Lost
"""


def test_the_list_reads_so() -> None:
    assert plan_text(sample_plan(ONE)) == TEXT


def test_no_line_is_long_and_none_begins_with_a_bar() -> None:
    many = guide([choice(f"Choice number {at}", "one of the two", "the other one") for at in range(6)])
    lines = plan_text(sample_plan(many)).splitlines()
    assert max(map(len, lines)) <= 100
    assert not any(line.lstrip().startswith("|") for line in lines)


def test_the_table_has_each_thing_once() -> None:
    rows = list(csv.reader(io.StringIO(plan_csv(sample_plan(ONE)))))
    assert tuple(rows[0]) == COLUMNS
    assert rows[1] == ["1", "92", "Sleeves: long; Collar: flat, wide", "film", "1 Cut", ""]
    things = [tuple(row[3:]) for row in rows[1:]]
    assert len(things) == len(set(things)) == 3 + 4 + 4
    assert ("pair", "Sleeves: none", "Collar: stand") in things
