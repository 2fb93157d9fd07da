"""One YAML file to its node tree, with the parser's own marks. All scalars stay text.

YAML 1.1 turns `NO`, `on`, `08` or `87:30` into booleans and numbers; here nothing is resolved, so a cavity `08` is
`08`. Knows nothing of harnesses."""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any, cast

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from harnessdoc.model.mark import Mark
from harnessdoc.reading.problems import Problem, ReadingError

MAX_BYTES = 10 * 1024 * 1024
MAX_DEPTH = 40
ALIAS_GROWTH = 100_000
"""How many nodes aliases may add when they are written out."""

Plain = str | None | list["Plain"] | dict[str, "Plain"]
_NULLS = frozenset({"", "~", "null", "Null", "NULL"})
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True)
class Document:
    """A file's text and its top node. `shown`: the path as messages print it."""

    shown: str
    text: str = field(repr=False)
    root: MappingNode = field(repr=False)

    @cached_property
    def lines(self) -> list[str]:
        """The file's lines, for messages."""
        return self.text.split("\n")

    def mark(self, node: Node) -> Mark:
        """Where a node begins."""
        return Mark(self.shown, node.start_mark.line + 1, node.start_mark.column + 1)

    def problem(self, node: Node, text: str) -> Problem:
        """A problem at a node, with its line."""
        mark = self.mark(node)
        return Problem(mark, text, self.lines[mark.line - 1] if mark.line <= len(self.lines) else "")


