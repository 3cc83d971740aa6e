"""How is the plan of samples told? As a list to read, and as a table for a spreadsheet."""

from __future__ import annotations

import csv
import io
import textwrap
from collections.abc import Iterable, Sequence

from boltside.pages.words import lower_first
from boltside.samples.plan import Sample, SamplePlan
from boltside.samples.shown import Guide, Option, Pair, Step, Word

COLUMNS = ("garment", "size", "options", "shows", "what", "with")
"""The table's columns. `shows` is `film`, `option` or `pair`; each is there once, where it is first shown."""
WIDTH = 100
"""A line of the list is at most this long; our choice."""
INDENT = "   "
BETWEEN = "\N{NO-BREAK SPACE}| "
"""Between things of a row, some of which have commas of their own; no line begins with it."""


def plan_text(plan: SamplePlan) -> str:
    """The plan as plain text."""
    guide, samples = plan.guide, plan.samples
    takes = sum(len(sample.takes) for sample in samples)
    pairs = sum(len(sample.pairs) for sample in samples)
    head = f"{guide.title}: {_count(len(samples), 'garment')} and {_count(takes, 'take')} show every step"
    head += f" and all {pairs} pairs of options that meet." if pairs else " and every option."
    lines = [head, how_few(plan)]
    for number, sample in enumerate(samples, 1):
        garment = sample.garment
        lines += ["", f"{number}. Size {garment.size}. {_options(guide, garment.choices.items())}"]
        if sample.takes:
            titles = BETWEEN.join(step_words(step) for step in sample.takes)
            lines += [f"{INDENT}Film {_count(len(sample.takes), 'step')}: {titles}"]
        if number == 1:
            lines += [f"{INDENT}All of this is new{': each option, and any two of them together' if pairs else ''}."]
        else:
            lines += [f"{INDENT}{line}" for line in first_shown(guide, sample)]
    if plan.never:
        never = BETWEEN.join(step_words(step) for step in plan.never)
        lines += ["", f"No garment has these steps, whatever is chosen: {never}"]
    return "\n".join(_wrapped(line) for line in lines) + "\n"


def _wrapped(line: str) -> str:
    """The line over as many lines as it takes, those after the first indented further."""
    start = " " * (len(line) - len(line.lstrip()))
    whole = textwrap.fill(line, WIDTH, subsequent_indent=f"{start}{INDENT}", break_on_hyphens=False) if line else ""
    return whole.replace("\N{NO-BREAK SPACE}", " ")


def how_few(plan: SamplePlan) -> str:
    """Whether fewer garments would do, as far as it is proven."""
    more = len(plan.samples) - plan.at_least
    if not more:
        return "Fewer garments can't show all of it: that is proven."
    said = f"That is at most {_count(more, 'garment')} more than the fewest: {plan.at_least} are proven to be needed."
    return said if plan.whole else f"{said} The pattern has too many sets of options to look at all of them."


def first_shown(guide: Guide, sample: Sample) -> list[str]:
    """What a later garment is the first to show, line by line: new options, which meet all others here for the first
    time, and of the other options those that meet for the first time."""
    new = [one.word for one in sample.options]
    beside = ", each with all others here" if sample.pairs else ""
    lines = [f"New options{beside}: {_options(guide, new)}"] if new else []
    met: dict[Word, list[Word]] = {}
    for pair in sample.pairs:
        if pair.first not in new and pair.second not in new:
            met.setdefault(pair.first, []).append(pair.second)
    lines += [f"New together: {option_words(guide, one)} with {_options(guide, others)}" for one, others in met.items()]
    return lines


def _options(guide: Guide, words: Iterable[Word]) -> str:
    return BETWEEN.join(option_words(guide, word) for word in words) or "No options to choose."


def option_words(guide: Guide, word: Word) -> str:
    """A choice and its alternative, by the titles that buyers see."""
    choice = next(choice for choice in guide.choices if choice["name"] == word[0])
    title = next(one["title"] for one in choice["alternatives"] if one["name"] == word[1])
    return f"{choice['title']}: {lower_first(title)}"


def step_words(step: Step) -> str:
    """A step by its place among all steps of the guide, and its title."""
    return f"{step.at + 1} {step.title}"


def plan_rows(plan: SamplePlan) -> list[tuple[str, ...]]:
    """The plan as a table: a row for each thing, at the garment that is the first to show it."""
    rows: list[tuple[str, ...]] = []
    for number, sample in enumerate(plan.samples, 1):
        garment = sample.garment
        chosen = "; ".join(option_words(plan.guide, word) for word in garment.choices.items())
        start = (str(number), garment.size, chosen)
        things: Sequence[Step | Option | Pair] = [*sample.takes, *sample.options, *sample.pairs]
        for thing in things:
            if isinstance(thing, Step):
                told = ("film", step_words(thing), "")
            elif isinstance(thing, Option):
                told = ("option", option_words(plan.guide, thing.word), "")
            elif isinstance(thing, Pair):
                told = ("pair", option_words(plan.guide, thing.first), option_words(plan.guide, thing.second))
            rows.append((*start, *told))
    return rows


def plan_csv(plan: SamplePlan) -> str:
    """The table as CSV (RFC 4180)."""
    file = io.StringIO()
    csv.writer(file).writerows([COLUMNS, *plan_rows(plan)])
    return file.getvalue()


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
