"""Which scripts does a page load? Ours, without what only people read: lines that hold nothing but a comment.

Nothing else of a script is changed, so that what runs is what was written, and line for line what a developer sees.
"""

from __future__ import annotations

import re

TICK = re.compile(r"\\.|`")


def small_script(script: str) -> str:
    """A script without its lines of comment, and without what stands before and behind the others.

    What stands between backticks may run over several lines and stays as it is. Our scripts hold no backtick in
    other texts or in comments behind code (a test looks).
    """
    kept: list[str] = []
    within = False
    for line in script.split("\n"):
        if not within and (not line.strip() or line.lstrip().startswith("//")):
            continue
        begins_within = within
        within ^= TICK.findall(line).count("`") % 2 == 1
        kept.append(line if begins_within or within else line.strip())
    return "\n".join(kept) + "\n"
