"""A process that makes lays: one JSON line in, one JSON line out.

In: ``{"name", "quality", "enough_mm", "like", "request"}``. Out: ``{"name", "lay"}`` or ``{"name", "error"}``, with
``"spent": true`` when the process went wrong and ends after it, and ``"memory"``, the most bytes that it took so far,
where the system tells. Run as ``python -m boltside.lay.worker``.
"""

import json
import os
import sys
from typing import TextIO

from .codec import Json, lay_from_json, lay_to_json, one_line, request_from_json
from .memory import MEMORY_LIMIT_BYTES, limit_memory, peak_memory_bytes
from .model import LayError
from .solve import solve


def answer(line: str) -> Json:
    """The answer to one line. Never raises: whatever goes wrong becomes the error of that lay."""
    order: Json = {}
    try:
        order = json.loads(line)
        request = request_from_json(order["request"])
        like = [lay_from_json(lay) for lay in order.get("like", ())]
        lay = solve(request, order["quality"], enough_mm=float(order.get("enough_mm", 0.0)), like=like)
        return {"name": order["name"], "lay": lay_to_json(lay)}
    except LayError as error:
        return {"name": order.get("name"), "error": str(error)}
    except MemoryError:
        said = f"the solver wanted more than the {MEMORY_LIMIT_BYTES / 1e9:g} GB of memory that it may take"
        return {"name": order.get("name"), "error": said, "spent": True}
    except (KeyboardInterrupt, SystemExit):
        raise
    except BaseException as error:  # a library's panic is no Exception; nobody knows what state it left behind
        return {"name": order.get("name"), "error": f"{type(error).__name__}: {error}", "spent": True}


def serve(orders: TextIO, answers: TextIO) -> None:
    """Answer line after line until the orders end or the process is spent."""
    for line in orders:
        reply = answer(line)
        reply["memory"] = peak_memory_bytes()
        answers.write(one_line(reply) + "\n")
        answers.flush()
        if reply.get("spent"):
            os._exit(0)  # nobody knows what still goes on in it


def main() -> None:
    """Serve on the standard streams, with little memory, and with answers that no library can print into."""
    limit_memory()
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "w", encoding="utf-8", newline="\n")
    with open(os.devnull, "wb") as nowhere:
        os.dup2(nowhere.fileno(), sys.stdout.fileno())
    with open(sys.stdin.fileno(), encoding="utf-8", closefd=False) as orders:
        serve(orders, answers)


if __name__ == "__main__":
    main()
