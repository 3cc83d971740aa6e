"""Every file that the reader opens, spoilt in every way: what is said has a place and a mend, and is said soon."""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from boltside.check import examine

from .cases import CHART, STEPS, SVG, YAML
from .cases_files import DOWNLOAD, LAYS, PHOTO, SHOP
from .folders import broken_data

TEXTS = (YAML, SVG, STEPS, CHART, SHOP, LAYS)
NAMED_IN_YAML = (PHOTO, DOWNLOAD)
SECONDS_MAX = 5.0
"""CPU; each takes some hundredths. Our choice."""

TOO_LARGE_BYTES = 100_000_000
"""Above every limit. The file is a hole without contents, so the test writes nothing of that size."""

Spoil = Callable[[Path], None]


def rewritten(content: bytes) -> Spoil:
    def spoil(path: Path) -> None:
        path.write_bytes(content)

    return spoil


def grown(path: Path) -> None:
    path.touch()
    os.truncate(path, TOO_LARGE_BYTES)


def linked_to(target: str) -> Spoil:
    def spoil(path: Path) -> None:
        path.unlink(missing_ok=True)
        path.symlink_to(target)

    return spoil


def fifo(path: Path) -> None:
    path.unlink(missing_ok=True)
    os.mkfifo(path)


def folder(path: Path) -> None:
    path.unlink(missing_ok=True)
    path.mkdir()


EVERY: dict[str, tuple[Spoil, str]] = {
    "too large": (grown, "too-large"),
    "link out of the folder": (linked_to("/etc/passwd"), "unsafe-path"),
    "link up": (linked_to("../../../../../outside"), "unsafe-path"),
    "link to itself": (linked_to("itself"), "missing-file"),
    "pipe": (fifo, "missing-file"),
    "folder": (folder, "missing-file"),
}
TEXT_ONLY: dict[str, tuple[Spoil, str]] = {
    "program": (rewritten(b"\x7fELF\x02\x01\x01\x00"), "binary"),
    "picture": (rewritten(b"\x89PNG\r\n\x1a\n"), "binary"),
    "archive": (rewritten(b"PK\x03\x04 and so on"), "binary"),
    "UTF-16": (rewritten("boltside: 1".encode("utf-16")), "not-utf-8"),
    "Latin-1": (rewritten("gar\xe7on\n".encode("latin-1")), "not-utf-8"),
    "control letter": (rewritten(b"a\x07b"), "not-utf-8"),
}


@pytest.mark.parametrize("file", (*TEXTS, *NAMED_IN_YAML))
@pytest.mark.parametrize("spoilt", (*EVERY, *TEXT_ONLY))
def test_a_spoilt_file_is_named_with_a_mend(file: str, spoilt: str, tmp_path: Path) -> None:
    if file in NAMED_IN_YAML and spoilt not in EVERY:
        pytest.skip("no text is expected there; `wrong-file` has its own examples")
    spoil, code = {**EVERY, **TEXT_ONLY}[spoilt]
    data_dir = broken_data({}, tmp_path / "data")
    path = data_dir / file
    if spoilt == "link to itself":
        spoil = linked_to(path.name)
    spoil(path)
    begun = time.process_time()
    problems = examine(data_dir).problems
    assert time.process_time() - begun < SECONDS_MAX
    expected = YAML if file in NAMED_IN_YAML else file
    said = [problem for problem in problems if problem.path.endswith(expected) and problem.code == code]
    assert len(said) == 1, [str(problem) for problem in problems]
    assert (said[0].line, said[0].column) > (0, 0)
    assert said[0].mend and said[0].expected


def test_a_pattern_folder_that_is_a_link_is_refused(tmp_path: Path) -> None:
    data_dir = broken_data({}, tmp_path / "data")
    shutil.move(data_dir / "patterns" / "plain", tmp_path / "elsewhere")
    (data_dir / "patterns" / "plain").symlink_to(tmp_path / "elsewhere")
    (problem,) = examine(data_dir).problems
    assert (problem.code, problem.path.rpartition("/")[2]) == ("unsafe-path", "plain")


def test_a_photograph_in_a_linked_folder_is_refused(tmp_path: Path) -> None:
    data_dir = broken_data({}, tmp_path / "data")
    photos = data_dir / "patterns" / "plain" / "photos"
    shutil.move(photos, tmp_path / "elsewhere")
    photos.symlink_to(tmp_path / "elsewhere")
    (problem,) = examine(data_dir).problems
    assert problem.code == "unsafe-path"
    assert problem.path.endswith(YAML)
