"""Read a harness: gather its files, validate each section, build the model. All faults of all files at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar

from harnessdoc import layouts
from harnessdoc.model.face import Face
from harnessdoc.model.harness import Cable, Harness, Item, Plug, Stub, Title, Wire
from harnessdoc.model.kinds import KINDS
from harnessdoc.model.mark import Mark
from harnessdoc.model.points import CHASSIS, Point, PointError, parse_point
from harnessdoc.reading import build, revisions, shapes
from harnessdoc.reading.document import collector_off, key_node, load, locate, to_plain
from harnessdoc.reading.face_shape import FaceShape
from harnessdoc.reading.faces import FaceError, make_face
from harnessdoc.reading.gather import Entry, Gathered, gather
from harnessdoc.reading.problems import Problem, ReadingError, meant
from harnessdoc.reading.validate import validate_all, validate_item
from harnessdoc.tables.colour_rules import rule_names

T = TypeVar("T")
NAME_LIMIT = 300


def read_harness(path: Path) -> Harness:
    """Read a file, or a folder's harness.yaml with all it includes.

    Raises ReadingError naming every fault of shape with file, line and column. What relates two entities (a point
    that does not exist) is left to the checks."""
    with collector_off():
        gathered = gather(path)
        return _Assembly(gathered).harness()


class _Assembly:
    """Sections of entries to a Harness, with the problems on the way."""

    def __init__(self, gathered: Gathered) -> None:
        self.gathered = gathered
        self.problems = gathered.problems
        self.faces: dict[str, Face] = {}

    def harness(self) -> Harness:
        for section in ("items", *shapes.MAPPED):
            self._check_names(section)
        title = self._title()
        places = self._named("places", build.place)
        items = self._items()
        splices = self._named("splices", build.splice)
        plugs = self._plugs()
        wires = self._named("wires", build.wire)
        cables = self._cables(wires)
        stubs = self._stubs()
        circuits = self._named("circuits", build.circuit)
        lost = self._named("lost functions", build.lost_function)
        runs = self._listed("runs", build.run)
        operation = self._listed("operation", build.operation)
        readings = self._listed("readings", build.reading)
        self._one_name_one_thing(items, plugs, splices)
        if self.problems or title is None:
            raise ReadingError(self.problems)
        return Harness(
            title,
            places,
            runs,
            items,
            plugs,
            wires,
            cables,
            splices,
            stubs,
            circuits,
            lost,
            operation,
            readings,
        )

    def _title(self) -> Title | None:
        section = self.gathered.section("harness")
        if not section:
            top = self.gathered.files[0]
            self.problems.append(
                Problem(Mark(str(top), 1, 1), "the section harness: is missing, with title and number")
            )
            return None
        shape = validate_all(shapes.TitleShape, section, self.problems).get("harness")
        entry = section["harness"]
        if shape is not None and shape.colour_rule is not None and shape.colour_rule not in rule_names():
            node, _ = locate(entry.node, ("colour rule",))
            text = f"{shape.colour_rule!r} is no colour rule{meant(shape.colour_rule, rule_names())}"
            self.problems.append(entry.document.problem(node, text))
        if shape is None:
            return None
        for path, text in revisions.faults_of(shape):
            node, _ = locate(entry.node, path)
            self.problems.append(entry.document.problem(node, text))
        return build.title(revisions.with_last(shape), entry.mark)

    def _check_names(self, section: str) -> None:
        """A name may be anything printable but holds no colon (it parts item and terminal) and has a limit."""
        for name, entry in self.gathered.section(section).items():
            if not name.strip() or not name.isprintable():
                text = f"{name!r} is no name: it is empty or holds control characters"
            elif len(name) > NAME_LIMIT:
                text = f"a name of {len(name)} characters; the limit is {NAME_LIMIT}"
            elif section in ("items", "plugs", "splices", "cables") and ":" in name:
                text = f"{name!r} holds a colon, which parts an item from its terminal"
            elif section in ("items", "plugs", "splices") and name.lower() in (
                "tail",
                "unknown",
                "?",
                CHASSIS.owner,
            ):
                text = f"{name!r} is a word of the file and can't be a name"
            else:
                continue
            self.problems.append(entry.document.problem(entry.key, text))

    def _named(self, section: str, make: Callable[[str, Any, Mark], T]) -> dict[str, T]:
        entries = self.gathered.section(section)
        valid = validate_all(shapes.MAPPED[section], entries, self.problems)
        return {name: make(name, shape, entries[name].mark) for name, shape in valid.items()}

    def _listed(self, section: str, make: Callable[[Any, Mark], T]) -> tuple[T, ...]:
        entries = self.gathered.section(section)
        valid = validate_all(shapes.LISTED[section], entries, self.problems)
        return tuple(make(shape, entries[name].mark) for name, shape in valid.items())

    def _items(self) -> dict[str, Item]:
        """Items, each held against the shape of its kind."""
        made: dict[str, Item] = {}
        for name, entry in self.gathered.section("items").items():
            kind = entry.value.get("is") if isinstance(entry.value, dict) else None
            if not isinstance(kind, str) or kind not in KINDS:
                self.problems.append(_no_kind(entry, kind))
                continue
            valid = validate_item(entry, kind, self.problems)
            if valid is not None:
                made[name] = build.item(name, *valid, entry.mark)
        return made

    def _plugs(self) -> dict[str, Plug]:
        entries = self.gathered.section("plugs")
        shapes_of = validate_all(shapes.PlugShape, entries, self.problems)
        plugs: dict[str, Plug] = {}
        for name, shape in shapes_of.items():
            face = self._face(name, shape, entries[name])
            if face is not None:
                pins = _has_pins(shape, shapes_of.get(shape.mates_with or ""), shape.mates_with in plugs)
                plugs[name] = build.plug(name, shape, face, entries[name].mark, pins)
        return plugs

    def _face(self, name: str, shape: shapes.PlugShape, entry: Entry) -> Face | None:
        """The plug's face, from the file itself or from a layout; a layout is read once."""
        node, _ = locate(entry.node, ("face",))
        try:
            if not isinstance(shape.face, str):
                return make_face(f"face of {name}", shape.face)
            if shape.face not in self.faces:
                self.faces[shape.face] = self._face_file(shape.face)
            return self.faces[shape.face]
        except FaceError as error:
            node, _ = locate(node, error.at)
            self.problems.append(entry.document.problem(node, f"{name}: face: {error}"))
        except ValueError as error:
            self.problems.append(entry.document.problem(node, f"{name}: face: {error}"))
        except ReadingError as error:
            self.problems += [problem for problem in error.problems if problem not in self.problems]
        return None

    def _face_file(self, face: str) -> Face:
        path = layouts.find("plugs", face, self.gathered.folder)
        document = load(path, f"layouts/plugs/{path.name}")
        problems: list[Problem] = []
        entry = Entry(face, to_plain(document, document.root, problems), document.root, document.root, document)
        shape = validate_all(FaceShape, {face: entry}, problems).get(face)
        if problems or shape is None:
            raise ReadingError(problems)
        try:
            return make_face(face, shape)
        except FaceError as error:
            node, _ = locate(document.root, error.at)
            raise ReadingError([document.problem(node, f"{face}: {error}")]) from None

    def _cables(self, wires: dict[str, Wire]) -> dict[str, Cable]:
        entries = self.gathered.section("cables")
        cables = {}
        for name, shape in validate_all(shapes.CableShape, entries, self.problems).items():
            entry = entries[name]
            value: Any = entry.value
            stated = {core: keys if isinstance(keys, dict) else () for core, keys in value["cores"].items()}
            cables[name], cores = build.cable(name, shape, stated, entry.mark)
            parent, _ = locate(entry.node, ("cores",))
            for core in cores:
                node = key_node(parent, core.name.removeprefix(f"{name}.")) or entry.key
                if core.name in wires:
                    self.problems.append(entry.document.problem(node, f"{core.name!r} is a wire's name too"))
                wires[core.name] = replace(core, mark=entry.document.mark(node))
        return cables

    def _stubs(self) -> dict[Point, Stub]:
        entries = self.gathered.section("stubs")
        stubs: dict[Point, Stub] = {}
        for name, shape in validate_all(shapes.StubShape, entries, self.problems).items():
            try:
                point = parse_point(name)
            except PointError as error:
                self.problems.append(entries[name].document.problem(entries[name].key, str(error)))
                continue
            if point in stubs:
                text = f"{point} has two stubs; the first is {stubs[point].mark}"
                self.problems.append(entries[name].document.problem(entries[name].key, text))
            stubs[point] = build.stub(point, shape, entries[name].mark)
        return stubs

    def _one_name_one_thing(self, *groups: dict[str, Any]) -> None:
        """Items, plugs and splices share one set of names, since a point may name any of them."""
        seen: dict[str, Mark] = {}
        for section, group in zip(("items", "plugs", "splices"), groups, strict=True):
            for name in group:
                entry = self.gathered.section(section)[name]
                if name in seen:
                    self.problems.append(
                        entry.document.problem(entry.key, f"{name!r} names two things; the first is {seen[name]}")
                    )
                seen.setdefault(name, entry.mark)


def _no_kind(entry: Entry, kind: Any) -> Problem:
    if not isinstance(entry.value, dict):
        return entry.document.problem(entry.node, f"{entry.name}: expected a group such as {{is: fuse, rating: 15 A}}")
    if kind is None:
        return entry.document.problem(entry.key, f"{entry.name}: the key 'is' is missing{meant('', KINDS)}")
    node, _ = locate(entry.node, ("is",))
    return entry.document.problem(
        node, f"{entry.name}: {str(kind)[:60]!r} is no kind of item{meant(str(kind), KINDS, 0.7)}"
    )


def _has_pins(shape: shapes.PlugShape, mate: shapes.PlugShape | None, mate_came_first: bool) -> bool:
    """Whether this half is drawn with pins: as it states, else unlike its mate; of two that say nothing the second."""
    if shape.contacts is not None:
        return shape.contacts == "pins"
    if mate is None:
        return False
    return mate.contacts == "sockets" or (mate.contacts is None and mate_came_first)
