"""What does the system have under the name of a lay file, and is it safe to touch?"""

import contextlib
import os
import stat
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from .store_text import NotALayFile

LARGEST_BYTES: Final = 60_000_000
"""As much as `boltside check` lets `lays.json` have; the demo shop's largest takes a twentieth. Our choice."""


def content_of(path: Path, *, links: bool) -> bytes | None:
    """The bytes of a plain file in its own folder, or None where there is nothing of this name.

    Arguments: the path; whether a link is followed that stays in the folder. Raises: :class:`NotALayFile`.
    """
    if path.is_symlink() and not (links and _stays_inside(path)):
        raise NotALayFile(
            "it is a link that leads out of the folder" if links else "it is a link, and would be written through"
        )
    try:
        about = path.stat()
        if stat.S_ISDIR(about.st_mode):
            raise NotALayFile("it is a folder, not a file")
        if not stat.S_ISREG(about.st_mode):
            raise NotALayFile("it is no plain file")
        if about.st_size > LARGEST_BYTES:
            raise NotALayFile(f"it has {about.st_size} bytes, more than the {LARGEST_BYTES} that any pattern needs")
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise NotALayFile(f"it can't be read ({error.strerror})") from error


def _stays_inside(path: Path) -> bool:
    try:
        return path.resolve().is_relative_to(path.parent.resolve())
    except (OSError, RuntimeError):  # links in a circle: RuntimeError in Python 3.11 and 3.12
        return False


@contextlib.contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Let no other run change the lay files of a folder meanwhile; the system lets go when a process is killed.

    Windows can't lock a folder: two runs side by side are not kept apart there, nor on network systems that refuse it.
    """
    if sys.platform == "win32":
        yield
        return
    import fcntl

    handle = os.open(folder, os.O_RDONLY)
    try:
        with contextlib.suppress(OSError):
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def to_disk(folder: Path) -> None:
    """Force new and vanished names of a folder to the disk, where the system can; elsewhere it does so by itself."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass  # some network systems refuse it for folders
    finally:
        os.close(handle)
