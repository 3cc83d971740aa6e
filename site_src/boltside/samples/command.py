"""What does `boltside samples` do? Tells which garments to sew and film so that a pattern's guide is shown whole."""

from __future__ import annotations

from pathlib import Path

from boltside.chosen import chosen_patterns
from boltside.errors import BoltsideError
from boltside.samples.cover import LOOKS
from boltside.samples.plan import sample_plan
from boltside.samples.shown import guide_of
from boltside.samples.words import plan_csv, plan_text

LONGER = 25
"""So many times the usual allowance for who has a few minutes."""


class TableNotWritten(BoltsideError):
    """The table could not be put where it was asked for."""


def tell_samples(data_dir: Path, name: str, *, longer: bool = False, table: Path | None = None) -> str:
    """The plan of samples of a pattern as text; its table is written to `table`, where that is given.

    Raises: ProblemsFound, NoSuchPattern, TableNotWritten.
    """
    (pattern,) = chosen_patterns(data_dir, [name])
    plan = sample_plan(guide_of(pattern), looks=LOOKS * LONGER if longer else LOOKS)
    if table is not None:
        try:
            # A mark at the start tells spreadsheets that it is UTF-8.
            table.write_text(plan_csv(plan), encoding="utf-8-sig", newline="")
        except OSError as error:
            raise TableNotWritten(f"cannot write {table}: {error.strerror}") from error
    return plan_text(plan)
