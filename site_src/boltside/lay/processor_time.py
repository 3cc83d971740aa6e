"""How much processor time did another process take? On a busy computer that says more than a clock on the wall.

A lay takes seconds of processor time; where thirty programs share two cores, the same seconds take minutes. What holds
where:

* Linux tells in ``/proc``, to a hundredth of a second.
* Other systems with ``ps`` (macOS) tell to a hundredth or a full second, at the price of starting it.
* Windows tells only who holds the process's handle; there the clock on the wall is all that is looked at.
"""

import os
import subprocess
import sys
from pathlib import Path
from typing import Final

LOOK_EVERY_S: Final = 0.5 if sys.platform == "linux" else 5.0
"""How often it is worth asking: to read a file costs nothing, to start ``ps`` does."""

_PS_S: Final = 5.0
"""``ps`` answers within this time, or is not waited for."""


def processor_time_s(pid: int) -> float | None:
    """Seconds of processor time of a running process, all its threads together; None where that can't be told."""
    if sys.platform == "linux":
        return _from_proc(pid)
    if sys.platform == "win32":
        return None
    return seconds_of_ps(_said_by_ps(pid))


def _from_proc(pid: int) -> float | None:
    try:
        status = Path(f"/proc/{pid}/stat").read_text(encoding="ascii", errors="replace")
        # The name may hold blanks and brackets; behind its last bracket the third field of proc(5) follows.
        fields = status[status.rindex(")") + 1 :].split()
        user, system = int(fields[14 - 3]), int(fields[15 - 3])
        return (user + system) / os.sysconf("SC_CLK_TCK")
    except (OSError, ValueError, IndexError):
        return None


def _said_by_ps(pid: int) -> str:
    try:
        asked = subprocess.run(
            ["ps", "-o", "time=", "-p", str(pid)], capture_output=True, text=True, timeout=_PS_S, check=False
        )
    except (OSError, subprocess.SubprocessError):
        return ""
    return asked.stdout.strip()


def seconds_of_ps(said: str) -> float | None:
    """Seconds of what ``ps -o time=`` says: ``[[days-]hours:]minutes:seconds[.hundredths]``; None if it is no time.

    Source: POSIX.1-2017, ps, "time"; the hundredths are those of macOS.

    >>> seconds_of_ps("0:01.25"), seconds_of_ps("1-02:00:05"), seconds_of_ps("")
    (1.25, 93605.0, None)
    """
    days, _, clock = said.rpartition("-")
    try:
        total_s = float(days or 0) * 24 * 60 * 60
        for power, part in enumerate(reversed(clock.split(":"))):
            total_s += float(part) * 60**power
    except ValueError:
        return None
    return total_s
