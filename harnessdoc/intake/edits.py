"""Edits of a harness's YAML by its marks: a key set, an entry added; every other byte stays as it was.

Nothing is written out anew: text is put in or replaced at positions that the parser tells. What an edit could change
elsewhere too (an anchor, an alias, a merge) is refused, and so is a text over several lines."""

from __future__ import annotations

import codecs
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from harnessdoc.intake.problems import IntakeError
from harnessdoc.intake.yaml_text import Value, flow, scalar
from harnessdoc.reading.document import Document, load
from harnessdoc.reading.gather import gather
from harnessdoc.reading.problems import ReadingError
from harnessdoc.reading.shapes import LISTED

Step = str
_INNERMOST = 10**9
_NULLS = ("", "~", "null", "Null", "NULL")


@dataclass
class _Growth:
    """What a group, a list or an empty value takes up: pairs for a group, parts for a list."""

    document: Document
    node: Node
    pairs: dict[str, Any] = field(default_factory=dict)
    parts: list[Value] = field(default_factory=list)


@dataclass(frozen=True, order=True)
class _Patch:
    """Text in the place of what stands from `start` to `end`. `rank`: at one place the inner comes first."""

    start: int
    end: int
    rank: int
    text: str = field(compare=False)


@dataclass(frozen=True)
class Edited:
    """A file before and after, as bytes."""

    path: Path
    before: bytes
    after: bytes


