"""What was asked: the request as it came, made safe, with defaults filled in.

Nothing here refuses; a word that does not fit is kept beside what is reckoned with instead, so that each calculator
can say so in its own place.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from .choices import completed, decisive
from .conditions import SIZE, ConditionJson
from .shop_cuts import cuts_of
from .typed import Unit
from .units import Cuts

Sheet = Mapping[str, Any]

SECOND = "second"
"""Where the size of a second garment, cut at once from the same cloth, stands among choices."""


@dataclass(frozen=True, kw_only=True)
class Request:
    """A request about one opened sheet.

    ``size`` is one of the sheet's sizes, or None if the one asked for is not (``size_typed``); ``second`` is that of a
    second garment with the same options, None where there is none (or ``second_typed`` is no size); ``chosen`` is the
    completed set of choices with the size; ``words`` what was asked for each choice, as it came; ``widths``,
    ``ways``, ``naps``, ``washes`` (with ``alongs`` and ``acrosses``), ``repeats`` (with ``everys`` and ``unevens``) and
    ``prices`` the text typed for each cloth; ``cuts`` how the shop cuts.
    """

    sheet: Sheet
    size: str | None
    size_typed: str
    second: str | None
    second_typed: str
    chosen: Mapping[str, str]
    words: Mapping[str, str]
    widths: Mapping[str, str]
    ways: Mapping[str, str]
    naps: Mapping[str, str]
    washes: Mapping[str, str]
    alongs: Mapping[str, str]
    acrosses: Mapping[str, str]
    repeats: Mapping[str, str]
    everys: Mapping[str, str]
    unevens: Mapping[str, str]
    prices: Mapping[str, str]
    cuts: Cuts
    unit: Unit
    kept: dict[str, Any] = field(default_factory=dict, init=False, compare=False, repr=False)
    """What has been found for this request, by who found it; a request that was changed begins anew."""
    shared: dict[Any, Any] = field(default_factory=dict, compare=False, repr=False)
    """What has been found for this and other requests about the same sheet, by all that it was found from."""

    def depends(self, *conditions: ConditionJson, size: bool = True) -> tuple[str, ...]:
        """The choices on which the conditions depend, sorted; `size` too where they ask about it, or if ``size``.

        Whatever depends on the size depends on that of a second garment too.
        """
        names = {*decisive(self.sheet["choices"], conditions), *([SIZE] if size else [])}
        return tuple(sorted({*names, *([SECOND] if SIZE in names else [])}))

    def always(self, name: str, find: Callable[[], tuple[str, ...]]) -> tuple[str, ...]:
        """What follows from the sheet alone, found once for all requests that share what they find."""
        if name not in self.shared:
            self.shared[name] = find()
        found: tuple[str, ...] = self.shared[name]
        return found


def read_request(sheet: Sheet, asked: Mapping[str, Any], shared: dict[Any, Any] | None = None) -> Request:
    """The request in `asked`, plain JSON, about the opened sheet. Missing parts take the sheet's defaults.

    Argument ``shared``: for many requests about one sheet, a place in which they keep what they find.
    """
    size_typed = word(asked.get("size"))
    size = (size_typed or usual_size(sheet)) if size_typed in ("", *sheet["sizes"]) else None
    second_typed = word(asked.get(SECOND))
    words = {name: word(value) for name, value in mapping(asked.get("choices")).items()}
    cloths = {name: mapping(value) for name, value in mapping(asked.get("cloths")).items()}
    chosen = {name: text for name, text in words.items() if name != SIZE}
    return Request(
        sheet=sheet,
        size=size,
        size_typed=size_typed,
        second=second_typed if second_typed in sheet["sizes"] else None,
        second_typed=second_typed,
        chosen=completed(sheet["choices"], chosen if size is None else {**chosen, SIZE: size}),
        words=words,
        widths={name: word(value.get("width")) for name, value in cloths.items()},
        ways={name: word(value.get("way")) for name, value in cloths.items()},
        naps={name: word(value.get("nap")) for name, value in cloths.items()},
        washes={name: word(value.get("wash")) for name, value in cloths.items()},
        alongs={name: word(value.get("along")) for name, value in cloths.items()},
        acrosses={name: word(value.get("across")) for name, value in cloths.items()},
        repeats={name: word(value.get("pattern")) for name, value in cloths.items()},
        everys={name: word(value.get("every")) for name, value in cloths.items()},
        unevens={name: word(value.get("uneven")) for name, value in cloths.items()},
        prices={name: word(value.get("price")) for name, value in cloths.items()},
        cuts=cuts_of(word(asked.get("cut"))),
        unit=unit_of(asked),
        shared={} if shared is None else shared,
    )


def usual_size(sheet: Sheet) -> str:
    """The size a page opens with: the one that is drawn, else the middle one."""
    drawn = sheet["drawing"]["size"]
    return str(drawn if drawn in sheet["sizes"] else sheet["sizes"][len(sheet["sizes"]) // 2])


def unit_of(asked: Mapping[str, Any]) -> Unit:
    """The unit in which bare numbers are meant: inches if asked for, else centimetres."""
    return "in" if asked.get("unit") == "in" else "cm"


def word(value: object) -> str:
    """The text of a field; a number is taken as it would be typed, anything else counts as not typed."""
    if isinstance(value, bool):
        return ""
    return value if isinstance(value, str) else str(value) if isinstance(value, int) else ""


def mapping(value: object) -> Mapping[str, Any]:
    """The mapping, or an empty one where something else stands."""
    return value if isinstance(value, dict) else {}
