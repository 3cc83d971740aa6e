"""Which lays are made already? ``lays.json`` and the journal beside it.

``lays.json`` is one JSON array with one sorted line a lay (:mod:`.store_lines`). Lays are appended to the journal
as they finish, so that an interrupted run loses nothing; compacting writes both into a new file that takes
the old one's place in one step.
"""

import json
import os
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any, Final

from .codec import Json, digest, lay_from_json, lay_to_json, one_line
from .model import Lay, LayRequest
from .solve import alike
from .store_lines import NotALayFile, from_version_1, read, written
from .verify import VERIFIER_VERSION, faults

JOURNAL_NAME: Final = "lays.journal"
_RECEIPTS_NAME: Final = "lay-receipts.txt"


class StoreDamaged(Exception):
    """``lays.json`` or its journal can't be read; the text says where and how to mend it."""


class LayStore:
    """Lays by key, kept in a file.

    Arguments: ``path`` of lays.json, which need not exist yet. Raises: :class:`StoreDamaged`.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.journal = path.with_name(JOURNAL_NAME)
        self._entries: dict[str, Json] = {}
        self._by_plan: dict[str, list[str]] = {}
        self._whole_journal: int | None = None
        self._read_file()
        self._read_journal()

    def __len__(self) -> int:
        return len(self._entries)

    def __contains__(self, key: str) -> bool:
        return key in self._entries

    def get(self, key: str) -> Lay | None:
        """The lay under a key, or None. Raises: :class:`StoreDamaged` when its entry makes no sense."""
        entry = self._entries.get(key)
        if entry is None:
            return None
        try:
            return lay_from_json(entry)
        except (KeyError, TypeError, ValueError) as error:
            raise StoreDamaged(
                f"{self.path}: a lay of {entry.get('plan', key)!r} makes no sense ({error}); "
                "delete its line and run the lays again"
            ) from error

    def keys_of(self, plan: str) -> tuple[str, ...]:
        """The keys of all lays that were made for a plan, whether they still fit it or not."""
        return tuple(sorted(self._by_plan.get(plan, ())))

    def alike(self, key: str, like: Json) -> bool:
        """Whether the likeness of a lay differs from the given one by rounding only.

        Such a lay is worth verifying; whether it holds, only the verifier can say.
        """
        stored = self._entries[key].get("like")
        return isinstance(stored, dict) and alike(stored, like)

    def has_likeness(self, key: str) -> bool:
        """Whether a likeness stands beside a stored lay; the oldest files had none."""
        return "like" in self._entries[key]

    def note_likeness(self, key: str, like: Json) -> None:
        """Write a likeness beside a stored lay; compacting keeps it."""
        self._entries[key]["like"] = like

    def put(self, key: str, plan: str, lay: Lay, like: Json | None = None) -> None:
        """Keep a finished lay: append it to the journal and force it to the disk."""
        entry = {"key": key, "plan": plan, **lay_to_json(lay), **({} if like is None else {"like": like})}
        self.journal.parent.mkdir(parents=True, exist_ok=True)
        self._drop_torn_line()
        with self.journal.open("ab") as file:
            file.write(one_line(entry).encode() + b"\n")
            file.flush()
            os.fsync(file.fileno())
        self._remember(entry)

    def compact(self, keep: Iterable[str] | None = None, *, makers: Mapping[str, Json] | None = None) -> None:
        """Write all lays, or only those under the keys to ``keep``, into lays.json; the journal goes.

        ``makers`` says what the stamps in the header mean. Does not touch a file that would stay the same.
        """
        kept = self._entries if keep is None else {key: self._entries[key] for key in keep if key in self._entries}
        text = written(kept.values(), makers or {})
        if not self.path.exists() or self.path.read_text(encoding="utf-8") != text:
            new = self.path.with_name(self.path.name + ".new")
            with new.open("w", encoding="utf-8", newline="\n") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
            os.replace(new, self.path)
        self.journal.unlink(missing_ok=True)
        self._entries = {}
        self._by_plan = {}
        for entry in kept.values():
            self._remember(entry)

    def _read_file(self) -> None:
        if not self.path.exists():
            return
        try:
            data = json.loads(self.path.read_text(encoding="utf-8"))
            if not isinstance(data, list) or not data:
                raise ValueError("it is not a list with a header")
        except ValueError as error:
            raise StoreDamaged(
                f"{self.path}: not readable as JSON ({error}); restore it from version control or delete it"
            ) from error
        try:
            rows = read(data)
        except NotALayFile as error:
            raise StoreDamaged(f"{self.path}: {error}") from error
        for entry, line in rows:
            self._add(entry, f"{self.path}:{line}")

    def _read_journal(self) -> None:
        """Read the journal but for a last line that was torn while it was written.

        The torn line goes when the next lay is kept: another process may be writing it at this moment.
        """
        if not self.journal.exists():
            return
        data = self.journal.read_bytes()
        whole = data[: data.rfind(b"\n") + 1]
        for number, line in enumerate(whole.splitlines(), start=1):
            try:
                entry = json.loads(line)
            except ValueError as error:
                raise StoreDamaged(
                    f"{self.journal}:{number}: not readable ({error}); delete this line and run the lays again"
                ) from error
            self._add(from_version_1(entry) if isinstance(entry, dict) else entry, f"{self.journal}:{number}")
        if len(whole) < len(data):
            self._whole_journal = len(whole)

    def _drop_torn_line(self) -> None:
        if self._whole_journal is not None:
            with self.journal.open("r+b") as file:
                file.truncate(self._whole_journal)
            self._whole_journal = None

    def _add(self, entry: Any, where: str) -> None:
        if not isinstance(entry, dict) or not isinstance(entry.get("key"), str):
            raise StoreDamaged(f"{where}: a lay without a key; delete this line and run the lays again")
        self._remember(entry)

    def _remember(self, entry: Json) -> None:
        self._entries[entry["key"]] = entry
        same = self._by_plan.setdefault(str(entry.get("plan")), [])
        if entry["key"] not in same:
            same.append(entry["key"])


class Receipts:
    """Which lays have passed the verifier on this machine: hashes of lay, request and verifier version.

    Arguments: the cache folder, or None to remember nothing.
    """

    def __init__(self, cache_dir: Path | None) -> None:
        self._path = None if cache_dir is None else cache_dir / _RECEIPTS_NAME
        self._known: set[str] = set()
        if self._path is not None and self._path.exists():
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
                self._path.parent.mkdir(parents=True, exist_ok=True)
                with self._path.open("a", encoding="ascii", newline="\n") as file:
                    file.write(receipt + "\n")
        return found
