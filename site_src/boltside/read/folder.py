"""The door: reads a pattern folder, or all of them, and raises every problem at once. Writes nothing."""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path
from typing import Final

from boltside.errors import Problem, ProblemsFound, in_order
from boltside.pattern import BodyChart, Outline, Pattern
from boltside.read.body_chart import read_body_chart
from boltside.read.book import Book
from boltside.read.checks import check_book
from boltside.read.collect import START, EnoughProblems, Problems, listed, meant, quoted
from boltside.read.combinations import Combinations
from boltside.read.document import NAME_PATTERN, PatternDoc
from boltside.read.drawn import Drawing
from boltside.read.make import make_pattern
from boltside.read.near_id import near_id, rename
from boltside.read.outline import EdgeStart, make_outline
from boltside.read.schema import Checked, check_document
from boltside.read.steps import StepsText, read_steps
from boltside.read.svg_file import read_drawing
from boltside.read.text_file import STEPS_BYTES_MAX, SVG_BYTES_MAX, YAML_BYTES_MAX, read_text, shown
from boltside.read.yaml_tree import Tree, read_tree

YAML_FILE: Final = "pattern.yaml"
SVG_FILE: Final = "pieces.svg"
STEPS_FILE: Final = "steps.md"
PATTERNS_FOLDER: Final = "patterns"
CHARTS_FOLDER: Final = "body_charts"


def read_pattern(folder: Path, charts_dir: Path) -> Pattern:
    """The pattern in this folder.

    Arguments: `folder` is `data/patterns/<name>`, `charts_dir` the folder of the body charts.
    Raises: `ProblemsFound` with all problems when one of them is an error.
    """
    pattern, problems = examine_pattern(folder, charts_dir)
    if pattern is None:
        raise ProblemsFound(problems)
    return pattern


def read_patterns(data_dir: Path) -> list[Pattern]:
    """All patterns under `data_dir`/patterns, by name.

    Raises: `ProblemsFound` with the problems of all of them.
    """
    patterns, problems = examine_patterns(data_dir)
    if any(problem.severity == "error" for problem in problems):
        raise ProblemsFound(problems)
    return patterns


def examine_patterns(data_dir: Path) -> tuple[list[Pattern], tuple[Problem, ...]]:
    """The patterns that could be read, and every problem, warnings too."""
    found = Problems()
    patterns: list[Pattern] = []
    for folder in pattern_folders(data_dir, found):
        pattern, problems = examine_pattern(folder, data_dir / CHARTS_FOLDER)
        found.found += problems
        if pattern is not None:
            patterns.append(pattern)
    return patterns, in_order(found.found)


def pattern_folders(data_dir: Path, found: Problems) -> list[Path]:
    """The folders that hold a pattern each, by name; that there are none is noted."""
    parent = data_dir / PATTERNS_FOLDER
    try:
        folders = sorted(one for one in parent.iterdir() if not one.name.startswith(".") and one.is_dir())
    except OSError:
        folders = []
    if not folders:
        found.add(
            "no-patterns",
            shown(parent),
            START,
            seen="no pattern folder",
            expected=f"a folder with `{YAML_FILE}` in it",
            mend="add a folder for each pattern",
        )
    return folders


def examine_pattern(folder: Path, charts_dir: Path) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """The pattern, or None when there is an error, and every problem, warnings too."""
    pattern, problems, _ = examine_folder(folder, charts_dir)
    return pattern, problems


def examine_folder(folder: Path, charts_dir: Path) -> tuple[Pattern | None, tuple[Problem, ...], Tree | None]:
    """As `examine_pattern`, and the tree of pattern.yaml, which knows where everything stands."""
    problems = Problems()
    pattern: Pattern | None = None
    tree: Tree | None = None
    with suppress(EnoughProblems):
        pattern, tree = _read(folder, charts_dir, problems)
    return (pattern if problems.errors == 0 else None), in_order(problems.found), tree


def _read(folder: Path, charts_dir: Path, problems: Problems) -> tuple[Pattern | None, Tree | None]:
    if not _folder_is_fine(folder, problems):
        return None, None
    root = folder
    yaml_text = read_text(folder / YAML_FILE, root, YAML_BYTES_MAX, problems, "the description of the pattern")
    svg_text = read_text(folder / SVG_FILE, root, SVG_BYTES_MAX, problems, "the outlines of all pieces")
    steps_text = read_text(folder / STEPS_FILE, root, STEPS_BYTES_MAX, problems, "the sewing steps")
    yaml_name, svg_name, steps_name = (shown(folder / file) for file in (YAML_FILE, SVG_FILE, STEPS_FILE))
    drawing = read_drawing(svg_text, svg_name, problems) if svg_text is not None else None
    guide = read_steps(steps_text, steps_name, problems) if steps_text is not None else StepsText()
    tree = read_tree(yaml_text, yaml_name, problems) if yaml_text is not None else None
    if tree is None:
        return None, None
    checked = check_document(tree, yaml_name, problems)
    chart = _chart(checked, yaml_name, charts_dir, problems)
    document = checked.document
    if document is None:
        return None, None
    outlines = _outlines(document, checked, chart, drawing, svg_name, problems) if drawing is not None else {}
    book = Book(
        folder=folder,
        document=document,
        checked=checked,
        combinations=Combinations(document),
        problems=problems,
        yaml_name=yaml_name,
        svg_name=svg_name,
        steps_name=steps_name,
        drawing=drawing,
        chart=chart,
        outlines=outlines,
        introduction=guide.introduction,
        steps=guide.steps,
        words=guide.words,
    )
    check_book(book)
    if problems.errors or chart is None:
        return None, None
    return make_pattern(book, chart, folder.name), checked.tree


