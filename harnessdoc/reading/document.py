"""One YAML file to its node tree, with the parser's own marks. All scalars stay text.

YAML 1.1 turns `NO`, `on`, `08` or `87:30` into booleans and numbers; here nothing is resolved, so a cavity `08` is
`08`. Knows nothing of harnesses."""

from __future__ import annotations

import codecs
import gc
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import field
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any, cast

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from harnessdoc.model.mark import Mark
from harnessdoc.model.record import record
from harnessdoc.reading.problems import Problem, ReadingError

MAX_BYTES = 10 * 1024 * 1024
MAX_DEPTH = 40
_ALIAS_DEPTH = 100
ALIAS_GROWTH = 100_000
"""How many nodes aliases may add when they are written out."""

Plain = str | None | list["Plain"] | dict[str, "Plain"]
_NULLS = frozenset({"", "~", "null", "Null", "NULL"})
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@record(frozen=True)
class Document:
    """A file's text and its top node. `shown`: the path as messages print it."""

    shown: str
    text: str = field(repr=False)
    root: MappingNode = field(repr=False)

    @cached_property
    def lines(self) -> list[str]:
        """The file's lines, for messages."""
        return _lines(self.text)

    def mark(self, node: Node) -> Mark:
        """Where a node begins."""
        return Mark(self.shown, node.start_mark.line + 1, node.start_mark.column + 1)

    def problem(self, node: Node, text: str) -> Problem:
        """A problem at a node, with its line; line ends in the text are written out, so that it stays one line."""
        mark = self.mark(node)
        text = "".join(letter if letter.isprintable() else repr(letter)[1:-1] for letter in text)
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
    try:
        root = yaml.compose(text, Loader=_LOADER)
    except RecursionError:
        raise ReadingError([Problem(Mark(shown, 1, 1), _TOO_DEEP)]) from None
    except yaml.MarkedYAMLError as error:
        raise ReadingError([_yaml_problem(error, text, shown)]) from None
    except yaml.YAMLError as error:
        raise ReadingError([_reader_problem(error, text, shown)]) from None
    if root is None or (isinstance(root, ScalarNode) and not root.value):
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
    if _TAG.search(text):
        _refuse_tags(document)
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
    raw = raw.removeprefix(codecs.BOM_UTF8)
    try:
        return raw.decode()
    except UnicodeDecodeError as error:
        line, column = _place(raw[: error.start].decode())
        text = f"is not UTF-8: byte 0x{raw[error.start]:02x}; save the file as UTF-8"
        raise ReadingError([Problem(Mark(shown, line, column), text)]) from None


def _lines(text: str) -> list[str]:
    """Lines as YAML's marks count them: U+0085, U+2028 and U+2029 end one too."""
    return _BREAK.split(text)


def _place(before: str) -> tuple[int, int]:
    """Line and column, from 1, of what follows a text."""
    lines = _lines(before)
    return len(lines), len(lines[-1]) + 1


