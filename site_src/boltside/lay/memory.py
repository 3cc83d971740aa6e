"""How much memory may a process that makes lays take, and how much did it take?

A search that goes wrong must fail its own lay and not the computer. What holds where:

* Linux: the system refuses more data (``RLIMIT_DATA``, which counts what may be written to; the address space,
  ``RLIMIT_AS``, also counts what is only set aside, such as the stacks of threads).
* macOS knows that limit but does not enforce it: a thread looks at the peak and ends the process.
* Windows has neither; there the time-out alone ends such a search, and the peak is not known.
"""

import os
import sys
import threading
import time
from pathlib import Path
from typing import Final

MEMORY_LIMIT_BYTES: Final = 1_000_000_000
"""A worker takes 130 to 270 MB on the demo's patterns; four of them under this limit fit into 4 GB. Our choice."""

EXIT_OUT_OF_MEMORY: Final = 77
"""A process that took too much ends with this code. Any that nothing else uses would do."""

_LOOK_EVERY_S: Final = 0.2
_BYTES_A_KB: Final = 1024


def limit_memory(limit_bytes: int = MEMORY_LIMIT_BYTES) -> None:
    """Hold this process to so many bytes, as far as the system can: see above."""
    if sys.platform == "linux":
        import resource

        hard = resource.getrlimit(resource.RLIMIT_DATA)[1]
        soft = limit_bytes if hard == resource.RLIM_INFINITY else min(limit_bytes, hard)
        resource.setrlimit(resource.RLIMIT_DATA, (soft, hard))
    elif sys.platform != "win32":
        threading.Thread(target=watch_memory, args=(limit_bytes,), daemon=True).start()


def watch_memory(limit_bytes: int) -> None:
    """End the process once it took more; never returns where the peak is known."""
    while (peak_bytes := peak_memory_bytes()) is not None:
        if peak_bytes > limit_bytes:
            os._exit(EXIT_OUT_OF_MEMORY)
        time.sleep(_LOOK_EVERY_S)


def peak_memory_bytes() -> int | None:
    """The most memory that this process took so far, or None where the system does not tell."""
    if sys.platform == "linux":
        # Not ru_maxrss: there a process begins with the peak of the one that started it.
        try:
            status = Path("/proc/self/status").read_text(encoding="ascii", errors="replace")
        except OSError:
            return None
        peaks = [line.split()[1] for line in status.splitlines() if line.startswith("VmHWM:")]
        return int(peaks[0]) * _BYTES_A_KB if peaks else None
    if sys.platform == "win32":
        return None
    import resource

    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak if sys.platform == "darwin" else peak * _BYTES_A_KB  # macOS counts bytes, others kilobytes
