"""How much thread does it take, about? An estimate from the length of all seams and hems.

A lockstitch takes 2.5 to 3 times the length of its seam, a three-thread overlock 12 to 14 times (both "from memory").

>>> thread_m(12_000), overlock_m(12_000), reels(45, 200), reels(201, 200)
(45, 170, 1, 2)
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .conditions import holds
from .fragments import Fragment, say
from .garments import FOR_BOTH, garments
from .request import Request
from .units import Shown

LOCKSTITCH = (2.5, 3)
OVERLOCK = (12, 14)
"""Thread for each metre of seam, in metres. From memory."""
MORE = 0.25
"""So much more is stitched twice or once more from the right side. Our choice."""
STEP_M = 5
OVERLOCK_STEP_M = 10
MM_PER_M = 1000
M_PER_YD = 0.9144


def sewn_mm(request: Request) -> float:
    """The length of all seams and hems of one garment, in mm."""
    size = request.size or ""
    return sum(one["mm"].get(size, 0) for one in request.sheet["sewn"] if holds(one["when"], request.chosen))


def thread_m(seams_mm: float) -> int:
    """Thread for a lockstitch in metres, at its most, rounded up to five."""
    return -int(-seams_mm * (1 + MORE) * LOCKSTITCH[1] / MM_PER_M // STEP_M) * STEP_M


def overlock_m(seams_mm: float) -> int:
    """Thread to overcast as much with a three-thread overlock in metres, at its most, rounded up to ten."""
    return -int(-seams_mm * OVERLOCK[1] / MM_PER_M // OVERLOCK_STEP_M) * OVERLOCK_STEP_M


def reels(metres: float, reel_m: float) -> int:
    """How many reels so much thread takes."""
    return max(1, -int(-metres // reel_m))


def one_thread(request: Request, notion: Mapping[str, Any]) -> Fragment:
    """Fragment `thread.<notion>`: about how much thread, and how many reels that is."""
    wanted = [one for one in garments(request) if holds(notion["when"], one.chosen)]
    depends_on = request.depends(notion["when"], *(one["when"] for one in request.sheet["sewn"]))
    name = f"thread.{notion['name']}"
    if not wanted:
        return Fragment(name=name, kind="sentence", depends_on=depends_on)
    total_mm = sum(sewn_mm(one) for one in wanted)
    much, over, count = thread_m(total_mm), overlock_m(total_mm), reels(thread_m(total_mm), notion["reel_m"])
    enough = f"a reel of {notion['reel_m']:g} m is" if count == 1 else f"{count} reels of {notion['reel_m']:g} m are"
    both = FOR_BOTH if len(wanted) > 1 else ""
    said = say("About ", _metres(much), f" of thread{both}: {enough} enough. Edges overcast with three threads take up"
               " to ", _metres(over), " more. An estimate from the length of all seams and hems.")  # fmt: skip
    data = {"sewn_mm": total_mm, "thread_m": much, "overlock_m": over, "reels": count}
    return Fragment(name=name, kind="sentence", said=said, data=data, depends_on=depends_on)


def _metres(metres: int) -> Shown:
    return Shown(f"{metres} m", f"{-int(-metres / M_PER_YD // STEP_M) * STEP_M} yd")
