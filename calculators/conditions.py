"""Does a condition hold for what was chosen?

A condition is a list of mappings, *any of* them; a mapping holds when for *every* name in it the chosen word is
among the words listed. The empty list means *always*. The word ``size`` stands for the size. There is no
expression language, so there is nothing else to know.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

ConditionJson = Sequence[Mapping[str, Sequence[str]]]
"""A condition as the spec sheet holds it, or as :data:`boltside.pattern.Condition`; both work everywhere here."""

SIZE = "size"
"""The name under which the size stands in a set of choices."""


def holds(condition: ConditionJson, chosen: Mapping[str, str]) -> bool:
    """True when the condition holds.

    Arguments: the condition; what was chosen, choice name to alternative name, with ``size`` where it is known.
    A name that is absent from ``chosen`` never holds.

    >>> holds([], {}), holds([{"length": ["hip"]}], {"length": "hip"}), holds([{"length": ["hip"]}], {})
    (True, True, False)
    >>> holds([{"length": ["hip"]}, {"sleeves": ["long", "short"]}], {"length": "waist", "sleeves": "long"})
    True
    """
    if not condition:
        return True
    for mapping in condition:
        for name, words in mapping.items():
            if chosen.get(name) not in words:
                break
        else:
            return True
    return False


def names_in(condition: ConditionJson) -> tuple[str, ...]:
    """The names that the condition asks about, sorted.

    >>> names_in([{"length": ["hip"]}, {"sleeves": ["long"], "length": ["waist"]}])
    ('length', 'sleeves')
    """
    return tuple(sorted({name for mapping in condition for name in mapping}))


def names_in_all(conditions: Iterable[ConditionJson]) -> tuple[str, ...]:
    """The names that any of the conditions asks about, sorted."""
    return tuple(sorted({name for condition in conditions for name in names_in(condition)}))
