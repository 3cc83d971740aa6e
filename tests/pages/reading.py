"""Reads HTML back, so that tests look at elements and not at text."""

from __future__ import annotations

from html.parser import HTMLParser

EMPTY = {"input", "br", "hr", "meta", "link", "img"}


class Element:
    """An element with its attributes, children and text."""

    def __init__(self, tag: str, attributes: dict[str, str | None], parent: Element | None) -> None:
        self.tag, self.attributes, self.parent = tag, attributes, parent
        self.children: list[Element | str] = []

    @property
    def text(self) -> str:
        """All text inside, spaces put together; inch figures are left out, as a page set to cm shows it."""
        if "in-inch" in (self.attributes.get("class") or ""):
            return ""
        parts = [child if isinstance(child, str) else child.text for child in self.children]
        return " ".join("".join(parts).split())

    def all(self, tag: str = "", **wanted: str | None) -> list[Element]:
        """Every element inside with this tag and these attributes (`class_` for class); None: it is there."""
        found = []
        for child in self.children:
            if isinstance(child, Element):
                if (not tag or child.tag == tag) and all(child.has(name, value) for name, value in wanted.items()):
                    found.append(child)
                found += child.all(tag, **wanted)
        return found

    def has(self, name: str, value: str | None) -> bool:
        """True when the attribute is there, and is or contains the value."""
        name = name.rstrip("_").replace("_", "-")
        return name in self.attributes and (value is None or value in (self.attributes[name] or "").split())


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = self.at = Element("", {}, None)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, dict(attrs), self.at)
        self.at.children.append(element)
        if tag not in EMPTY:
            self.at = element

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.at.children.append(Element(tag, dict(attrs), self.at))

    def handle_endtag(self, tag: str) -> None:
        assert self.at.tag == tag, f"</{tag}> closes <{self.at.tag}>"
        assert self.at.parent is not None
        self.at = self.at.parent

    def handle_data(self, data: str) -> None:
        self.at.children.append(data)


def read(html: str) -> Element:
    """The elements of some HTML. Raises AssertionError where tags are not properly nested."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    assert reader.at is reader.root, f"<{reader.at.tag}> is never closed"
    return reader.root
