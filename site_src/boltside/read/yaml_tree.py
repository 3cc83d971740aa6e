"""Takes YAML text apart into plain data that remembers where every key and value stood.

Only what a pattern needs is read: mappings, lists, text, numbers, true and false. Tags, anchors and aliases are
refused (an alias inside an alias can grow without bounds). Words like `yes`, `on` or `no` stay words.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

import yaml

from boltside.read.collect import START, Place, Problems, quoted

Path = tuple[str | int, ...]
"""The way to a value: keys and list positions from the top."""

INT = re.compile(r"[-+]?[0-9]{1,18}")
FLOAT = re.compile(r"[-+]?([0-9]{1,18}(\.[0-9]{0,30})?|\.[0-9]{1,30})([eE][-+]?[0-9]{1,2})?")
BARE_CONDITION = re.compile(
    r"\s*(?:-\s+)?(when|needs|excludes|asked_when)\s*:\s*([a-z0-9-]+)\s*:\s+([^\s#{}][^#{}]*?)(?:\s+#.*)?"
)
CONSTANTS: dict[str, bool | None] = {"true": True, "false": False, "null": None, "~": None, "": None}

DEPTH_MAX = 30
"""Nothing in the format is nested as deeply; deeper text would only exhaust the reader. Our choice."""


LINE_LETTERS_MAX = 500
"""Only lines as short as this are looked at for a condition that lacks its braces. Our choice."""


class _TooDeep(yaml.MarkedYAMLError):
    """Stops the loader where brackets are nested too deep."""


@dataclass
class Tree:
    """Plain data and the places of its parts."""

    data: Any
    values: dict[Path, Place] = field(default_factory=dict)
    keys: dict[Path, Place] = field(default_factory=dict)

    def value_place(self, path: Path) -> Place:
        """Where the value stands, or else the nearest thing around it."""
        return self.values.get(self.real(path), START)

    def key_place(self, path: Path) -> Place:
        """Where the key of the value stands (in lists: the value itself), or else the nearest thing around it."""
        real = self.real(path)
        return self.keys.get(real) or self.values.get(real, START)

    def real(self, path: Path) -> Path:
        """The path without the steps that the file does not have: shorthands that were opened, keys left out."""
        data = self.data
        kept: list[str | int] = []
        for step in path:
            if has(data, step):
                kept.append(step)
                data = data[step]
        return tuple(kept)


def has(holder: Any, step: str | int) -> bool:
    """True when the mapping has this key, or the list this position."""
    if isinstance(holder, dict):
        return step in holder
    return isinstance(holder, list) and isinstance(step, int) and step < len(holder)


class _Loader(yaml.SafeLoader):
    """PyYAML's own loader with aliases and anchors refused."""

    depth = 0

    def compose_node(self, parent: Any, index: Any) -> Any:
        event = self.peek_event()
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None) is not None:
            raise yaml.MarkedYAMLError(
                problem="an anchor (&) or alias (*)", problem_mark=event.start_mark, note="write the text out twice"
            )
        self.depth += 1
        if self.depth > DEPTH_MAX:
            raise _TooDeep(problem_mark=event.start_mark)
        node = super().compose_node(parent, index)
        self.depth -= 1
        return node


def read_tree(text: str, name: str, problems: Problems, first: Place = START) -> Tree | None:
    """The text as a tree, or None with the first error of syntax noted.

    Arguments: `name` is the file as problems name it; `first` is the place of the text's first character, when it
    is a part of a file. Duplicate keys are noted and the first one is kept.
    """
    loader = _Loader(text)
    try:
        node = loader.get_single_node()
    except _TooDeep as error:
        problems.add(
            "too-deep",
            name,
            _place(error.problem_mark, first) if error.problem_mark else first,
            seen=f"more than {DEPTH_MAX} lists and mappings in each other",
            expected=f"at most {DEPTH_MAX}",
            mend="look for brackets or indents that are not closed",
        )
        return None
    except yaml.MarkedYAMLError as error:
        mark, seen, mend = _explained(error)
        braced = _braced(text.split("\n")[mark.line]) if mark is not None else None
        problems.add(
            "syntax",
            name,
            _place(mark, first) if mark else first,
            seen=seen,
            expected="choices and alternatives between braces" if braced else "YAML text",
            mend=braced or mend,
        )
        return None
    except (yaml.YAMLError, ValueError, RecursionError):
        problems.add(
            "syntax",
            name,
            first,
            seen="text that is no YAML",
            expected="YAML text",
            mend="write the file anew from a working pattern",
        )
        return None
    finally:
        loader.dispose()
    tree = Tree(data=None)
    if node is not None:
        tree.data = _data(node, (), tree, name, problems, first)
    return tree


