"""Which lays were found right on this machine before? Receipts: an everyday build need not verify them all again."""

import contextlib
from collections.abc import Callable
from pathlib import Path
from typing import Final

from .codec import digest, lay_to_json
from .model import Lay, LayRequest
from .verify import VERIFIER_VERSION, faults

_RECEIPTS_NAME: Final = "lay-receipts.txt"


class Receipts:
    """Which lays have passed the verifier on this machine: hashes of lay, request and verifier version.

    Arguments: the cache folder, or None to remember nothing.
    """

    def __init__(self, cache_dir: Path | None) -> None:
        self._path = None if cache_dir is None else cache_dir / _RECEIPTS_NAME
        self._known: set[str] = set()
        if self._path is not None:
            with contextlib.suppress(OSError):  # without receipts every lay is looked at again
                self._known = set(self._path.read_text(encoding="ascii", errors="replace").split())

    def checked(
        self,
        key: str,
        request: LayRequest,
        lay: Lay,
        *,
        ignore: bool = False,
        verify: Callable[[LayRequest, Lay], list[str]] = faults,
    ) -> list[str]:
        """Faults of a lay; a lay with a receipt has none and is not looked at again unless ``ignore``."""
        receipt = digest({"verifier": VERIFIER_VERSION, "key": key, "lay": lay_to_json(lay)})
        if receipt in self._known and not ignore:
            return []
        found = verify(request, lay)
        if not found and receipt not in self._known:
            self._known.add(receipt)
            if self._path is not None:
                with contextlib.suppress(OSError):  # a lay is no worse for a receipt that could not be written
                    self._path.parent.mkdir(parents=True, exist_ok=True)
                    with self._path.open("a", encoding="ascii", newline="\n") as file:
                        file.write(receipt + "\n")
        return found
