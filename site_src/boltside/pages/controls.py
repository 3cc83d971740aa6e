"""What are the controls of a form made of? One to pick, one to tick, one to type in; each has its label."""

from __future__ import annotations

from boltside.calculators.typed import LONGEST_TEXT
from boltside.pages.markup import Html, element


def radio(name: str, value: str, label: object, *, checked: bool, described_by: str | None = None) -> Html:
    """One radio button with its label around it."""
    return element(
        "label",
        element("input", type="radio", name=name, value=value, checked=checked, autocomplete="off",
                aria_describedby=described_by),
        element("span", label),
        class_="pick",
    )  # fmt: skip


def tick(name: str, value: str, label: object, *, described_by: str | None = None) -> Html:
    """One box to tick with its label around it; it comes unticked."""
    return element(
        "label",
        element("input", type="checkbox", name=name, value=value, autocomplete="off", aria_describedby=described_by),
        element("span", label),
        class_="pick",
    )


def typed(name: str, label: object, unit: str, *, label_more: str, **attributes: object) -> Html:
    """A number to type, with its unit behind it; ``label_more`` says to screen readers of what."""
    at = name.replace(".", "-")
    return element(
        "div",
        element("label", label, element("span", f", {label_more}", class_="unseen"), for_=at),
        element(
            "span",
            element("input", id=at, name=name, type="text", inputmode="decimal", autocomplete="off", size=6,
                    maxlength=LONGEST_TEXT, **attributes),
            element("span", unit),
            class_="measure",
        ),
        class_="field",
    )  # fmt: skip