_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What YAML 1.1 (5.1) does not allow in a file."""
_TAG = re.compile(r"(?:^|[\s\[{,])!", re.MULTILINE)
_TOO_DEEP = f"is nested deeper than {MAX_DEPTH} levels"
_HINTS = {
    "found character '\\t' that cannot start any token": "a tab; YAML is indented with spaces",
    "found character that cannot start any token": "a character that can't start a text here (a tab, @ or `); "
    "indent with spaces, put such a text in quotes",
    "did not find expected key": "the indentation does not fit, or a comma, quote or bracket is missing just before",
    "mapping values are not allowed in this context": "a colon where none can stand; text with `: ` in it wants quotes",
    "did not find expected ',' or ']'": "a list in [ ] is not closed, or a comma is missing",
    "did not find expected ',' or '}'": "a group in { } is not closed, or a comma or quote is missing",
    "found unexpected end of stream": "the file ends inside a text in quotes",
    "did not find expected node content": "a value is missing, or it is a lone ? or -, which wants quotes",
    "found undefined alias": "an alias (*name) without its anchor (&name)",
    "exceeded maximum nesting depth": f"nested deeper than {MAX_DEPTH} levels",
    "but found another document": "a second document (---) in the file; one file is one document",
}


def _yaml_problem(error: yaml.MarkedYAMLError, text: str, shown: str) -> Problem:
    at = error.problem_mark or error.context_mark
    line, column = (at.line + 1, at.column + 1) if at else (1, 1)
    lines = _lines(text)
    line = min(line, len(lines))
    found = error.problem or str(error)
    written = lines[line - 1]
    hint = next((hint for known, hint in _HINTS.items() if known in found), found)
    if "cannot start any token" in found and "\t" in written[:column]:
        hint = "a tab; YAML is indented with spaces"
    return Problem(Mark(shown, line, column), f"not valid YAML: {hint}", written)


def _reader_problem(error: yaml.YAMLError, text: str, shown: str) -> Problem:
    bad = _UNPRINTABLE.search(text)
    if bad is None:
        return Problem(Mark(shown, 1, 1), f"not valid YAML: {getattr(error, 'reason', error)}")
    found = f"U+{ord(bad[0]):04X}"
    return Problem(Mark(shown, *_place(text[: bad.start()])), f"holds a character ({found}) that YAML does not allow")


def _refuse_explosion(document: Document) -> None:
    """Refuse anchors that hold themselves or that grow without measure when written out."""
    sizes: dict[int, int] = {}
    own = 0

    def size(node: Node, above: frozenset[int]) -> int:
        nonlocal own
        key = id(node)
        if key in above:
            raise ReadingError([document.problem(node, "an anchor that holds itself")])
        if len(above) > _ALIAS_DEPTH:
            raise ReadingError([document.problem(node, _TOO_DEEP)])
        if key not in sizes:
            own += 1
            below = above | {key}
            parts = [part for kv in node.value for part in kv] if isinstance(node, MappingNode) else node.value
            total = 1 if isinstance(node, ScalarNode) else 1 + sum(size(part, below) for part in parts)
            sizes[key] = total
        return sizes[key]

    if size(document.root, frozenset()) > own + ALIAS_GROWTH:
        raise ReadingError([document.problem(document.root, "its anchors (&name, *name) multiply beyond measure")])


def _refuse_tags(document: Document) -> None:
    """Tags (`!name`) are refused: all text stays text, and a file is named under `include:`."""
    found: list[Problem] = []
    seen: set[int] = set()
    todo: list[Node] = [document.root]
    while todo:
        node = todo.pop()
        if id(node) in seen:
            continue
        seen.add(id(node))
        if node.tag not in _PLAIN_TAGS:
            tag = node.tag.replace("tag:yaml.org,2002:", "!!")
            found.append(document.problem(node, f"{tag!r} is a tag, and tags mean nothing here; leave it out"))
        if isinstance(node, MappingNode):
            todo += [part for pair in node.value for part in pair]
        elif isinstance(node, SequenceNode):
            todo += node.value
    if found:
        raise ReadingError(found)


_PLAIN_TAGS = frozenset(
    f"tag:yaml.org,2002:{name}"
    for name in ("str", "int", "float", "bool", "null", "timestamp", "value", "merge", "seq", "map")
)


def to_plain(document: Document, node: Node, problems: list[Problem], depth: int = 0) -> Plain:
    """The node as text, lists and dicts. Duplicate keys, keys that are no text and tags go to `problems`."""
    kind = node.__class__
    if kind is ScalarNode:
        value: str = node.value
        return None if value in _NULLS and not cast("ScalarNode", node).style else value
    if depth > MAX_DEPTH:
        problems.append(document.problem(node, _TOO_DEEP))
        return None
    if kind is SequenceNode:
        return [to_plain(document, part, problems, depth + 1) for part in node.value]
    out: dict[str, Plain] = {}
    stated: dict[str, Node] = {}
    for key, value_node in node.value:
        if key.__class__ is not ScalarNode:
            problems.append(document.problem(key, "a key must be a plain text"))
            continue
        name = key.value
        if name == "<<" and not key.style:
            _merge(document, value_node, out, problems, depth)
            continue
        first = stated.setdefault(name, key)
        if first is not key:
            line = first.start_mark.line + 1
            problems.append(document.problem(key, f"{name!r} stands twice; the first is on line {line}"))
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


def locate(node: Node, path: tuple[int | str, ...]) -> tuple[Node, bool]:
    """Follow a path of keys and indices; return the deepest node found and whether all of the path was found."""
    for step in path:
        inner: Node | None = None
        if isinstance(node, MappingNode):
            inner = _index(node).get(str(step), (None, None))[1]
        elif isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
            inner = node.value[step]
        if inner is None:
            return node, False
        node = inner
    return node, True


def key_node(node: Node, name: str) -> Node | None:
    """The key's own node in a mapping, for faults of the key itself."""
    return _index(node).get(name, (None, None))[0] if isinstance(node, MappingNode) else None


@lru_cache(maxsize=8)
def _index(node: MappingNode) -> dict[str, tuple[Node, Node]]:
    """A mapping's keys and values by name, the first of each."""
    found: dict[str, tuple[Node, Node]] = {}
    for key, value in node.value:
        if isinstance(key, ScalarNode):
            found.setdefault(key.value, (key, value))
    return found