class Editor:
    """Edits of all files of one harness, gathered first and made together by `finish`.

    Raises ReadingError where a file can't be read, IntakeError for an edit that can't be made safely."""

    def __init__(self, path: Path) -> None:
        gathered = gather(path)
        if gathered.problems:
            raise ReadingError(gathered.problems)
        self.folder = gathered.folder
        self.files = tuple(gathered.files)
        self.documents = [load(file, str(file)) for file in gathered.files]
        self._growths: dict[int, _Growth] = {}
        self._patches: dict[str, list[_Patch]] = {document.shown: [] for document in self.documents}
        self._sections: dict[str, list[tuple[Document, Node, Node]]] = {}
        self._entries: dict[tuple[str, str], tuple[Document, Node, Node]] = {}
        self._new: dict[str, tuple[Document, Any]] = {}
        for document in self.documents:
            self._index(document)

    def _index(self, document: Document) -> None:
        for key, node in document.root.value:
            self._sections.setdefault(key.value, []).append((document, key, node))
            if isinstance(node, MappingNode):
                for name, value in node.value:
                    self._entries.setdefault((key.value, name.value), (document, name, value))

    def set(self, section: str, name: str, path: Sequence[Step], value: Value) -> None:
        """Set what stands at a path of keys in an entry; keys that are not there are added."""
        self._reach(section, name, path, value, add=False)

    def add_to(self, section: str, name: str, path: Sequence[Step], value: Value) -> None:
        """Add a value to the list at a path of keys in an entry; a single text there becomes a list."""
        self._reach(section, name, path, value, add=True)

    def add(self, section: str, name: str, value: Value, beside: Sequence[str] = ()) -> None:
        """Add a named entry to a section, or the section with it, in the file that holds it or a section `beside`."""
        growth = self._section(section, beside)
        if isinstance(growth, _Growth):
            growth.pairs[name] = value
        else:
            growth[name] = value

    def append(self, section: str, value: Value, beside: Sequence[str] = ()) -> None:
        """Add an entry to a section that is a list, such as readings."""
        growth = self._section(section, beside)
        (growth.parts if isinstance(growth, _Growth) else growth).append(value)

    def names(self) -> list[tuple[str, str]]:
        """Section and name of every named entry in the files."""
        return list(self._entries)

    def added(self, section: str, name: str) -> dict[str, Any] | None:
        """The value of an entry that was added and not written yet, to change; None for any other."""
        growth = self._new[section][1] if section in self._new else None
        there = self._sections.get(section)
        if growth is None and there and id(there[-1][2]) in self._growths:
            growth = self._growths[id(there[-1][2])].pairs
        found = growth.get(name) if isinstance(growth, dict) else None
        return found if isinstance(found, dict) else None

    def finish(self) -> list[Edited]:
        """All files that differ, with their bytes before and after. The files themselves are left alone."""
        for growth in self._growths.values():
            self._grow(growth)
        for section, (document, value) in self._new.items():
            self._add_section(document, section, value)
        edited = []
        for document in self.documents:
            patches = self._patches[document.shown]
            if patches:
                edited.append(_edited(document, patches))
        return edited

    def _reach(self, section: str, name: str, path: Sequence[Step], value: Value, add: bool) -> None:
        if (section, name) not in self._entries:
            raise IntakeError([f"{section}: {name!r} is not written in a form that can be edited; do it by hand"])
        document, key, node = self._entries[section, name]
        for at, step in enumerate(path):
            _guard(document, key, node)
            if _is_null(node):
                return self._put(document, node, path[at:], [value] if add else value)
            if not isinstance(node, MappingNode):
                raise _refused(document, node, f"{name}: {' '.join(path[:at])} is no group of keys")
            found = next((pair for pair in node.value if pair[0].value == step), None)
            if found is None:
                return self._put(document, node, path[at:], [value] if add else value)
            key, node = found
        _guard(document, key, node)
        if add:
            return self._add_to(document, node, value)
        if not isinstance(node, ScalarNode) or node.style in ("|", ">"):
            raise _refused(document, node, f"{name}: {path[-1]} is written over several lines or parts")
        return self._replace(document, node, flow(value))

    def _put(self, document: Document, node: Node, path: Sequence[Step], value: Value) -> None:
        """Let a group grow by a path of keys that is not there yet."""
        group: dict[str, Any] = self._growth(document, node).pairs
        for step in path[:-1]:
            group = group.setdefault(step, {})
        if isinstance(value, list) and path[-1] in group:
            group[path[-1]] += value
        else:
            group[path[-1]] = value

    def _growth(self, document: Document, node: Node) -> _Growth:
        return self._growths.setdefault(id(node), _Growth(document, node))

    def _add_to(self, document: Document, node: Node, value: Value) -> None:
        if isinstance(node, MappingNode) or (isinstance(node, ScalarNode) and node.style in ("|", ">")):
            raise _refused(document, node, "no list stands there")
        self._growth(document, node).parts.append(value)

    def _section(self, section: str, beside: Sequence[str]) -> Any:
        """The growth of a section that is there, or the group or list of a new one."""
        if section in self._new:
            return self._new[section][1]
        there = self._sections.get(section)
        if there:
            document, key, node = there[-1]
            _guard(document, key, node)
            return self._growth(document, node)
        document = next((self._sections[one][-1][0] for one in beside if one in self._sections), self.documents[0])
        self._new[section] = (document, [] if section in LISTED else {})
        return self._new[section][1]

    def _replace(self, document: Document, node: Node, text: str) -> None:
        start, end = node.start_mark.index, node.end_mark.index
        self._patches[document.shown].append(_Patch(start, end, -_INNERMOST, _spaced(document, start, end, text)))

    def _insert(self, document: Document, at: int, text: str, column: int = 0) -> None:
        self._patches[document.shown].append(_Patch(at, at, -column, text))

    def _grow(self, growth: _Growth) -> None:
        document, node = growth.document, growth.node
        if isinstance(node, ScalarNode) and _is_null(node):
            self._replace_null(document, node, growth)
        elif isinstance(node, ScalarNode):  # a single text becomes a list
            written = document.text[node.start_mark.index : node.end_mark.index]
            self._replace(document, node, "[" + ", ".join([written, *map(flow, growth.parts)]) + "]")
        elif isinstance(node, MappingNode):
            quoted = bool(node.value) and node.value[0][0].style in ('"', "'")
            pairs = [f"{scalar(key, quoted)}: {flow(value)}" for key, value in growth.pairs.items()]
            last = node.value[-1] if node.value else None
            self._extend(document, node, pairs, last)
        else:
            parts = [flow(part) for part in growth.parts]
            last = (node, node.value[-1]) if node.value else None
            self._extend(document, node, parts if _is_flow(node) else [f"- {part}" for part in parts], last)

    def _replace_null(self, document: Document, node: Node, growth: _Growth) -> None:
        """An empty value: a section's entries go below it, line by line; within an entry they stand in braces."""
        section = next((key for there in self._sections.values() for _, key, value in there if value is node), None)
        if section is None or node.start_mark.index != node.end_mark.index:
            self._replace(document, node, flow(growth.pairs or growth.parts))
            return
        end, newline = _line_end(document.text, node.end_mark.index), _newline(document.text)
        lines = [f"{scalar(name)}: {flow(value)}" for name, value in growth.pairs.items()]
        lines += [f"- {flow(part)}" for part in growth.parts]
        indent = " " * (section.start_mark.column + 2)
        self._insert(document, end, "".join(f"{newline}{indent}{line}" for line in lines), len(indent))

    def _extend(self, document: Document, node: Node, texts: list[str], last: tuple[Node, Node] | None) -> None:
        """Put texts behind the last part of a group or list, each on its own line where it is in block style."""
        if last is None:
            self._insert(document, node.start_mark.index + 1, ", ".join(texts))
            return
        if isinstance(node, MappingNode):
            _guard(document, *last, only_alias=True)
        end = _deep_end(document, last[1])
        if _is_flow(node):
            self._insert(document, end, "".join(f", {text}" for text in texts))
            return
        first = node.value[0][0] if isinstance(node, MappingNode) else node
        indent, newline = " " * first.start_mark.column, _newline(document.text)
        at = _line_end(document.text, end)
        self._insert(document, at, "".join(f"{newline}{indent}{text}" for text in texts), len(indent))

    def _add_section(self, document: Document, section: str, value: Any) -> None:
        newline = _newline(document.text)
        if document.root.flow_style:
            self._extend(document, document.root, [f"{scalar(section)}: {flow(value)}"], document.root.value[-1])
            return
        indent = " " * document.root.value[0][0].start_mark.column
        lines = [f"{indent}{section}:"]
        if isinstance(value, dict):
            lines += [f"{indent}  {scalar(name)}: {flow(part)}" for name, part in value.items()]
        else:
            lines += [f"{indent}  - {flow(part)}" for part in value]
        before = "" if document.text.endswith(("\n", "\r")) else newline
        self._insert(document, len(document.text), before + newline + newline.join(lines) + newline)


