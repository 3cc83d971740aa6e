"""Are these choices offered together, and if not, what is the smallest change that is?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .choices import HARD, ChoiceJson, RuleJson, allowed, broken, completed, decisive
from .conditions import SIZE
from .fragments import Fragment, Said, joined, quoted, say
from .garments import garments
from .problems import problem
from .request import SECOND, Request, Sheet

MOST_CHANGES = 2
"""So many ways out are named; more would be a list to study. Our choice."""
MOST_PAIRS = 200
"""So many pairs of changes are tried, which a phone does in no time. Our choice."""
UNSAID = "These choices are not offered together."
"""Said where the designer gives no reason."""


def choice_fragments(request: Request) -> list[Fragment]:
    """One fragment for each choice."""
    return [one_choice(request, choice) for choice in request.sheet["choices"]]


def one_choice(request: Request, choice: ChoiceJson) -> Fragment:
    """Fragment `choice.<choice>`: whether it is asked now, and what counts as chosen.

    One that is not asked says nothing; a word that is not offered is a problem.
    """
    name = choice["name"]
    depends_on = request.depends([{name: []}], size=False)
    word = request.words.get(name, "")
    taken = next((one.chosen[name] for one in garments(request) if name in one.chosen), None)
    titles = {alternative["name"]: alternative["title"] for alternative in choice["alternatives"]}
    data = {"asked": taken is not None, "chosen": taken}
    if taken is None:
        return Fragment(name=f"choice.{name}", kind="sentence", data=data, depends_on=depends_on)
    if word and word != taken:
        said = say(f"{choice['title']}: {quoted(word)} is not offered here; reckoned with “{titles[taken]}”.")
        return problem(f"choice.{name}", "unknown-alternative", said, depends_on, **data)
    said = say(f"{choice['title']}: {titles[taken]}")
    return Fragment(name=f"choice.{name}", kind="sentence", said=said, data=data, depends_on=depends_on)


def choices_fragment(request: Request) -> Fragment:
    """Fragment `choices`: silent where the combination is offered, else why not and what to change.

    It depends on every choice that a hard rule asks about, because the way out must be offered as well.
    """
    sheet, wanted = request.sheet, garments(request)
    hard = [rule for rule in sheet["rules"] if any(rule.get(kind) is not None for kind in HARD)]
    conditions = [part for rule in hard for part in (rule["when"], rule.get("needs") or [], rule.get("excludes") or [])]
    about_size = any(rule.get("only_sizes") is not None for rule in hard)
    depends_on = request.depends(*conditions, size=about_size)
    forbidden = [(one, against) for one in wanted if (against := broken(hard, one.chosen))]
    if not forbidden:
        found = [one for garment in wanted for one in blocked(sheet, hard, garment.chosen)]
        unlike = [one for at, one in enumerate(found) if one not in found[:at]]
        data: dict[str, Any] = {"allowed": True, "blocked": unlike}
        return Fragment(name="choices", kind="sentence", data=data, depends_on=depends_on)
    garment, against = forbidden[0]
    chosen, because = garment.chosen, reasons(against)
    # Of two garments the size is said where only one of them can't be sewn so.
    only = f"Size {garment.size}: " if len(forbidden) < len(wanted) else ""
    changes = [_of_request(request, garment, one) for one in smallest_changes(sheet, chosen, among=depends_on)]
    if len(wanted) > 1:
        changes = [one for one in changes if _mends_all(sheet, wanted, one)]
    data = {
        "allowed": False,
        "because": because,
        "changes": [{"choice": name, "alternative": alternative} for name, alternative in changes],
        "together": False,
    }
    if not changes:
        together = two_changes(sheet, chosen, among=depends_on)
        data["changes"] = [{"choice": name, "alternative": alternative} for name, alternative in together]
        data["together"] = bool(together)
        offer = _offer(sheet, together, between=" and ")
    else:
        offer = _offer(sheet, changes)
    said = joined([*(say(only if at == 0 else "", reason) for at, reason in enumerate(because)), offer])
    return problem("choices", "forbidden-choices", said, depends_on, **data)


def _of_request(request: Request, garment: Request, change: tuple[str, str]) -> tuple[str, str]:
    """A change of one garment's size as a change of the size, or second size, that was asked for."""
    name, word = change
    return (SECOND, word) if name == SIZE and garment.size != request.size else change