def _folder_is_fine(folder: Path, problems: Problems) -> bool:
    name = shown(folder)
    if ".." in folder.parts[-1:] or folder.is_symlink():
        problems.add(
            "unsafe-path",
            name,
            START,
            seen=f"{quoted(folder.name)}, which leads somewhere else",
            expected="a folder of its own for the pattern",
            mend="put the pattern's folder itself there",
        )
        return False
    if not folder.is_dir():
        problems.add(
            "missing-file",
            name,
            START,
            seen=f"no folder {quoted(folder.name)}",
            expected="the pattern's folder",
            mend="look at the name",
        )
        return False
    if not re.fullmatch(NAME_PATTERN, folder.name):
        problems.add(
            "bad-name",
            name,
            START,
            seen=f"the folder {quoted(folder.name)}",
            expected="lower-case words joined by hyphens, like `harbour-coat`",
            mend="rename the folder",
        )
    return True


def _chart(checked: Checked, yaml_name: str, charts_dir: Path, problems: Problems) -> BodyChart | None:
    """The body chart that the document names, or None with a problem noted."""
    data = checked.tree.data
    name = data.get("body_chart") if isinstance(data, dict) else None
    if not isinstance(name, str):
        return None
    charts = _chart_names(charts_dir)
    path = charts_dir / f"{name}.csv"
    if not re.fullmatch(NAME_PATTERN, name):
        place = checked.tree.value_place(("body_chart",))
        if re.search(r"[/\\:]|\.\.", name):
            problems.add(
                "unsafe-path",
                yaml_name,
                place,
                seen=quoted(name),
                expected="the bare name of a file in `body_charts`",
                mend="write the name without folders and without `.csv`",
            )
        else:
            problems.add(
                "bad-name",
                yaml_name,
                place,
                seen=quoted(name),
                expected="lower-case words joined by hyphens, like `thistle-quay`",
                mend=meant(name.lower(), charts, "write the name of the chart without `.csv`"),
            )
        return None
    if not path.exists() and not path.is_symlink():
        problems.add(
            "missing-file",
            yaml_name,
            checked.tree.value_place(("body_chart",)),
            seen=f"the body chart {quoted(name)}, which is not in `{CHARTS_FOLDER}`",
            expected=f"one of {listed(charts)}" if charts else f"a file `{name}.csv` in `{CHARTS_FOLDER}`",
            mend=meant(name, charts, f"add `{CHARTS_FOLDER}/{name}.csv`"),
        )
        return None
    return read_body_chart(path, charts_dir, problems)


def _chart_names(charts_dir: Path) -> list[str]:
    """The body charts that there are, by name."""
    try:
        stems = [one.stem for one in charts_dir.iterdir() if one.suffix == ".csv"]
    except OSError:
        return []
    return sorted(one for one in stems if re.fullmatch(NAME_PATTERN, one))


def _outlines(
    document: PatternDoc, checked: Checked, chart: BodyChart | None, drawing: Drawing, svg_name: str, problems: Problems
) -> dict[str, dict[str, Outline]]:
    """The outlines of every piece in every size, as far as they could be made."""
    made: dict[str, dict[str, Outline]] = {}
    # A size that the chart does not have is misspelt; that its outlines are missing follows from that.
    sizes = [size for size in document.sizes if chart is None or size in chart.rows]
    for piece, part in document.pieces.items():
        if piece.startswith("as:"):
            continue
        # Edges that are only half known would put wrong questions to the drawing.
        edges = [EdgeStart(edge.name, edge.start, edge.via) for edge in part.edges if edge.start is not None]
        if len(edges) != len(part.edges) or not checked.whole("pieces", piece, "edges"):
            edges = []
        made[piece] = {}
        missing: list[str] = []
        for size in sizes:
            drawn = drawing.pieces.get((piece, size))
            if drawn is None or not (drawn.outlines or (piece, size) in drawing.damaged):
                missing.append(size)
                continue
            known = [one for one in edges if one.start in drawn.points and (one.via is None or one.via in drawn.points)]
            outline = make_outline(piece, size, drawn, edges if len(known) == len(edges) else [], svg_name, problems)
            if outline is not None:
                made[piece][size] = outline
        if missing:
            _note_missing(piece, missing, document, drawing, svg_name, problems)
    return made


def _note_missing(
    piece: str, missing: list[str], document: PatternDoc, drawing: Drawing, svg_name: str, problems: Problems
) -> None:
    drawn = [size for size in document.sizes if size not in missing]
    wanted = f"{piece}.{missing[0]}.outline"
    near = near_id(wanted, drawing, document)
    problems.add(
        "size-missing",
        svg_name,
        drawing.ids[near] if near is not None else drawing.place,
        seen=f"outlines of `{piece}` in " + (f"sizes {listed(drawn)}" if drawn else "no size"),
        expected=f"one in each size, also in {listed(missing)}",
        mend=rename(near, wanted) if near else f"draw it and give it the id `{wanted}`",
    )
