"""Are these choices offered together, and if not, what is the smallest change that is?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .choices import HARD, allowed, broken, completed
from .conditions import SIZE
from .fragments import Fragment, Said, joined, quoted, say
from .problems import problem
from .request import Request, Sheet

MOST_CHANGES = 2
"""So many ways out are named; more would be a list to study. Our choice."""


def choice_fragments(request: Request) -> list[Fragment]:
    """One fragment for each choice: whether it is asked now, and what counts as chosen.

    The fragment of a choice that is not asked says nothing; a word that is not offered is a problem.
    """
    fragments = []
    for choice in request.sheet["choices"]:
        name = choice["name"]
        depends_on = request.depends([{name: []}], size=False)
        word, taken = request.words.get(name, ""), request.chosen.get(name)
        titles = {alternative["name"]: alternative["title"] for alternative in choice["alternatives"]}
        data = {"asked": taken is not None, "chosen": taken}
        if taken is None:
            fragments.append(Fragment(name=f"choice.{name}", kind="sentence", data=data, depends_on=depends_on))
        elif word and word != taken:
            said = say(f"{choice['title']}: {quoted(word)} is not offered here; reckoned with “{titles[taken]}”.")
            fragments.append(problem(f"choice.{name}", "unknown-alternative", said, depends_on, **data))
        else:
            said = say(f"{choice['title']}: {titles[taken]}")
            fragments.append(
                Fragment(name=f"choice.{name}", kind="sentence", said=said, data=data, depends_on=depends_on)
            )
    return fragments


def choices_fragment(request: Request) -> Fragment:
    """Fragment `choices`: silent where the combination is offered, else why not and what to change.

    It depends on every choice that a hard rule asks about, because the way out must be offered as well.
    """
    sheet, chosen = request.sheet, request.chosen
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    conditions = [part for rule in hard for part in (rule["when"], rule.get("needs") or [], rule.get("excludes") or [])]
    about_size = any(rule.get("only_sizes") is not None for rule in hard)
    depends_on = request.depends(*conditions, size=about_size)
    against = broken(hard, chosen)
    if not against:
        return Fragment(name="choices", kind="sentence", data={"allowed": True}, depends_on=depends_on)
    because = list(dict.fromkeys(rule["because"] or "These choices are not offered together." for rule in against))
    changes = smallest_changes(sheet, chosen, among=depends_on)
    data = {
        "allowed": False,
        "because": because,
        "changes": [{"choice": name, "alternative": alternative} for name, alternative in changes],
    }
    said = joined([*(say(reason) for reason in because), _offer(sheet, changes)])
    return problem("choices", "forbidden-choices", said, depends_on, **data)


def smallest_changes(sheet: Sheet, chosen: Mapping[str, str], among: tuple[str, ...]) -> list[tuple[str, str]]:
    """Single changes that make the combination allowed, the smallest first.

    Arguments: the sheet; a completed set of choices; the names that may be changed. The size, which the child
    decides, is changed only where no choice helps, and then to the nearest.
    Returns: (choice, alternative), one for each choice, at most :data:`MOST_CHANGES`.
    """
    choices, rules = sheet["choices"], sheet["rules"]
    found: list[tuple[int, str, str]] = []
    for choice in choices:
        name = choice["name"]
        if name not in chosen or name not in among:
            continue
        minutes = {alternative["name"]: alternative["minutes"] for alternative in choice["alternatives"]}
        ways_out = [
            (abs(minutes[word] - minutes[chosen[name]]), name, word)
            for word in minutes
            if word != chosen[name] and allowed(choices, rules, {**chosen, name: word})
        ]
        found += sorted(ways_out, key=lambda way_out: way_out[0])[:1]
    if not found and SIZE in chosen:
        sizes = list(sheet["sizes"])
        here = sizes.index(chosen[SIZE])
        found = [
            (abs(at - here), SIZE, size)
            for at, size in enumerate(sizes)
            if at != here and allowed(choices, rules, completed(choices, {**chosen, SIZE: size}))
        ]
        found = sorted(found, key=lambda way_out: way_out[0])[:1]
    found.sort(key=lambda way_out: way_out[0])
    return [(name, word) for _, name, word in found[:MOST_CHANGES]]


def _offer(sheet: Sheet, changes: list[tuple[str, str]]) -> Said:
    if not changes:
        return say("No single change mends it: start again from the usual choices.")
    titles: dict[str, Any] = {choice["name"]: choice for choice in sheet["choices"]}
    offers = []
    for name, word in changes:
        if name == SIZE:
            offers.append(f"size {word}")
        else:
            alternatives = {one["name"]: one["title"] for one in titles[name]["alternatives"]}
            offers.append(f"“{alternatives[word]}” under {titles[name]['title']}")
    return say(f"Choose {', or '.join(offers)}.")
