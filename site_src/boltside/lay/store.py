"""Which lays are made already? ``lays.json`` and the journal beside it.

``lays.json`` is one JSON array with one sorted line a lay (:mod:`.store_lines`). Lays are appended to the journal
as they finish, so that an interrupted run loses nothing; compacting writes both into a new file that takes
the old one's place in one step.
"""

import contextlib
import os
from collections.abc import Collection, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Final

from .codec import Json, lay_from_json, lay_to_json, one_line
from .model import Lay
from .receipts import Receipts
from .solve import alike
from .store_disk import alone_in, content_of, to_disk
from .store_lines import checked, from_version_1, read, written
from .store_text import NotALayFile, rows_of, shown, text_of, value_of

__all__ = ["JOURNAL_NAME", "LayStore", "Receipts", "StoreDamaged"]

JOURNAL_NAME: Final = "lays.journal"

_MEND: Final = "restore it from version control, or delete it and run `boltside lay`"
_MEND_LINE: Final = "delete this line and run `boltside lay`"


class StoreDamaged(Exception):
    """``lays.json`` or its journal can't be read or written; the text says where and how to mend it."""


class LayStore:
    """Lays by key, kept in a file.

    Arguments: ``path`` of lays.json, which need not exist yet. Every line is read at once and has to make sense:
    one that does not, another program has changed, and then nothing of the file is to be trusted before somebody
    has looked at it. Raises: :class:`StoreDamaged`.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.journal = path.with_name(JOURNAL_NAME)
        self._entries: dict[str, Json] = {}
        self._by_plan: dict[str, list[str]] = {}
        self._where: dict[str, str] = {}
        self._whole_journal: int | None = None
        self._written_to = False
        for entry, where in self._there():
            self._remember(entry, where)

    def __len__(self) -> int:
        return len(self._entries)

    def __contains__(self, key: str) -> bool:
        return key in self._entries

    def get(self, key: str) -> Lay | None:
        """The lay under a key, or None."""
        entry = self._entries.get(key)
        return None if entry is None else lay_from_json(entry)

    def where(self, key: str) -> str:
        """File and line in which a stored lay was read, for people."""
        return self._where[key]

    def keys(self) -> frozenset[str]:
        """The keys of all stored lays."""
        return frozenset(self._entries)

    def keys_of(self, plan: str) -> tuple[str, ...]:
        """The keys of all lays that were made for a plan, whether they still fit it or not."""
        return tuple(sorted(self._by_plan.get(plan, ())))

    def keys_elsewhere(self, plan: str, shapes: Mapping[str, Json]) -> tuple[str, ...]:
        """The keys of lays that were made for another plan and whose pieces all have these shapes, as a likeness has
        them: two sizes may share some pieces, and a lay is kept but once."""
        found = []
        for key, entry in self._entries.items():
            if entry["plan"] != plan and "like" in entry:
                pieces = entry["like"]["shapes"]
                if all(shapes.get(piece) == shape for piece, shape in pieces.items()):
                    found.append(key)
        return tuple(sorted(found))

    def not_used(self, used: Collection[str], plans: Collection[str]) -> list[str]:
        """A sentence for each stored lay whose key is not among the ``used``: nothing is told from such a lay, but
        whoever changed the file, or the outlines, should know. ``plans`` are the names of those that were asked for."""
        sentences = []
        for key, entry in self._entries.items():
            if key in used:
                continue
            if entry["plan"] in plans:
                why = "is of other outlines, choices or widths, has a better one beside it, or was changed"
            else:
                why = "is not of this pattern"
            sentences.append(f"{self._where[key]}: not used: a lay of {shown(entry['plan'])} that {why}")
        return sentences

    def alike(self, key: str, like: Json) -> bool:
        """Whether the likeness of a lay differs from the given one by rounding only.

        Such a lay is worth verifying; whether it holds, only the verifier can say.
        """
        stored = self._entries[key].get("like")
        return stored is not None and alike(stored, like)

    def has_likeness(self, key: str) -> bool:
        """Whether a likeness stands beside a stored lay; the oldest files had none."""
        return "like" in self._entries[key]

    def note_likeness(self, key: str, like: Json) -> None:
        """Write a likeness beside a stored lay; compacting keeps it."""
        self._entries[key]["like"] = like

    def put(self, key: str, plan: str, lay: Lay, like: Json | None = None) -> None:
        """Keep a finished lay: append it to the journal and force it to the disk. Raises: :class:`StoreDamaged`."""
        entry = {"key": key, "plan": plan, **lay_to_json(lay), **({} if like is None else {"like": like})}
        line = one_line(entry).encode() + b"\n"
        if not self._written_to:
            self._check_writable()
        with self._writing(self.journal):
            self.journal.parent.mkdir(parents=True, exist_ok=True)
            with alone_in(self.journal.parent):
                self._append(line)
        if not self._written_to:
            to_disk(self.journal.parent)
            self._written_to = True
        self._remember(entry, str(self.journal))

    def compact(self, keep: Iterable[str] | None = None, *, makers: Mapping[str, Json] | None = None) -> None:
        """Write all lays, or only those under the keys to ``keep``, into lays.json; the journal goes.

        ``makers`` says what the stamps in the header mean. Does not touch a file that would stay the same. What
        another process has kept meanwhile stays, whatever is to be kept of one's own. Raises: :class:`StoreDamaged`.
        """
        kept = self._entries if keep is None else {key: self._entries[key] for key in keep if key in self._entries}
        with self._writing(self.path), alone_in(self.path.parent):
            others = {entry["key"]: entry for entry, _ in self._there() if entry["key"] not in self._entries}
            kept = {**kept, **others}
            text = written(kept.values(), makers or {})
            with self._reading(self.path):
                content = content_of(self.path, links=True)
            if content is None or content.decode("utf-8", "replace").replace("\r\n", "\n") != text:
                self._check_writable()
                with self._writing(self.path):
                    self._replace(text)
            with self._writing(self.journal):
                self.journal.unlink(missing_ok=True)
        self._entries, self._by_plan, self._where = {}, {}, {}
        for entry in kept.values():
            self._remember(entry, str(self.path))

    def _there(self) -> list[tuple[Json, str]]:
        """The lays on the disk, each with its place. The journal is read first: lays move from it to the file."""
        of_journal = self._of_journal()
        return [*self._of_file(), *of_journal]

    def _append(self, line: bytes) -> None:
        self._drop_torn_line()
        with self.journal.open("ab") as file:
            before = file.tell()
            try:
                file.write(line)
                file.flush()
                os.fsync(file.fileno())
            except OSError:
                with contextlib.suppress(OSError):
                    file.truncate(before)  # a disk that is full takes half a line
                raise

    def _replace(self, text: str) -> None:
        """Write a new file beside the old one and put it in its place in one step."""
        new = self.path.with_name(self.path.name + ".new")
        new.unlink(missing_ok=True)  # of a run that was killed, or a link that others put there
        with new.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(new, self.path)
        to_disk(self.path.parent)

    def _check_writable(self) -> None:
        """Say it before hours of solving that a file may not be written, and that a link would be written through."""
        with self._reading(self.journal):
            content_of(self.journal, links=False)
        for path in (self.path, self.journal):
            with self._writing(path), contextlib.suppress(FileNotFoundError):
                path.open("r+b").close()

    def _of_file(self) -> list[tuple[Json, str]]:
        with self._reading(self.path):
            content = content_of(self.path, links=True)
            rows = [] if content is None else read(rows_of(text_of(content)))
        return [(entry, str(self.path) if line is None else f"{self.path}:{line}") for entry, line in rows]

    def _of_journal(self) -> list[tuple[Json, str]]:
        """The lays of the journal but for a last line that was torn while it was written.

        The torn line goes when the next lay is kept: another process may be writing it at this moment.
        """
        found = []
        with self._reading(self.journal, mend=_MEND_LINE):
            content = content_of(self.journal, links=False) or b""
            whole = content[: content.rfind(b"\n") + 1]
            for number, line in enumerate(whole.split(b"\n")[:-1], start=1):
                try:
                    row = value_of(text_of(line.removesuffix(b"\r")))
                    entry = checked(from_version_1(row) if isinstance(row, dict) else {})
                except NotALayFile as error:
                    raise NotALayFile(f"not readable ({error})", number) from error
                except KeyError as error:
                    raise NotALayFile(f"a lay makes no sense (it has no {error})", number) from error
                except (TypeError, ValueError) as error:
                    raise NotALayFile(f"not readable ({error})", number) from error
                found.append((entry, f"{self.journal}:{number}"))
        self._whole_journal = len(whole) if len(whole) < len(content) else None
        return found

    def _drop_torn_line(self) -> None:
        """Cut off the line that was torn when the journal was read, unless its writer has ended it since."""
        if self._whole_journal is not None and self.journal.exists():
            with self.journal.open("r+b") as file:
                file.seek(self._whole_journal)
                if b"\n" not in file.read():
                    file.truncate(self._whole_journal)
        self._whole_journal = None

    @contextlib.contextmanager
    def _reading(self, path: Path, mend: str = _MEND) -> Iterator[None]:
        try:
            yield
        except NotALayFile as error:
            where, how = (str(path), _MEND) if error.line is None else (f"{path}:{error.line}", mend)
            raise StoreDamaged(f"{where}: {error}; {how}") from error

    @contextlib.contextmanager
    def _writing(self, path: Path) -> Iterator[None]:
        try:
            yield
        except OSError as error:
            raise StoreDamaged(
                f"{path}: it can't be written ({error.strerror}); lays that were finished before are kept"
            ) from error

    def _remember(self, entry: Json, where: str) -> None:
        self._entries[entry["key"]] = entry
        self._where[entry["key"]] = where
        same = self._by_plan.setdefault(entry["plan"], [])
        if entry["key"] not in same:
            same.append(entry["key"])
