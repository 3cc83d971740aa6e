"""For all tests: no time limit on single examples, because a busy machine is no failure."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
