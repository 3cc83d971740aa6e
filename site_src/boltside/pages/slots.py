"""Where does each fragment of an answer stand in the page?

The build fills the places with the default answer; the page's script fills the same places with later ones.
A place is an element with `data-fragment` (one id) or `data-fragments` (all ids that begin so); it is hidden while
no fragment belongs there.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boltside.pages.markup import Html, element


class Slots:
    """The places for one answer."""

    def __init__(self, answer: Mapping[str, Any]) -> None:
        """Argument: an answer of the calculators, as parsed JSON."""
        self._fragments: dict[str, Mapping[str, Any]] = {part["id"]: part for part in answer["fragments"]}

    def fragment(self, name: str) -> Mapping[str, Any] | None:
        """The fragment with this id, or None."""
        return self._fragments.get(name)

    def one(self, name: str, tag: str = "div", **attributes: object) -> Html:
        """The place of the fragment `name`; a fragment without words says nothing and is hidden."""
        found = self._fragments.get(name)
        return element(
            tag,
            Html(found["html"]) if found else "",
            data_fragment=name,
            data_kind=found["kind"] if found else None,
            hidden=not (found and found["html"]),
            **attributes,
        )

    def figure(self, name: str, tag: str = "li", *, about: str, **attributes: object) -> Html:
        """The place of a figure, and beside it *why?*, which opens to where it comes from.

        Arguments: the fragment `name`; the element around both; `about`, what the figure is of, for screen readers.
        """
        return element(
            tag, self.one(name, "span", class_="said"), self.why(name, about), **{"class_": "figure-line", **attributes}
        )

    def why(self, name: str, about: str) -> Html:
        """The place of what explains the figure `name`; not shown while nothing explains it."""
        return element(
            "details",
            element("summary", "why?", element("span", f" {about}", class_="unseen")),
            self.one(f"why.{name}", class_="why__text"),
            class_="why",
        )

    def group(self, prefix: str, tag: str = "div", each: str = "div", **attributes: object) -> Html:
        """The place of all fragments whose id begins with `prefix` and that say something, each an element `each`."""
        said = [part for name, part in self._fragments.items() if name.startswith(prefix) and part["html"]]
        return element(
            tag,
            *(element(each, Html(part["html"]), data_kind=part["kind"]) for part in said),
            data_fragments=prefix,
            data_each=each,
            hidden=not said,
            **attributes,
        )
