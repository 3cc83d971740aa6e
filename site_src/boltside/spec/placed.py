"""How do the places of closures stand in the spec sheet? Distances along a line; nothing of the outlines."""

from __future__ import annotations

from boltside.measure.closure_cases import PlacedRow, placed_cases
from boltside.measure.closure_places import CLEAR_MM, Places
from boltside.pattern import Notion, Pattern, Placed
from boltside.spec.json_form import Json, condition_json, tidy


def placed_json(pattern: Pattern, notion: Notion) -> Json | None:
    """The places of a notion by choices and size, None for one that is not placed. Raises: MeasureError."""
    placed = notion.placed
    if placed is None:
        return None
    cases = placed_cases(pattern, notion)
    return {
        "from": f"{placed.away} {placed.below}",
        "each": each_row(placed),
        "holes": placed.holes,
        "rows": placed.rows,
        "spacing_mm": None if placed.spacing_mm is None else tidy(placed.spacing_mm),
        "clear_mm": tidy(CLEAR_MM if placed.clear_mm is None else placed.clear_mm),
        "cases": [
            {
                "when": condition_json(case.when),
                "piece": next(iter(case.by_size.values())).piece,
                "right": dict(next(iter(case.by_size.values())).edge_right),
                "sizes": {size: _row(row) for size, row in case.by_size.items()},
            }
            for case in cases
        ],
    }


def each_row(placed: Placed) -> str:
    """The words for each of several rows; nothing for a single one."""
    return "" if placed.rows == 1 else placed.each or f"in each of the {placed.rows} rows"


def _row(row: PlacedRow) -> Json:
    return {
        "mm": [tidy(at) for at in row.places.mm],
        "line_mm": tidy(row.length_mm),
        "seams_mm": [tidy(at) for at in row.crossings_mm],
        "edge_mm": None if row.edge_mm is None else tidy(row.edge_mm),
        "gave": _gave(row.places),
    }


def _gave(places: Places) -> list[str]:
    """What gave way: `first`, `last`, `number`, `equal`."""
    gave = {"first": places.first_moved, "last": places.last_moved, "number": places.other_number,
            "equal": not places.equal}  # fmt: skip
    return [name for name, moved in gave.items() if moved]
