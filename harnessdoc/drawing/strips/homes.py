"""Which circuit's strip draws what: items in parts (a coil, a contact, a joined group of ways), each at home in one.

A part is at home in the circuit that lists its item, if that has a wire on it, else in the first that has."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final, Literal

from harnessdoc.model.harness import Harness, Item, Stub, Wire
from harnessdoc.model.kinds.base import Nature
from harnessdoc.model.kinds.joints import EarthPoint, TerminalStrip
from harnessdoc.model.kinds.loads import Diode, Load
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.kinds.sources import Source
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point

NO_CIRCUIT: Final = ""
"""The name under which wires are kept that are in no circuit."""
Shape = Literal["two", "contacts", "coil", "box", "pole", "bar", "earth"]


@dataclass(eq=False, slots=True)
class Part:
    """Some terminals of an item that are drawn together."""

    item: Item
    shape: Shape
    terminals: tuple[str, ...]
    home: str | None = None

    @property
    def points(self) -> tuple[Point, ...]:
        """Its points."""
        return tuple(Point(self.item.name, terminal) for terminal in self.terminals)


@dataclass(frozen=True, eq=False, repr=False)
class Homes:
    """All parts of a harness with the circuit that draws each."""

    harness: Harness
    parts: Mapping[Point, Part] = field(repr=False)

    @cached_property
    def wires(self) -> Mapping[str, Sequence[Wire]]:
        """Circuit to its wires; those in none under NO_CIRCUIT."""
        loose = [wire for wire in self.harness.wires.values() if wire.circuit is None]
        return {**self.harness.by_circuit, NO_CIRCUIT: loose}

    @cached_property
    def by_item(self) -> Mapping[str, tuple[Part, ...]]:
        """Item to its parts."""
        found: dict[str, dict[int, Part]] = {name: {} for name in self.harness.items}
        for part in self.parts.values():
            found[part.item.name][id(part)] = part
        return {name: tuple(parts.values()) for name, parts in found.items()}

    @cached_property
    def stubs_at(self) -> Mapping[Point, tuple[Stub, ...]]:
        """Splice to the stubs that are joined there."""
        found: dict[Point, tuple[Stub, ...]] = {}
        for stub in self.harness.stubs.values():
            if stub.joined_at is not None:
                found[stub.joined_at] = (*found.get(stub.joined_at, ()), stub)
        return found

    @cached_property
    def mates(self) -> Mapping[Point, Point]:
        """Cavity to the one it mates with."""
        found: dict[Point, Point] = {}
        for name, plug in self.harness.plugs.items():
            other = self.harness.plugs.get(plug.mates_with or "")
            if other is not None and other is not plug:
                shared = set(other.terminals)
                pairs = ((Point(name, c), Point(other.name, c)) for c in plug.terminals if c in shared)
                for a, b in pairs:
                    found.setdefault(a, b)
                    found.setdefault(b, a)
        return found

    def circuits_at(self, point: Point) -> dict[str, list[Wire]]:
        """Circuit to its wires on a point."""
        found: dict[str, list[Wire]] = {}
        for wire, _ in self.harness.landings.get(point, ()):
            wires = found.setdefault(wire.circuit or NO_CIRCUIT, [])
            if wire not in wires[-1:]:
                wires.append(wire)
        return found

    def drawn_in(self, point: Point) -> str | None:
        """The circuit whose strip draws an item's terminal; None for what every strip draws for itself."""
        part = self.parts.get(point)
        return part.home if part is not None and part.shape != "earth" else None


def find_homes(harness: Harness) -> Homes:
    """Divide all items and find where each part is drawn."""
    listed: dict[str, str] = {}
    for circuit in harness.circuits.values():
        for name in circuit.items:
            listed.setdefault(name, circuit.name)
    parts: dict[Point, Part] = {}
    homes = Homes(harness, parts)
    for name, item in harness.items.items():
        for part in parts_of(item, {t for t in item.terminals if Point(name, t) in harness.landings}):
            parts.update(dict.fromkeys(part.points, part))
            wired = [circuit for point in part.points for circuit in homes.circuits_at(point)]
            stated = listed.get(name)
            part.home = stated if stated in wired or not wired else wired[0]
    return homes


def parts_of(item: Item, used: set[str]) -> list[Part]:
    """An item's parts; `used`: terminals that wires land on. A terminal may be in one part only."""
    kind = item.kind
    if isinstance(kind, EarthPoint):
        return [Part(item, "earth", ("",))]
    if isinstance(kind, Source):
        return [Part(item, "pole", (terminal,)) for terminal in kind.terminals()]
    if isinstance(kind, Fuse | Load | Diode):
        return [Part(item, "two", kind.terminals())]
    if isinstance(kind, TerminalStrip):
        return [Part(item, "bar", group) for group in _groups(kind.terminals(), _pairs(item, Nature.JOINED))]
    contacts = [Part(item, "contacts", g) for g in _groups((), _pairs(item, Nature.CONTACT))]
    if isinstance(kind, Switch):
        return contacts
    if isinstance(kind, Relay):
        return [Part(item, "coil", ("86", "85")), *contacts]
    if isinstance(kind, RelayBoard):
        return [Part(item, "box", ("+", "IN", "-")), *contacts]
    return [Part(item, "box", kind.terminals())] if kind.terminals() else []


def _pairs(item: Item, nature: Nature) -> list[tuple[str, str]]:
    return [(path.a, path.b) for path in item.kind.paths() if path.nature is nature]


def _groups(alone: Iterable[str], pairs: Iterable[tuple[str, str]]) -> list[tuple[str, ...]]:
    """Terminals that pairs join, in their order."""
    group: dict[str, dict[str, None]] = {terminal: {terminal: None} for terminal in alone}
    for a, b in pairs:
        one, other = group.setdefault(a, {a: None}), group.setdefault(b, {b: None})
        if one is not other:
            one.update(other)
            group.update(dict.fromkeys(other, one))
    return [tuple(terminals) for terminals in {id(g): g for g in group.values()}.values()]
