"""Is `lays.json` a file that can be read without harm? What its lays are worth, the verifier says."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Final

from boltside.read.collect import START, Problems, quoted
from boltside.read.text_file import read_text, shown

LAYS_FILE: Final = "lays.json"
LAYS_BYTES_MAX: Final = 60_000_000
"""Twenty times the largest of the demo shop. Our choice; read whole it takes some 500 MB."""

MEND: Final = "restore it from version control, or delete it and run `boltside lay`"


def check_lay_file(folder: Path, problems: Problems) -> None:
    """Note a `lays.json` that leads elsewhere, is too large, no text, or no JSON. A folder without one is fine."""
    path = folder / LAYS_FILE
    if not path.exists() and not path.is_symlink():
        return
    text = read_text(path, folder, LAYS_BYTES_MAX, problems, "the lays that were found")
    if text is None:
        return
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        problems.add(
            "syntax",
            shown(path),
            (error.lineno, error.colno),
            seen=f"text that is no JSON ({quoted(error.msg)})",
            expected="the lays as `boltside lay` writes them",
            mend=MEND,
        )
        return
    except RecursionError:
        problems.add(
            "too-deep",
            shown(path),
            START,
            seen="brackets in each other without end",
            expected="the lays as `boltside lay` writes them",
            mend=MEND,
        )
        return
    except ValueError:
        # A number of more digits than Python turns into one.
        data = None
    if not isinstance(data, list) or not data or not all(isinstance(one, dict) for one in data):
        problems.add(
            "wrong-type",
            shown(path),
            START,
            seen="something else than a list of lays",
            expected="the lays as `boltside lay` writes them",
            mend=MEND,
        )
