"""Build the shop aside and swap it in whole, so that a failed build leaves the shop that was there untouched."""

from __future__ import annotations

import logging
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from mkdocs.commands.build import build as run_site_engine
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException

from boltside.errors import BoltsideError

ASIDE_SUFFIX = ".new"
REPLACED_SUFFIX = ".old"


class BuildFailed(BoltsideError):
    """The site engine gave up; nothing was published."""


def publish(config_file: Path, site_dir: Path) -> Path:
    """Build the shop described by `config_file` and put it at `site_dir`; returns `site_dir`.

    Raises: `BuildFailed` or another `BoltsideError`, with the shop at `site_dir` as it was before.
    """
    # The engine takes a relative folder as seen from the settings, not from where the designer stands.
    config_file, place = config_file.resolve(), site_dir.resolve()
    aside = place.with_name(place.name + ASIDE_SUFFIX)
    shutil.rmtree(aside, ignore_errors=True)
    os.environ.setdefault("SOURCE_DATE_EPOCH", str(last_change_s(config_file.parent)))
    try:
        with site_engine() as told:
            config = load_config(str(config_file), site_dir=str(aside))
            # Plugins raise our own errors through the engine unchanged.
            config.plugins.on_startup(command="build", dirty=False)
            run_site_engine(config)
    except BaseException:
        shutil.rmtree(aside, ignore_errors=True)
        raise
    for sentence in told.sentences:
        print(sentence, file=sys.stderr)
    swap_in(aside, place)
    return site_dir


class Told(logging.Handler):
    """Keeps the site engine's warnings, to be shown once."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.sentences: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep the warning's sentence."""
        self.sentences.append(record.getMessage())


@contextmanager
def site_engine() -> Iterator[Told]:
    """While the site engine runs: keeps its warnings, and says its errors as ours.

    Raises: `BuildFailed` with all that was said, or the `BoltsideError` for which it gave up.
    """
    told = Told()
    logging.getLogger("mkdocs").addHandler(told)
    try:
        yield told
    except (Abort, MkDocsException) as error:
        ours = our_own(error)
        if ours is not None:
            raise ours from error
        raise BuildFailed("\n".join(["the site could not be built:", *told.sentences, str(error)])) from error
    finally:
        logging.getLogger("mkdocs").removeHandler(told)


def our_own(error: BaseException) -> BoltsideError | None:
    """The error of ours that made the site engine give up, if it was one."""
    seen: BaseException | None = error
    while seen is not None:
        if isinstance(seen, BoltsideError):
            return seen
        seen = seen.__cause__ or seen.__context__
    return None


def swap_in(aside: Path, place: Path) -> None:
    """Put the folder `aside` at `place`; what was there goes away last."""
    replaced = place.with_name(place.name + REPLACED_SUFFIX)
    shutil.rmtree(replaced, ignore_errors=True)
    if place.exists():
        place.rename(replaced)
    aside.rename(place)
    shutil.rmtree(replaced, ignore_errors=True)


def last_change_s(root: Path) -> int:
    """When the data last changed, in seconds since 1970: its last commit, else its newest file.

    Building twice from the same data then gives the same bytes.
    """
    try:
        shown = subprocess.run(
            ["git", "log", "-1", "--format=%ct", "--", "data", "site_src"],
            cwd=root, capture_output=True, text=True, check=True,
        ).stdout.strip()
        if shown:
            return int(shown)
    except (OSError, subprocess.CalledProcessError, ValueError):
        pass  # not a git checkout, or no git here
    files = [path for path in (root / "data").rglob("*") if path.is_file()]
    return int(max((path.stat().st_mtime for path in files), default=0))
