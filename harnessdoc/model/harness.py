"""The harness: every wire, stub, splice, terminal and what is known of them. Frozen; nothing else keeps facts.

None stands for what nobody has found out yet, everywhere in this file. Lengths are in mm, currents in A,
voltages in V, resistances in ohm, temperatures in °C. Mappings are in the order of the file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from functools import cached_property

from harnessdoc.model.colours import Colour
from harnessdoc.model.face import Face, View
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.kinds import Kind
from harnessdoc.model.mark import NOWHERE, Mark
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.model.record import record

State = Mapping[str, str]
"""Positions of some switches and conditions of some sensors: item to position."""


def _mark() -> Mark:
    return field(default=NOWHERE, compare=False, repr=False)


@record(frozen=True)
class Revision:
    """One issue of the harness's papers: its index, its date (empty: not stated), what was changed."""

    index: str
    date: str = ""
    what: str = ""


@record(frozen=True)
class Title:
    """What the title block and the record book say of the whole, and what holds for all wires.

    `ampacity_rule`: the table that wires are judged by, "33 CFR" or "ISO 10133". `insulation_c`: what the insulation of
    wires stands that do not state their own. `revisions`: the oldest first; the last is the present one."""

    title: str
    number: str
    revision: str = ""
    date: str = ""
    owner: str = ""
    drawn_by: str = ""
    approved_by: str = ""
    records: str | None = None
    colour_rule: str | None = None
    ampacity_rule: str = "33 CFR"
    insulation_c: float | None = None
    remarks: str = ""
    revisions: tuple[Revision, ...] = ()
    mark: Mark = _mark()


@record(frozen=True)
class Place:
    """A named position on the vehicle. `zone`: cabin, outside, engine space, wet, ..."""

    name: str
    zone: str | None = None
    warm_c: float | None = None
    about: str = ""
    mark: Mark = _mark()


@record(frozen=True)
class Run:
    """The physical way between two places, with what covers it and what it passes through."""

    a: str
    b: str
    length_mm: float | None = None
    cover: str | None = None
    hole_mm: float | None = None
    grommet: bool | None = None
    warm_c: float | None = None
    mark: Mark = _mark()

    @property
    def name(self) -> str:
        """`cab - mast`."""
        return f"{self.a} - {self.b}"


@record(frozen=True)
class Item:
    """Anything that wires land on. `takes`: how many ends one terminal holds, where the item states it."""

    name: str
    kind: Kind
    place: str | None = None
    title: str = ""
    existing: bool = False
    takes: int | None = None
    left_open: tuple[str, ...] = ()
    remarks: str = ""
    mark: Mark = _mark()

    @property
    def terminals(self) -> tuple[str, ...]:
        """Names of its terminals."""
        return self.kind.terminals()


@record(frozen=True)
class Plug:
    """A connector half with its face. `cut`: cavity to date of the cut. `mates_with`: the other half's name.

    `contacts`: sockets or pins, None if not stated. The face is that of this half, mirrored where it has pins.
    `rating_a`: what one cavity carries."""

    name: str
    face: Face
    view: View = View.WIRE_SIDE
    title: str = ""
    place: str | None = None
    mates_with: str | None = None
    contacts: str | None = None
    cut: Mapping[str, str] = field(default_factory=dict)
    empty: tuple[str, ...] = ()
    legend: Mapping[str, str] = field(default_factory=dict)
    takes: int = 1
    rating_a: float | None = None
    remarks: str = ""
    mark: Mark = _mark()

    @property
    def terminals(self) -> tuple[str, ...]:
        """Names of its cavities."""
        return self.face.cavity_names


@record(frozen=True)
class End:
    """One end of a wire. `point` None and `tail` False: nobody knows where it goes. `tail`: cut, not landed yet."""

    point: Point | None = None
    tail: bool = False
    hardware: Hardware | None = None
    strip_mm: float | None = None

    @property
    def text(self) -> str:
        """As printed: `X4:3`, `tail` or `unknown`."""
        return "tail" if self.tail else str(self.point) if self.point else "unknown"


@record(frozen=True)
class Wire:
    """One conductor, end to end. `existing`: it was there before, and keeps its colour and its unknown length."""

    name: str
    a: End
    b: End
    colour: Colour | None = None
    size: Size | None = None
    length_mm: float | None = None
    circuit: str | None = None
    existing: bool = False
    was_at: Point | None = None
    drive: str | None = None
    role: str | None = None
    cable: str | None = None
    outside_mm: float | None = None
    insulation_c: float | None = None
    remarks: str = ""
    mark: Mark = _mark()

    @property
    def ends(self) -> tuple[End, End]:
        """Both ends, from first."""
        return (self.a, self.b)

    @property
    def points(self) -> tuple[Point, ...]:
        """The points that it is known to land on."""
        return tuple(end.point for end in (self.a, self.b) if end.point is not None)


@record(frozen=True)
class Cable:
    """Several conductors in one jacket; its cores are wires named CABLE.CORE. `spare`: cores that land nowhere."""

    name: str
    cores: tuple[str, ...]
    spare: tuple[str, ...] = ()
    outside_mm: float | None = None
    length_mm: float | None = None
    remarks: str = ""
    mark: Mark = _mark()