def _guard(document: Document, key: Node, node: Node, only_alias: bool = False) -> None:
    """Refuse what stands elsewhere too: aliases, anchors, merges."""
    start = node.start_mark.index
    if start < key.end_mark.index:
        raise _refused(document, key, "its value is an alias (*name)")
    if only_alias:
        return
    if document.text[start : start + 1] == "&":
        raise _refused(document, node, "it bears an anchor (&name), so others would change with it")
    if isinstance(node, MappingNode) and any(part.value == "<<" for part, _ in node.value):
        raise _refused(document, node, "it takes over keys by `<<`")


def _refused(document: Document, node: Node, why: str) -> IntakeError:
    return IntakeError([f"{document.mark(node)}: can't be edited safely: {why}; change it by hand"])


def _is_null(node: Node) -> bool:
    return isinstance(node, ScalarNode) and not node.style and node.value in _NULLS


def _is_flow(node: Node) -> bool:
    return isinstance(node, MappingNode | SequenceNode) and bool(node.flow_style)


def _deep_end(document: Document, node: Node) -> int:
    """Where a node's text ends; a group in block style ends with its last part, not with the comments below it."""
    if isinstance(node, ScalarNode):
        if node.style in ("|", ">"):
            written = document.text[node.start_mark.index : node.end_mark.index]
            return int(node.start_mark.index) + len(written.rstrip())
        return int(node.end_mark.index)
    if _is_flow(node) or not node.value:
        return int(node.end_mark.index)
    if isinstance(node, MappingNode):
        key, value = node.value[-1]
        if value.start_mark.index < key.end_mark.index:
            raise _refused(document, key, "the entry before ends with an alias (*name)")
        return _deep_end(document, value)
    assert isinstance(node, SequenceNode)
    return _deep_end(document, node.value[-1])


def _line_end(text: str, at: int) -> int:
    while at < len(text) and text[at] not in "\r\n":
        at += 1
    return at


def _newline(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"


def _spaced(document: Document, start: int, end: int, text: str) -> str:
    """A value put where there was none wants a blank after its colon."""
    return f" {text}" if start == end and document.text[start - 1 : start] == ":" else text


def _edited(document: Document, patches: list[_Patch]) -> Edited:
    path = Path(document.shown)
    raw = path.read_bytes()
    mark = codecs.BOM_UTF8 if raw.startswith(codecs.BOM_UTF8) else b""
    if raw.removeprefix(mark).decode("utf-8", "replace") != document.text:
        raise IntakeError([f"{path}: was changed meanwhile; nothing was written"])
    out, at = [], 0
    for patch in sorted(patches):
        if patch.start < at:
            raise IntakeError([f"{path}: two edits meet at one place; nothing was written"])
        out += [document.text[at : patch.start], patch.text]
        at = patch.end
    return Edited(path, raw, mark + "".join([*out, document.text[at:]]).encode())