def _explained(error: yaml.MarkedYAMLError) -> tuple[yaml.Mark | None, str, str]:
    """Where the error of syntax is, what was seen, how to mend it: in plain words where we know some."""
    said = " ".join((error.problem or "something unreadable").split())
    if error.note:
        return error.problem_mark, said, error.note
    for part, begun, seen, mend in IN_PLAIN_WORDS:
        if part in said:
            return (error.context_mark if begun and error.context_mark else error.problem_mark), seen, mend
    mend = "look at indents, quotes, colons and brackets here and just above"
    return error.problem_mark or error.context_mark, f"what the YAML reader calls {quoted(said)}", mend


def _braced(line: str) -> str | None:
    """The mend for a condition without its braces, like `when: sleeves: none`; None when the line is none."""
    match = BARE_CONDITION.fullmatch(line.rstrip()) if len(line) <= LINE_LETTERS_MAX else None
    if match is None:
        return None
    key, choice, words = match.groups()
    if INT.fullmatch(words):
        words = f'"{words}"'
    elif "," in words and not re.search(r"[:\[\]{}]", words):
        words = f"[{words}]"
    return f"write `{key}: {{{choice}: {words}}}`"


def _place(mark: yaml.Mark, first: Place) -> Place:
    if mark.line == 0:
        return first[0], first[1] + mark.column
    return first[0] + mark.line, mark.column + 1


def _data(node: yaml.Node, path: Path, tree: Tree, name: str, problems: Problems, first: Place) -> Any:
    tree.values[path] = _place(node.start_mark, first)
    if isinstance(node, yaml.MappingNode):
        found: dict[str, Any] = {}
        for key_node, value_node in node.value:
            place = _place(key_node.start_mark, first)
            if not isinstance(key_node, yaml.ScalarNode):
                problems.add(
                    "syntax",
                    name,
                    place,
                    seen="a list or mapping as a key",
                    expected="a word as a key",
                    mend="look at the brackets and colons",
                )
                continue
            key = key_node.value
            inner = (*path, key)
            if key in found:
                line, _ = tree.keys[inner]
                problems.add(
                    "duplicate-key",
                    name,
                    place,
                    seen=f"{quoted(key)} a second time",
                    expected=f"it once (it stands in line {line} already)",
                    mend="delete or rename one of the two",
                )
                # The second value is still looked through for duplicates inside it, but not kept.
                _data(value_node, inner, Tree(data=None), name, problems, first)
                continue
            tree.keys[inner] = place
            found[key] = _data(value_node, inner, tree, name, problems, first)
        return found
    if isinstance(node, yaml.SequenceNode):
        return [_data(one, (*path, at), tree, name, problems, first) for at, one in enumerate(node.value)]
    assert isinstance(node, yaml.ScalarNode)
    return _scalar(node, name, problems, first)


def _scalar(node: yaml.ScalarNode, name: str, problems: Problems, first: Place) -> Any:
    text = str(node.value)
    if node.tag not in KNOWN_TAGS:
        problems.add(
            "syntax",
            name,
            _place(node.start_mark, first),
            seen=f"the tag {quoted(node.tag.replace('tag:yaml.org,2002:', '!!'))}",
            expected="plain text or a number",
            mend="delete the word that begins with `!`",
        )
    if node.style is not None:
        return text
    if text in CONSTANTS:
        return CONSTANTS[text]
    if INT.fullmatch(text):
        return int(text)
    if FLOAT.fullmatch(text):
        return float(text)
    return text


IN_PLAIN_WORDS = (
    ("expected ',' or ']'", True, "a `[` that is not closed", "add the `]`, or the comma that is missing"),
    ("expected ',' or '}'", True, "a `{` that is not closed", "add the `}`, or the comma that is missing"),
    ("found unexpected end of stream", True, "a quote that is not closed", "add the second quote"),
    ("mapping values are not allowed", False, "a colon where none can be", "look at the indent; quote texts with `: `"),
    ("could not find expected ':'", True, "a line without its colon", "write `key: value`"),
    (
        "expected <block end>",
        False,
        "text that does not go on from the line above",
        "look at indents and quotes here and above",
    ),
    ("character '\\t'", False, "a tab", "indent with spaces"),
)
"""Part of PyYAML's message, whether the place where the thing began is the one to show, what was seen, how to mend."""

KNOWN_TAGS = {
    f"tag:yaml.org,2002:{kind}" for kind in ("str", "int", "float", "bool", "null", "timestamp", "merge", "value")
}
"""What PyYAML's resolver gives plain scalars; all else was written as a tag."""