@record(frozen=True)
class Splice:
    """A joint of wire ends outside any item. `holds_mm2`: copper its method takes; `rating_a`: what it carries.

    `between`: it sits on the run between these two places, `after_mm` from the first of them (its datum)."""

    name: str
    method: str | None = None
    barrel: str = ""
    holds_mm2: float | None = None
    rating_a: float | None = None
    cover: str | None = None
    place: str | None = None
    colour_change: str = ""
    size_change: str = ""
    remarks: str = ""
    between: tuple[str, str] | None = None
    after_mm: float | None = None
    mark: Mark = _mark()


@record(frozen=True)
class Stub:
    """The piece left in a cavity whose wire was cut. `wire`: the wire it was part of; `joined_at`: its new splice."""

    point: Point
    colour: Colour | None = None
    size: Size | None = None
    length_mm: float | None = None
    wire: str | None = None
    did: str | None = None
    capped: bool | None = None
    joined_at: Point | None = None
    remarks: str = ""
    mark: Mark = _mark()


@record(frozen=True)
class Circuit:
    """One job the harness does. `key`: the permanent part of its record's address, where the file states it.

    `drop_limit_percent`: the most its wiring may lose of the supply's voltage on the way to a load and back."""

    name: str
    title: str = ""
    does: str = ""
    remarks: str = ""
    photos: tuple[str, ...] = ()
    items: tuple[str, ...] = ()
    key: str | None = None
    drop_limit_percent: float | None = None
    mark: Mark = _mark()


@record(frozen=True)
class LostFunction:
    """What a removed module used to do: replaced by items here, waived for a reason, or neither."""

    name: str
    module: str | None = None
    replaced_by: tuple[str, ...] = ()
    waived: str | None = None
    mark: Mark = _mark()


@record(frozen=True)
class Operation:
    """What must be live and dead in a given state."""

    when: State
    live: tuple[str, ...] = ()
    dead: tuple[str, ...] = ()
    fails_safe: bool = False
    mark: Mark = _mark()


@record(frozen=True)
class Reading:
    """Something the meter said. One of `volts`, `ohms`, `amps` or `continuity` is stated."""

    on: str | None
    between: tuple[Point, Point]
    when: State = field(default_factory=dict)
    volts: float | None = None
    ohms: float | None = None
    amps: float | None = None
    continuity: bool | None = None
    loaded_with: str | None = None
    remarks: str = ""
    mark: Mark = _mark()


@record(frozen=True)
class Harness:
    """The whole, by name. Two harnesses that say the same are equal, wherever they were written."""

    title: Title
    places: Mapping[str, Place] = field(default_factory=dict)
    runs: tuple[Run, ...] = ()
    items: Mapping[str, Item] = field(default_factory=dict)
    plugs: Mapping[str, Plug] = field(default_factory=dict)
    wires: Mapping[str, Wire] = field(default_factory=dict)
    cables: Mapping[str, Cable] = field(default_factory=dict)
    splices: Mapping[str, Splice] = field(default_factory=dict)
    stubs: Mapping[Point, Stub] = field(default_factory=dict)
    circuits: Mapping[str, Circuit] = field(default_factory=dict)
    lost_functions: Mapping[str, LostFunction] = field(default_factory=dict)
    operation: tuple[Operation, ...] = ()
    readings: tuple[Reading, ...] = ()

    @cached_property
    def landings(self) -> Mapping[Point, tuple[tuple[Wire, End], ...]]:
        """Point to the wire ends that land on it, in the order of the file."""
        found: dict[Point, list[tuple[Wire, End]]] = {}
        for wire in self.wires.values():
            for end in wire.ends:
                if end.point is not None:
                    found.setdefault(end.point, []).append((wire, end))
        return {point: tuple(ends) for point, ends in found.items()}

    @cached_property
    def by_circuit(self) -> Mapping[str, tuple[Wire, ...]]:
        """Circuit to its wires; a circuit that wires name but the file does not describe is there too."""
        found: dict[str, list[Wire]] = {name: [] for name in self.circuits}
        for wire in self.wires.values():
            if wire.circuit is not None:
                found.setdefault(wire.circuit, []).append(wire)
        return {name: tuple(wires) for name, wires in found.items()}

    def circuit(self, name: str) -> Circuit:
        """The circuit as described, or a bare one where only wires name it."""
        return self.circuits.get(name) or Circuit(name)

    def terminals_of(self, owner: str) -> tuple[str, ...] | None:
        """Terminals of an item, cavities of a plug, ("",) of a splice; None if there is no such thing."""
        if owner in self.items:
            return self.items[owner].terminals
        if owner in self.plugs:
            return self.plugs[owner].terminals
        return ("",) if owner in self.splices else None

    def has(self, point: Point) -> bool:
        """Whether the point exists."""
        return point.terminal in (self.terminals_of(point.owner) or ())

    def place_of(self, point: Point | None) -> str | None:
        """The place where a point is, as far as it is stated."""
        if point is None:
            return None
        owner: Item | Plug | Splice | None = (
            self.items.get(point.owner) or self.plugs.get(point.owner) or self.splices.get(point.owner)
        )
        return owner.place if owner else None

    def title_of(self, owner: str) -> str:
        """The words that go with a designation: an item's or a plug's title, "" if none."""
        part: Item | Plug | None = self.items.get(owner) or self.plugs.get(owner)
        return part.title if part else ""

    def points(self) -> Iterator[Point]:
        """All points that exist: items first, then plugs, then splices."""
        for name, item in self.items.items():
            yield from (Point(name, terminal) for terminal in item.terminals)
        for name, plug in self.plugs.items():
            yield from (Point(name, terminal) for terminal in plug.terminals)
        yield from (Point(name) for name in self.splices)
