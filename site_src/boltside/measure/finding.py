"""What is one thing that measuring finds wrong? A code, the place in pattern.yaml, and words for the designer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from boltside.calculators.conditions import SIZE
from boltside.errors import Severity

Path = tuple[str | int, ...]
"""The way to a part of pattern.yaml: keys and list positions from the top."""


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing that is wrong, told once: what is seen in the first of the sizes that show it."""

    code: str
    path: Path
    seen: str
    expected: str
    mend: str
    severity: Severity = "error"
    sizes: tuple[str, ...] = ()


def told(chosen: Mapping[str, str], size: str) -> str:
    """Where something was seen: the size, and the choices it depends on."""
    words = ", ".join(f"{name} {word}" for name, word in chosen.items() if name != SIZE)
    return f"in size {size}" + (f" with {words}" if words else "")
