"""What does the server show at this moment? One place that the builder fills and every open page waits on."""

from __future__ import annotations

import secrets
import threading
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, kw_only=True)
class Showing:
    """One state of the shop: its built folder, or a page to show instead of every page; sentences for all pages."""

    folder: Path | None = None
    instead: str | None = None
    notes: tuple[str, ...] = ()


class Shown:
    """The state shown now and its number; pages wait for a newer number."""

    def __init__(self, showing: Showing) -> None:
        self._changed = threading.Condition()
        # A page left open from an earlier run must not take this run's numbers for its own.
        self._run = secrets.token_hex(4)
        self._number = 0
        self._showing = showing
        self._closed = False

    def now(self) -> tuple[str, Showing]:
        """The number of the state shown now, as text, and that state."""
        with self._changed:
            return f"{self._run}.{self._number}", self._showing

    def show(self, showing: Showing) -> None:
        """Show another state and wake every page that waits."""
        with self._changed:
            self._showing = showing
            self._number += 1
            self._changed.notify_all()

    def wait_for_other(self, number: str, at_most_s: float) -> str:
        """Wait until another state than `number` is shown, or for `at_most_s` seconds; returns the number then."""
        with self._changed:
            self._changed.wait_for(lambda: self._closed or f"{self._run}.{self._number}" != number, at_most_s)
            return f"{self._run}.{self._number}"

    def close(self) -> None:
        """Let all waiting pages go."""
        with self._changed:
            self._closed = True
            self._changed.notify_all()

    @property
    def closed(self) -> bool:
        """Whether the server is being closed."""
        return self._closed
