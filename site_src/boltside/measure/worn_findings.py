"""What has the designer to know of what is pulled on, and of elastic: too tight, too narrow a channel, a figure off?"""

from __future__ import annotations

from collections.abc import Iterator

from boltside.calculators.elastic import STRETCHED
from boltside.measure.channels import LEAST_MORE_MM, USUAL_MORE_MM, channel_cases
from boltside.measure.finding import Finding, Path, told
from boltside.measure.limbs import girths_mm
from boltside.measure.pull_on import HEAD, body_mm, pull_on_cases, room_mm
from boltside.pattern import Condition, Notion, Pattern, PullOn, RingRule

TABLED_OFF = 0.05
"""A tabled length that differs from its rule by a larger part of it is told to the designer. Our choice."""
PRESSES = 1.15
"""What stretches an elastic by more presses the skin. From memory."""
TYPED = ("chest", "waist", "hip")
"""Girths that a buyer can type, so that the page tells her how long her child's elastic is."""
WITHIN_MM = 0.5
"""What misses by less rounds to it."""


def pull_on_findings(pattern: Pattern, at: int, ring: PullOn) -> Iterator[tuple[Finding, str]]:
    """Where the ring is too tight to be pulled on, each with its size. Raises: MeasureError."""
    for case in pull_on_cases(pattern, ring):
        for size, mm in case.by_size.items():
            body = body_mm(pattern, ring, size)
            if body is None or mm >= body + room_mm(ring) - WITHIN_MM:
                continue
            whose = " at P97" if ring.over == HEAD else ""
            yield Finding(
                code="too-tight-to-pull-on",
                path=("pull_on", at),
                seen=f"`{ring.name}` opens to {mm:.0f} mm for a {ring.over} of {body:.0f} mm{whose}, "
                f"{body + room_mm(ring) - mm:.0f} mm too little {told(choices(case.when), size)}",
                expected=f"at least {body + room_mm(ring):.0f} mm, {room_mm(ring):g} mm more than the {ring.over}",
                mend="widen it, lengthen the slit, or say in `stretches_to` how far the cloth stretches",
                severity="warning",
            ), size


def elastic_findings(pattern: Pattern, at: int, notion: Notion) -> Iterator[tuple[Finding, str]]:
    """Channels that are too narrow, elastic that does not go on or does not hold, figures that are off."""
    path: Path = ("notions", at)
    for case in channel_cases(pattern, notion):
        for size, mm in case.by_size.items():
            found = _channel(path, notion, mm, told(choices(case.when), size))
            if found is not None:
                yield found, size
    rule = notion.rule
    if not isinstance(rule, RingRule):
        return
    for size in pattern.sizes:
        row = pattern.body_chart.rows[size]
        if rule.body not in row:
            continue
        closed_by_rule = row[rule.body] * rule.factor - rule.minus_mm
        more = rule.overlap_mm + 2 * rule.tail_mm
        tabled = notion.tabled_mm.get(size)
        closed = closed_by_rule if tabled is None else tabled - more
        if tabled is not None and abs(tabled - closed_by_rule - more) > TABLED_OFF * (closed_by_rule + more):
            yield Finding(
                code="tabled-elastic-off",
                path=(*path, "tabled_mm"),
                seen=f"`{notion.name}` {tabled:g} mm, by the rule {closed_by_rule + more:.0f} mm, in size {size}",
                expected="figures that agree within 5 %",
                mend="look at both; if the tabled one is meant, leave it, for it wins",
                severity="advice",
            ), size
        for body in notion.passes:
            if body in row and closed * STRETCHED < row[body] - WITHIN_MM:
                yield Finding(
                    code="elastic-does-not-fit",
                    path=path,
                    seen=f"`{notion.name}` stretched to {closed * STRETCHED:.0f} mm, {STRETCHED:g} times its length, "
                    f"for a {body} of {row[body]:g} mm in size {size}",
                    expected=f"an elastic that passes the {body}",
                    mend="make it longer, or leave an opening",
                    severity="warning",
                ), size
        for_all = _for_all(path, notion, pattern, closed, rule.body, size)
        if for_all is not None:
            yield for_all, size
        if rule.factor == 1 and closed > row[rule.body] + WITHIN_MM:
            yield Finding(
                code="elastic-does-not-fit",
                path=path,
                seen=f"`{notion.name}` {closed:.0f} mm closed round a {rule.body} of {row[rule.body]:g} mm "
                f"in size {size}",
                expected=f"a ring that is no longer than the {rule.body}, so that it holds",
                mend="make it shorter",
                severity="warning",
            ), size


def _for_all(path: Path, notion: Notion, pattern: Pattern, closed: float, body: str, size: str) -> Finding | None:
    """An elastic that is slack on the slimmest children of the height, or presses the sturdiest.

    Where no one length does for all, the sturdiest count: a slack elastic can be taken in. Of girths that a buyer can
    type nothing is said then, for the page tells her how long to cut it.
    """
    girths = girths_mm(pattern.body_chart, size, body)
    if girths is None:
        return None
    small, large = girths
    least = large / PRESSES
    slack, presses = closed > small + WITHIN_MM, closed < least - WITHIN_MM
    if (not presses and (not slack or least > small)) or (least > small and body in TYPED):
        return None
    does = [f"slack on {small:.0f} mm (P5)"] if slack else []
    if presses:
        does.append(f"stretched by {100 * (large / closed - 1):.0f} % on {large:.0f} mm (P95)")
    most = f"{100 * (PRESSES - 1):.0f} %"
    which = f": {least:.0f} to {small:.0f} mm" if least <= small else ", which no one length does here"
    return Finding(
        code="elastic-not-for-all",
        path=path,
        seen=f"`{notion.name}` {closed:.0f} mm closed, {' and '.join(does)}: the {body} of children of this height, "
        f"in size {size}",
        expected=f"a ring that holds on the slimmest and is stretched by {most} at most on the sturdiest{which}",
        mend="change it, or say in a step that it is tried on before it is closed",
        severity="warning" if presses else "advice",
    )


def _channel(path: Path, notion: Notion, mm: float, where: str) -> Finding | None:
    wide = notion.width_mm or 0.0
    if mm >= wide + USUAL_MORE_MM:
        return None
    refused = mm < wide + LEAST_MORE_MM
    more = LEAST_MORE_MM if refused else USUAL_MORE_MM
    return Finding(
        code="channel-too-narrow" if refused else "channel-narrow",
        path=(*path, "channel"),
        seen=f"a channel {mm:g} mm high for `{notion.name}`, {wide:g} mm wide, {where}",
        expected=f"at least {wide + more:g} mm, {more:g} mm more than the elastic",
        mend="make the channel higher, or take a narrower elastic",
        severity="error" if refused else "advice",
    )


def choices(when: Condition) -> dict[str, str]:
    """The choices of a case as words, several alternatives joined."""
    return {name: " or ".join(words) for mapping in when[:1] for name, words in mapping.items()}