@contextmanager
def collector_off() -> Iterator[None]:
    """Keep the cycle collector out of a phase that only allocates; it costs as much as the parsing."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def load(path: Path, shown: str) -> Document:
    """Read and compose one file. Raises ReadingError with one clear line for whatever is wrong with it."""
    text = _text(path, shown)
    _refuse_depth(text, shown)
    try:
        root = yaml.compose(text, Loader=_LOADER)
    except yaml.MarkedYAMLError as error:
        raise ReadingError([_yaml_problem(error, text, shown)]) from None
    except yaml.YAMLError as error:
        raise ReadingError([_reader_problem(error, text, shown)]) from None
    if root is None:
        raise ReadingError([Problem(Mark(shown, 1, 1), "the file is empty; `harnessdoc new` writes a starter file")])
    if not isinstance(root, MappingNode):
        what = "a list" if isinstance(root, SequenceNode) else "a single text"
        raise ReadingError(
            [
                Problem(
                    Mark(shown, 1, 1),
                    f"the top of the file is {what}; expected keys such as harness:, items:, wires:",
                )
            ]
        )
    document = Document(shown, text, root)
    if "*" in text and "&" in text:
        _refuse_explosion(document)
    return document


def _text(path: Path, shown: str) -> str:
    start = Mark(shown, 1, 1)
    try:
        with path.open("rb") as file:
            raw = file.read(MAX_BYTES + 1)
    except OSError as error:
        raise ReadingError([Problem(start, f"can't be read: {error.strerror or error}")]) from None
    if len(raw) > MAX_BYTES:
        raise ReadingError([Problem(start, "is over 10 MiB; split it with include:")])
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - raw.rfind(b"\n", 0, error.start)
        text = f"is not UTF-8: byte 0x{raw[error.start]:02x}; save the file as UTF-8"
        raise ReadingError([Problem(Mark(shown, line, column), text)]) from None


def _refuse_depth(text: str, shown: str) -> None:
    """Refuse nesting that no harness has before a parser recurses into it."""
    depth = 0
    for bracket in _BRACKETS.finditer(text):
        depth = depth + 1 if bracket[0] in "[{" else max(0, depth - 1)
        if depth > 20 * MAX_DEPTH:
            at = bracket.start()
            raise ReadingError(
                [Problem(Mark(shown, text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)), _TOO_DEEP)]
            )
    for number, line in enumerate(text.split("\n"), 1):
        bare = line.lstrip(" ")
        if bare and len(line) - len(bare) + line.count("- ") > 50 * MAX_DEPTH:
            raise ReadingError([Problem(Mark(shown, number, 1), _TOO_DEEP)])


_BRACKETS = re.compile(r"[\[\]{}]")
_TOO_DEEP = f"is nested deeper than {MAX_DEPTH} levels"
_HINTS = {
    "found character '\\t' that cannot start any token": "a tab; YAML is indented with spaces",
    "found character that cannot start any token": "a character that can't start a text here (a tab, @ or `); "
    "indent with spaces, put such a text in quotes",
    "did not find expected key": "the indentation does not fit, or a comma, quote or bracket is missing just before",
    "mapping values are not allowed in this context": "a colon where none can stand; text with `: ` in it wants quotes",
    "did not find expected ',' or ']'": "a list in [ ] is not closed, or a comma is missing",
    "did not find expected ',' or '}'": "a group in { } is not closed, or a comma is missing",
    "found unexpected end of stream": "the file ends inside a text in quotes",
    "found undefined alias": "an alias (*name) without its anchor (&name)",
    "but found another document": "a second document (---) in the file; one file is one document",
}


def _yaml_problem(error: yaml.MarkedYAMLError, text: str, shown: str) -> Problem:
    at = error.problem_mark or error.context_mark
    line, column = (at.line + 1, at.column + 1) if at else (1, 1)
    lines = text.split("\n")
    line = min(line, len(lines))
    found = error.problem or str(error)
    written = lines[line - 1]
    hint = next((hint for known, hint in _HINTS.items() if known in found), found)
    if "cannot start any token" in found and "\t" in written[:column]:
        hint = "a tab; YAML is indented with spaces"
    return Problem(Mark(shown, line, column), f"not valid YAML: {hint}", written)


def _reader_problem(error: yaml.YAMLError, text: str, shown: str) -> Problem:
    position = int(getattr(error, "position", 0) or 0)
    bad = next((at for at, c in enumerate(text) if ord(c) < 32 and c not in "\n\r\t"), position)
    line = text.count("\n", 0, bad) + 1
    column = bad - text.rfind("\n", 0, bad)
    character = f"U+{ord(text[bad]):04X}" if bad < len(text) else "an unknown one"
    return Problem(
        Mark(shown, line, max(1, column)), f"holds a control character ({character}) that YAML does not allow"
    )


def _refuse_explosion(document: Document) -> None:
    """Refuse anchors that hold themselves or that grow without measure when written out."""
    sizes: dict[int, int] = {}
    own = 0

    def size(node: Node, above: frozenset[int]) -> int:
        nonlocal own
        key = id(node)
        if key in above:
            raise ReadingError([document.problem(node, "an anchor that holds itself")])
        if key not in sizes:
            own += 1
            below = above | {key}
            parts = [part for kv in node.value for part in kv] if isinstance(node, MappingNode) else node.value
            total = 1 if isinstance(node, ScalarNode) else 1 + sum(size(part, below) for part in parts)
            sizes[key] = total
        return sizes[key]

    if size(document.root, frozenset()) > own + ALIAS_GROWTH:
        raise ReadingError([document.problem(document.root, "its anchors (&name, *name) multiply beyond measure")])


def to_plain(document: Document, node: Node, problems: list[Problem], depth: int = 0) -> Plain:
    """The node as text, lists and dicts. Duplicate keys, keys that are no text and tags go to `problems`."""
    kind = node.__class__
    if kind is ScalarNode:
        value: str = node.value
        return None if value in _NULLS and cast("ScalarNode", node).style is None else value
    if depth > MAX_DEPTH:
        problems.append(document.problem(node, _TOO_DEEP))
        return None
    if kind is SequenceNode:
        return [to_plain(document, part, problems, depth + 1) for part in node.value]
    pairs = node.value
    out: dict[str, Plain] = {}
    for key, value_node in pairs:
        if key.__class__ is not ScalarNode:
            problems.append(document.problem(key, "a key must be a plain text"))
            continue
        name = key.value
        if name == "<<" and key.style is None:
            _merge(document, value_node, out, problems, depth)
            continue
        if name in out and not _only_merged(pairs, name):
            problems.append(document.problem(key, f"{name!r} stands twice; the first is on line {_first(pairs, name)}"))
            continue
        out[name] = to_plain(document, value_node, problems, depth + 1)
    return out


def _merge(document: Document, node: Node, out: dict[str, Plain], problems: list[Problem], depth: int) -> None:
    """Take over the keys of a `<<:` group that are not stated beside it."""
    for part in node.value if isinstance(node, SequenceNode) else [node]:
        group = to_plain(document, part, problems, depth + 1)
        if isinstance(group, dict):
            for name, value in group.items():
                out.setdefault(name, value)
        else:
            problems.append(document.problem(part, "`<<:` wants a group of keys"))


def _only_merged(pairs: list[tuple[Node, Node]], name: str) -> bool:
    return sum(1 for key, _ in pairs if key.value == name) == 1


def _first(pairs: list[tuple[Node, Node]], name: str) -> int:
    return next(int(key.start_mark.line) + 1 for key, _ in pairs if key.value == name)


def locate(node: Node, path: tuple[int | str, ...]) -> tuple[Node, bool]:
    """Follow a path of keys and indices; return the deepest node found and whether all of the path was found."""
    for step in path:
        inner: Node | None = None
        if isinstance(node, MappingNode):
            inner = next((value for key, value in node.value if key.value == step), None)
        elif isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
            inner = node.value[step]
        if inner is None:
            return node, False
        node = inner
    return node, True


def key_node(node: Node, name: str) -> Node | None:
    """The key's own node in a mapping, for faults of the key itself."""
    if not isinstance(node, MappingNode):
        return None
    return next((key for key, _ in node.value if key.value == name), None)