def _mends_all(sheet: Sheet, wanted: Sequence[Request], change: tuple[str, str]) -> bool:
    """Whether a change leaves nothing forbidden for any of the garments; another size mends only its own."""
    name, word = change
    if name in (SIZE, SECOND):
        return True
    return all(allowed(sheet["choices"], sheet["rules"], {**one.chosen, name: word}) for one in wanted)


def reasons(against: Sequence[RuleJson]) -> list[str]:
    """Why these rules forbid, in the designer's words, each once."""
    return list(dict.fromkeys(rule["because"] or UNSAID for rule in against))


def blocked(sheet: Sheet, hard: Sequence[RuleJson], chosen: Mapping[str, str]) -> list[dict[str, Any]]:
    """The alternatives that would not go together with the rest of what is chosen, with the reason for each.

    Arguments: the sheet; its hard rules; a completed set of choices that is allowed.
    """
    found = []
    for choice in sheet["choices"]:
        name = choice["name"]
        for one in choice["alternatives"] if name in chosen else ():
            if one["name"] != chosen[name]:
                against = broken(hard, completed(sheet["choices"], {**chosen, name: one["name"]}))
                if against:
                    found.append({"choice": name, "alternative": one["name"], "because": reasons(against)})
    return found


def smallest_changes(sheet: Sheet, chosen: Mapping[str, str], among: tuple[str, ...]) -> list[tuple[str, str]]:
    """Single changes that make the combination allowed, the smallest first.

    Arguments: the sheet; a completed set of choices; the names that may be changed. The size, which the child
    decides, is changed only where no choice helps, and then to the nearest.
    Returns: (choice, alternative), one for each choice, at most :data:`MOST_CHANGES`.
    """
    choices, rules = sheet["choices"], sheet["rules"]
    found: list[tuple[int, str, str]] = []
    for name, words in _changeable(sheet, chosen, among):
        ways_out = [(minutes, name, word) for word, minutes in words if allowed(choices, rules, {**chosen, name: word})]
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


def two_changes(sheet: Sheet, chosen: Mapping[str, str], among: tuple[str, ...]) -> list[tuple[str, str]]:
    """The two changes, made together, that change the sewing time least and make the combination allowed.

    Arguments as for :func:`smallest_changes`. Returns two of (choice, alternative), or nothing.
    """
    choices, rules = sheet["choices"], sheet["rules"]
    single = [(name, word, minutes) for name, words in _changeable(sheet, chosen, among) for word, minutes in words]
    pairs = sorted(
        (one[2] + other[2], at, then)
        for at, one in enumerate(single)
        for then, other in enumerate(single[at + 1 :], at + 1)
        if one[0] != other[0]
    )
    for _, at, then in pairs[:MOST_PAIRS]:
        changed = dict(one[:2] for one in (single[at], single[then]))
        if allowed(choices, rules, {**chosen, **changed}):
            return list(changed.items())
    return []


def _changeable(
    sheet: Sheet, chosen: Mapping[str, str], among: tuple[str, ...]
) -> list[tuple[str, list[tuple[str, int]]]]:
    """The choices whose change can help, with their other alternatives and by how many minutes these differ.

    Only a choice that a broken rule asks about, or that decides whether such a choice is asked, can help.
    """
    against = broken(sheet["rules"], chosen)
    helping = decisive(
        sheet["choices"],
        [part for rule in against for part in (rule["when"], rule.get("needs") or [], rule.get("excludes") or [])],
    )
    found = []
    for choice in sheet["choices"]:
        name = choice["name"]
        if name in chosen and name in among and name in helping:
            minutes = {one["name"]: one["minutes"] for one in choice["alternatives"]}
            others = [(word, abs(minutes[word] - minutes[chosen[name]])) for word in minutes if word != chosen[name]]
            found.append((name, others))
    return found


def _offer(sheet: Sheet, changes: list[tuple[str, str]], between: str = ", or ") -> Said:
    if not changes:
        return say("No small change mends it: start again from the usual choices.")
    titles: dict[str, Any] = {choice["name"]: choice for choice in sheet["choices"]}
    offers = []
    for name, word in changes:
        if name in (SIZE, SECOND):
            offers.append(f"size {word}" if name == SIZE else f"size {word} as the second one")
        else:
            alternatives = {one["name"]: one["title"] for one in titles[name]["alternatives"]}
            offers.append(f"“{alternatives[word]}” under {titles[name]['title']}")
    return say(f"Choose {between.join(offers)}.")
