"""Steps, their conditions, and headings that are none."""

from __future__ import annotations

from boltside.read.collect import Problems
from boltside.read.steps import StepText, read_steps


def steps_of(text: str) -> tuple[str, tuple[StepText, ...], list[str]]:
    problems = Problems()
    guide = read_steps(text, "steps.md", problems)
    return guide.introduction, guide.steps, [f"{one.line}:{one.column} {one.code}" for one in problems.found]


def test_introduction_and_steps() -> None:
    introduction, steps, noted = steps_of(
        "# Guide\n\nFirst *this*.\n\n## One\nText.\n\n### Inner\n\n## Two ##\nwhen: {a: b}\nMore."
    )
    assert noted == []
    assert introduction == "First *this*."
    assert [(step.title, step.text, step.when) for step in steps] == [
        ("One", "Text.\n\n### Inner", None),
        ("Two", "More.", [{"a": ["b"]}]),
    ]


def test_headings_in_code_are_text() -> None:
    _, steps, noted = steps_of("## One\n```\n## not a step\n```\n~~~\n## nor this\n```\n~~~\n## Two\n")
    assert noted == []
    assert [step.title for step in steps] == ["One", "Two"]


def test_when_somewhere_else_is_text() -> None:
    _, steps, _ = steps_of("## One\n\nwhen: it rains, wait.\n")
    assert steps[0].when is None
    assert steps[0].text == "when: it rains, wait."


def test_broken_conditions_are_placed_in_the_file() -> None:
    assert steps_of("## One\nwhen: {a: [b}\n")[2] == ["2:11 syntax"]
    assert steps_of("## One\nwhen: {a: 1}\n")[2] == ["2:7 wrong-value"]
    assert steps_of("## One\nwhen: always\n")[2] == ["2:7 wrong-value"]
