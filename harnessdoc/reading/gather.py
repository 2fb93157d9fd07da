"""One file or a folder with `include` to sections of entries, each with its marks. Knows the sections' names only."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from harnessdoc.model.mark import Mark
from harnessdoc.model.record import record
from harnessdoc.reading.document import Document, Plain, load, to_plain
from harnessdoc.reading.problems import Problem, ReadingError, meant
from harnessdoc.reading.shapes import LISTED, SECTIONS

FORMAT = 1
TOP_FILE = "harness.yaml"


@record(frozen=True)
class Entry:
    """One entity as written: its name (or index), its plain value, and its nodes for marks."""

    name: str
    value: Plain
    key: Node
    node: Node
    document: Document

    @property
    def mark(self) -> Mark:
        """Where it begins."""
        return self.document.mark(self.key)


@dataclass
class Gathered:
    """All files of a harness: sections of entries, in file order, and what was wrong so far."""

    folder: Path
    sections: dict[str, dict[str, Entry]] = field(default_factory=dict)
    files: list[Path] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def section(self, name: str) -> dict[str, Entry]:
        """The section's entries by name; empty if no file has it."""
        return self.sections.setdefault(name, {})


def top_file(path: Path) -> Path:
    """The file to start from: the path itself, or harness.yaml in a folder. Raises ReadingError."""
    if os.path.isdir(path):  # a name too long for any file is none
        inside = path / TOP_FILE
        if not inside.is_file():
            text = f"the folder holds no {TOP_FILE}; name the file, or write a starter with `harnessdoc new`"
            raise ReadingError([Problem(Mark(str(path), 1, 1), text)])
        return inside
    if not os.path.exists(path):
        raise ReadingError([Problem(Mark(str(path), 1, 1), "no such file or folder")])
    return path


def gather(path: Path) -> Gathered:
    """Read the top file and all it includes. Raises ReadingError for what stops reading at once."""
    top = top_file(path)
    gathered = Gathered(top.parent)
    _take_file(gathered, top, str(top), ())
    return gathered


def _take_file(gathered: Gathered, path: Path, shown: str, above: tuple[Path, ...]) -> None:
    document = load(path, shown)
    here = path.resolve()
    gathered.files.append(path)
    includes: list[Node] = []
    names: dict[str, Node] = {}
    for key, node in document.root.value:
        name = key.value if isinstance(key, ScalarNode) else ""
        if name not in SECTIONS:
            gathered.problems.append(
                document.problem(key, f"{name!r} is no section of a harness file{meant(name, SECTIONS)}")
            )
        elif name in names:
            line = names[name].start_mark.line + 1
            gathered.problems.append(document.problem(key, f"{name!r} stands twice; the first is on line {line}"))
        elif name == "include":
            includes = _include_nodes(gathered, document, node)
        elif name == "format":
            _take_format(gathered, document, node)
        else:
            _take_section(gathered, document, name, key, node)
        names.setdefault(name, key)
    for node in includes:
        _take_include(gathered, document, node, (*above, here))


def _take_format(gathered: Gathered, document: Document, node: Node) -> None:
    if node.value != str(FORMAT):
        written = repr(node.value) if isinstance(node, ScalarNode) else "no number"
        text = f"the format is {written}; this version of harnessdoc reads format {FORMAT}"
        gathered.problems.append(document.problem(node, text))


def _include_nodes(gathered: Gathered, document: Document, node: Node) -> list[Node]:
    parts = node.value if isinstance(node, SequenceNode) else [node]
    bad = [part for part in parts if not isinstance(part, ScalarNode)]
    gathered.problems += [document.problem(part, "include: wants file names") for part in bad]
    return [part for part in parts if isinstance(part, ScalarNode) and part.value]


def _take_include(gathered: Gathered, document: Document, node: Node, above: tuple[Path, ...]) -> None:
    """Read one included file; it must lie in the harness's folder and must not include itself."""
    target = gathered.folder / node.value
    try:
        resolved = target.resolve()
        inside = resolved.is_relative_to(gathered.folder.resolve())
        there = resolved.is_file()
    except (OSError, ValueError, RuntimeError):
        gathered.problems.append(document.problem(node, f"{node.value!r} is no file name"))
        return
    if not inside:
        gathered.problems.append(document.problem(node, f"{node.value!r} lies outside the harness's folder"))
    elif resolved in above:
        gathered.problems.append(document.problem(node, f"{node.value!r} includes itself, directly or by another file"))
    elif not there:
        gathered.problems.append(document.problem(node, f"{node.value!r} is not there"))
    elif resolved in {file.resolve() for file in gathered.files}:
        gathered.problems.append(document.problem(node, f"{node.value!r} is included twice"))
    else:
        try:
            _take_file(gathered, target, str(target), above)
        except ReadingError as error:
            gathered.problems += error.problems


def _take_section(gathered: Gathered, document: Document, name: str, key: Node, node: Node) -> None:
    entries = gathered.section(name)
    if isinstance(node, ScalarNode) and node.value == "":
        return
    if name == "harness":
        if entries:
            gathered.problems.append(
                document.problem(key, f"harness: stands in two files; the first is {entries[name].mark}")
            )
        else:
            entries[name] = Entry(name, to_plain(document, node, gathered.problems), key, node, document)
    elif name in LISTED:
        if not isinstance(node, SequenceNode):
            gathered.problems.append(document.problem(node, f"{name}: wants a list, each entry behind a dash"))
            return
        for part in node.value:
            index = f"{name} entry {len(entries) + 1}"
            entries[index] = Entry(index, to_plain(document, part, gathered.problems), part, part, document)
    else:
        _take_named(gathered, document, name, node)


def _take_named(gathered: Gathered, document: Document, section: str, node: Node) -> None:
    if not isinstance(node, MappingNode):
        gathered.problems.append(document.problem(node, f"{section}: wants a group of named entries"))
        return
    entries = gathered.section(section)
    for key, value in node.value:
        if not isinstance(key, ScalarNode):
            gathered.problems.append(document.problem(key, "a key must be a plain text"))
        elif key.value in entries:
            first = entries[key.value].mark
            gathered.problems.append(document.problem(key, f"{key.value!r} stands twice; the first is {first}"))
        else:
            entries[key.value] = Entry(key.value, to_plain(document, value, gathered.problems), key, value, document)
