"""Broken folders, continued: cloth plans, and stretch against the grain. As `cases.py`."""

from __future__ import annotations

from typing import Final

from .cases import YAML, Broken

PLANS: Final = (
    Broken(
        name="stretch against the grain of a knit",
        code="stretch-off-grain",
        changes={
            YAML: (
                ("  outer: {title: Outer cloth, kinds: [woven]", "  outer: {title: Outer cloth, kinds: [woven, knit]"),
                ("  front:\n    title: Front\n", "  front:\n    title: Front\n    stretch: along\n"),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:42:14: [stretch-off-grain] "
                "seen `stretch: along` of `front` with the grain lengthwise; "
                "expected the greatest stretch across the grain line, as it runs on `outer`; "
                "write `stretch: across`, or change `grain`"
            ),
        ),
    ),
    Broken(
        name="cloth plan with an unknown choice",
        code="unknown-choice",
        changes={
            YAML: (
                (
                    "roles:\n",
                    "cloth_plans:\n"
                    "  plain: {title: Plain, choices: {bands: none}}\n"
                    "  banded: {title: Banded, choices: {band: two}}\n"
                    "roles:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:37:35: [unknown-choice] "
                "seen the choice `bands`; "
                "expected one of `opening`, `band`, `hem`; "
                "did you mean `band`?"
            ),
        ),
    ),
    Broken(
        name="cloth plan with an unknown alternative",
        code="unknown-alternative",
        changes={
            YAML: (
                (
                    "roles:\n",
                    "cloth_plans:\n"
                    "  plain: {title: Plain, choices: {band: none}}\n"
                    "  banded: {title: Banded, choices: {band: [two, three]}}\n"
                    "roles:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:38:49: [unknown-alternative] "
                "seen the alternative `three` of `band`; "
                "expected one of `none`, `two`; "
                "correct the name"
            ),
        ),
    ),
    Broken(
        name="cloth plan that says too little",
        code="missing-key",
        changes={
            YAML: (
                (
                    "roles:\n",
                    "cloth_plans:\n"
                    "  plain: {title: Plain, choices: {band: none, opening: [front, back]}}\n"
                    "  banded: {title: Banded, choices: {band: two}}\n"
                    "roles:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:38:27: [missing-key] "
                "seen no `opening` in the plan, though it is asked with opening front, band two, size 80; "
                "expected the key `opening`, for another plan names it; "
                "add `opening:` with one of `front`, `back`"
            ),
        ),
    ),
    Broken(
        name="cloth plans that are alike",
        code="plans-alike",
        changes={
            YAML: (
                (
                    "roles:\n",
                    "cloth_plans:\n"
                    "  plain: {title: Plain, choices: {band: none}}\n"
                    "  banded: {title: Banded, choices: {band: [two, none]}}\n"
                    "roles:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:38:3: [plans-alike] "
                "seen the plan `banded`, which can be the chosen one together with `plain`; "
                "expected a choice of which no word stands in both; "
                "change one of them, or delete it"
            ),
        ),
    ),
    Broken(
        name="cloth plan that cannot be had",
        code="plan-impossible",
        changes={
            YAML: (
                (
                    "roles:\n",
                    "cloth_plans:\n"
                    "  plain: {title: Plain, choices: {band: none, opening: front}}\n"
                    "  banded: {title: Banded, choices: {band: two, opening: back}}\n"
                    "roles:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:38:3: [plan-impossible] "
                "seen the plan `banded`, which no size and no combination allows; "
                "expected choices that can be had together; "
                "change the plan, or a rule"
            ),
        ),
    ),
    Broken(
        name="cloth plan that moves nothing",
        code="plan-moves-nothing",
        changes={
            YAML: (
                (
                    "roles:\n",
                    "cloth_plans:\n"
                    "  plain: {title: Plain, choices: {band: none}}\n"
                    "  banded: {title: Banded, choices: {band: two}}\n"
                    "roles:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:37:35: [advice: plan-moves-nothing] "
                "seen `band`, which moves no piece from one cloth to another; "
                "expected a choice that decides from which cloth a piece is cut; "
                "delete it from the plans; it stays a choice of its own"
            ),
        ),
    ),
    Broken(
        name="a single cloth plan",
        code="wrong-value",
        changes={
            YAML: (
                (
                    "roles:\n",
                    "cloth_plans:\n"
                    "  plain: {title: Plain, choices: {band: none}}\n"
                    "roles:\n",
                ),
            )
        },
        messages=(
            (
                "patterns/plain/pattern.yaml:37:3: [wrong-value] "
                "seen a mapping; "
                "expected at least 2 of them; "
                "change it for `cloth_plans`"
            ),
        ),
    ),
)
