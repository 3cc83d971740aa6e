"""Takes an SVG file apart into elements that remember their place. Nothing is fetched, no entity is ever expanded."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from xml.parsers import expat

from boltside.read.collect import START, Place, Problems, quoted

DEPTH_MAX = 100
"""Groups in groups; a drawing program makes a dozen at most. Our choice."""

ELEMENTS_MAX = 100_000
"""Twelve sizes of thirty pieces with forty shapes each are 14,400. Our choice, so that no drawing fills the memory."""


@dataclass(frozen=True)
class Element:
    """One element: its name without prefix, its attributes, its place, and the elements around it, outermost first."""

    tag: str
    attributes: Mapping[str, str]
    place: Place
    around: tuple[Element, ...]

    @property
    def element_id(self) -> str:
        """The element's id, empty without one."""
        return self.attributes.get("id", "")


class _Refused(Exception):
    """Stops the parser; the problem is noted already."""


def read_elements(text: str, name: str, problems: Problems) -> tuple[Element, ...]:
    """All elements in their order, the outermost first; empty with a problem noted when the text is no SVG.

    Arguments: `name` is the file as problems name it.
    """
    # The text is already decoded; whatever encoding its first line claims no longer matters.
    parser = expat.ParserCreate(encoding="utf-8")
    parser.buffer_text = True
    stack: list[Element] = []
    found: list[Element] = []

    def here() -> Place:
        return parser.CurrentLineNumber, parser.CurrentColumnNumber + 1

    def begin(tag: str, attributes: dict[str, str]) -> None:
        if len(stack) >= DEPTH_MAX:
            problems.add(
                "too-deep",
                name,
                here(),
                seen=f"more than {DEPTH_MAX} elements in each other",
                expected=f"at most {DEPTH_MAX}",
                mend="export the drawing anew, with fewer groups",
            )
            raise _Refused
        if len(found) >= ELEMENTS_MAX:
            problems.add(
                "too-large",
                name,
                here(),
                seen=f"more than {ELEMENTS_MAX} elements",
                expected=f"at most {ELEMENTS_MAX}",
                mend="delete what does not belong to the pieces",
            )
            raise _Refused
        element = Element(tag.rpartition(":")[2], attributes, here(), tuple(stack))
        stack.append(element)
        found.append(element)

    def end(_tag: str) -> None:
        stack.pop()

    def refuse(*_details: object) -> None:
        problems.add(
            "entity-or-dtd",
            name,
            here(),
            seen="a DOCTYPE or an entity",
            expected="plain SVG without them",
            mend="delete everything from `<!DOCTYPE` to its `>`",
        )
        raise _Refused

    parser.StartElementHandler = begin
    parser.EndElementHandler = end
    parser.StartDoctypeDeclHandler = refuse
    parser.EntityDeclHandler = refuse
    parser.SkippedEntityHandler = refuse
    try:
        parser.Parse(text.encode("utf-8"), True)
    except _Refused:
        return ()
    except expat.ExpatError as error:
        problems.add(
            "bad-svg",
            name,
            (error.lineno, error.offset + 1),
            seen=f"text that is no SVG ({expat.errors.messages[error.code]})",
            expected="SVG text",
            mend="export the drawing anew, or correct this place",
        )
        return ()
    except (ValueError, UnicodeError):
        problems.add(
            "bad-svg", name, START, seen="text that is no SVG", expected="SVG text", mend="export the drawing anew"
        )
        return ()
    if found[0].tag != "svg":
        problems.add(
            "bad-svg",
            name,
            found[0].place,
            seen=f"the element {quoted(found[0].tag)}",
            expected="`svg` as outermost",
            mend="export the drawing as SVG",
        )
        return ()
    return tuple(found)
