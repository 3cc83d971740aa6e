"""Reads `techniques/*.md`: how things are done, written once for the whole shop.

    # Gathering
    short: Draw up two rows of long stitches until the edge fits, then sew between them.
    drawing: gathering.svg
    before: [woven]

    The whole text, Markdown.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated, Final, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError

from boltside.pattern import Technique
from boltside.read.collect import START, Place, Problems, quoted
from boltside.read.document import MANY, NAME_PATTERN
from boltside.read.folder_file import SAFE_PART
from boltside.read.seen import seen_on
from boltside.read.text_file import STEPS_BYTES_MAX, read_text, shown
from boltside.read.yaml_tree import read_tree

TECHNIQUES_FOLDER: Final = "techniques"
SHORT_MAX: Final = 240
"""The short text stands within a step. Our choice."""
HEAD: Final = re.compile(r"(short|drawing|before)\s*:")


def _listed(value: object) -> object:
    return value if isinstance(value, list) else [value]


class _HeadDoc(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)
    short: Annotated[str, Field(min_length=1, max_length=SHORT_MAX)]
    drawing: Annotated[str, Field(max_length=100)] | None = None
    before: Annotated[list[Literal["woven", "knit"]], BeforeValidator(_listed), Field(max_length=MANY)] = []


def read_techniques(data_dir: Path, problems: Problems) -> tuple[Technique, ...]:
    """The techniques of a shop by name, as far as they could be read; what is wrong is noted."""
    folder = data_dir / TECHNIQUES_FOLDER
    try:
        files = sorted(one for one in folder.iterdir() if one.suffix == ".md")
    except OSError:
        return ()
    found = [_technique(file, folder, problems) for file in files]
    return tuple(one for one in found if one is not None)


def _technique(file: Path, folder: Path, problems: Problems) -> Technique | None:
    name = shown(file)

    def note(code: str, place: Place, seen: str, expected: str, mend: str) -> None:
        problems.add(code, name, place, seen=seen, expected=expected, mend=mend)

    if not re.fullmatch(NAME_PATTERN, file.stem):
        note("bad-name", START, f"the file {quoted(file.name)}", "lower-case words joined by hyphens, like `hem.md`",
             "rename the file")  # fmt: skip
        return None
    text = read_text(file, folder, STEPS_BYTES_MAX, problems, "a technique")
    if text is None:
        return None
    lines = text.split("\n")
    count = 1
    while count < len(lines) and HEAD.match(lines[count]):
        count += 1
    tree = read_tree("\n".join(lines[1:count]), name, problems, first=(2, 1)) if count > 1 else None
    head = None
    if tree is not None:
        try:
            head = _HeadDoc.model_validate(tree.data)
        except ValidationError:
            head = None
    if not lines[0].startswith("# ") or head is None or not "".join(lines[count:]).strip():
        note("bad-technique", START, f"{quoted(lines[0])}, and {count - 1} lines under it",
             f"`# ` and a title, under it `short:` with at most {SHORT_MAX} letters, perhaps `drawing:` and `before:`, "
             "then the text", "write it as the handbook shows")  # fmt: skip
        return None
    if head.drawing is not None:
        drawing = folder / head.drawing
        if not SAFE_PART.fullmatch(head.drawing) or drawing.suffix != ".svg" or drawing.is_symlink() or (
            not drawing.is_file()):
            note("missing-file", (2, 1), f"no drawing {quoted(head.drawing)} in `{TECHNIQUES_FOLDER}`",
                 "an `.svg` file beside the text", "add it, or correct its name")  # fmt: skip
            return None
    return Technique(
        name=file.stem,
        title=lines[0][2:].strip(),
        short=head.short,
        text="\n".join(lines[count:]).strip(),
        drawing=head.drawing,
        seen=seen_on(folder / head.drawing) if head.drawing is not None else "",
        before=tuple(head.before),
    )
