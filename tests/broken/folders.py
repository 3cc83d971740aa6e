"""Makes a data folder from the good base, broken as asked."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path

from .cases import LINK, REMOVE, RENAME, WHOLE, Change

BASE = Path(__file__).parent / "base"


def broken_data(changes: Mapping[str, tuple[Change, ...]], data_dir: Path) -> Path:
    """A copy of the base at `data_dir` with these changes made; returns `data_dir`."""
    shutil.copytree(BASE, data_dir)
    for name, changes_of_file in changes.items():
        for old, new in changes_of_file:
            change(data_dir / name, old, new)
    return data_dir


def change(path: Path, old: str | bytes, new: str | bytes) -> None:
    """Make one change to a file or folder."""
    if old in (REMOVE, LINK):
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink()
        if old == LINK:
            path.symlink_to(str(new))
    elif old == RENAME:
        path.rename(path.with_name(str(new)))
    elif old == WHOLE:
        path.write_bytes(as_bytes(new))
    else:
        content = path.read_bytes()
        assert as_bytes(old) in content, f"{old!r} is not in {path.name}: the base has changed"
        path.write_bytes(content.replace(as_bytes(old), as_bytes(new), 1))


def as_bytes(text: str | bytes) -> bytes:
    """Text as UTF-8."""
    return text if isinstance(text, bytes) else text.encode("utf-8")


def snapshot(folder: Path) -> dict[str, tuple[bytes, int]]:
    """Every file under the folder with its content and the time it was last changed, ns."""
    return {
        str(path.relative_to(folder)): (path.read_bytes(), path.stat().st_mtime_ns)
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.is_symlink()
    }
