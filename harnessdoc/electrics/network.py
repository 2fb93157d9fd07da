"""The network derived from a harness: points, the copper between them, the paths inside items, and potentials.

A potential is all that copper holds together: wires, splices, mated plugs, joined terminals, the chassis.
Quantities only; no verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from typing import NamedTuple

from harnessdoc.electrics.joining import Joining
from harnessdoc.model.harness import Harness, Wire
from harnessdoc.model.kinds.base import InnerPath, Nature, Side
from harnessdoc.model.kinds.joints import EarthPoint
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.record import record

PASSING = frozenset({Nature.JOINED, Nature.PROTECTED, Nature.CONTACT, Nature.DRIVEN})
"""Paths that pass a supply on, in some position at least."""


class Inner(NamedTuple):
    """A path inside an item, between two points."""

    item: str
    a: Point
    b: Point
    path: InnerPath


@record(frozen=True, eq=False)
class Network:
    """Every point with the number of its potential, and the paths inside items that lead from one to another."""

    harness: Harness
    potential: Mapping[Point, int]
    inner: tuple[Inner, ...]
    joints: tuple[tuple[Point, Point], ...]
    """Points that are one without a wire between: mated cavities, a stub and what it is joined to."""

    @cached_property
    def members(self) -> Mapping[int, tuple[Point, ...]]:
        """Potential to its points."""
        found: dict[int, list[Point]] = {}
        for point, number in self.potential.items():
            found.setdefault(number, []).append(point)
        return {number: tuple(points) for number, points in found.items()}

    @cached_property
    def wires(self) -> Mapping[int, tuple[Wire, ...]]:
        """Potential to the wires that are part of it. A wire with no known end is on none."""
        found: dict[int, list[Wire]] = {}
        for wire in self.harness.wires.values():
            number = self.of_wire(wire)
            if number is not None:
                found.setdefault(number, []).append(wire)
        return {number: tuple(wires) for number, wires in found.items()}

    def of_wire(self, wire: Wire) -> int | None:
        """The potential that a wire is part of; None when neither end is known."""
        return next((self.potential[point] for point in wire.points), None)

    @cached_property
    def ways(self) -> Mapping[int, tuple[Inner, ...]]:
        """Potential to the inner paths that touch it and pass a supply on."""
        found: dict[int, list[Inner]] = {}
        for inner in self.inner:
            if inner.path.nature in PASSING:
                found.setdefault(self.potential[inner.a], []).append(inner)
                found.setdefault(self.potential[inner.b], []).append(inner)
        return {number: tuple(ways) for number, ways in found.items()}

    def reached(self, starts: Iterable[int], natures: frozenset[Nature] = PASSING) -> frozenset[int]:
        """All potentials that the starts lead to through inner paths of those natures, in any position.

        A way never goes on through a contact that is open while the one it came by is closed: a changeover does not
        join its make side to its break side. Only the last contact on the way is remembered."""
        seen: set[tuple[int, Inner | None]] = {(number, None) for number in starts}
        todo = list(seen)
        while todo:
            number, last = todo.pop()
            for inner in self.ways.get(number, ()):
                if inner.path.nature not in natures or never_together(last, inner):
                    continue
                came_by = inner if inner.path.nature is Nature.CONTACT else last
                for other in (self.potential[inner.a], self.potential[inner.b]):
                    if other != number and (other, None) not in seen and (other, came_by) not in seen:
                        seen.add((other, came_by))
                        todo.append((other, came_by))
        return frozenset(number for number, _ in seen)

    def _at_side(self, side: Side) -> Iterator[int]:
        for name, item in self.harness.items.items():
            for terminal, its_side in item.kind.sides().items():
                if its_side is side:
                    yield self.potential[Point(name, terminal)]

    @cached_property
    def fed(self) -> frozenset[int]:
        """Potentials that some position of switches joins to a source's feed."""
        return self.reached(self._at_side(Side.FEED))

    @cached_property
    def returning(self) -> frozenset[int]:
        """Potentials that some position of switches joins to a source's return or to the chassis."""
        chassis = [self.potential[CHASSIS]] if CHASSIS in self.potential else []
        return self.reached([*self._at_side(Side.RETURN), *chassis])

    def role(self, wire: Wire) -> str | None:
        """feed, return, signal or earth: as the wire states it, else by what it reaches; None if both or unknown."""
        if wire.role is not None:
            return wire.role
        number = self.of_wire(wire)
        if number is None:
            return None
        fed, returning = number in self.fed, number in self.returning
        if fed and returning:
            return None
        return "feed" if fed else "return" if returning else "signal"


def never_together(one: Inner | None, other: Inner) -> bool:
    """Whether two contacts of one item are closed in no position both."""
    if one is None or one.item != other.item or one == other:
        return False
    closed, too = one.path.closed, other.path.closed
    return bool(closed and too) and not set(closed) & set(too)


def build_network(harness: Harness) -> Network:
    """Join what copper joins and number the potentials, in the order of the file."""
    joined: Joining[Point] = Joining()
    for point in harness.points():
        joined.add(point)
    inner = tuple(_inner(harness))
    for path in inner:
        joined.add(path.a)
        joined.add(path.b)
    joints = tuple(dict.fromkeys(_joints(harness)))
    for a, b in bonds(harness, inner, joints):
        joined.join(a, b)
    for wire in harness.wires.values():
        points = wire.points
        for point in points:
            joined.add(point)
        if len(points) == 2:
            joined.join(points[0], points[1])
    for stub in harness.stubs.values():
        joined.add(stub.point)
    return Network(harness, joined.numbers(), inner, joints)


def _inner(harness: Harness) -> Iterator[Inner]:
    for name, item in harness.items.items():
        for path in item.kind.paths():
            yield Inner(name, Point(name, path.a), Point(name, path.b), path)


def bonds(
    harness: Harness, inner: Iterable[Inner], joints: Iterable[tuple[Point, Point]]
) -> Iterator[tuple[Point, Point]]:
    """All that is joined without a wire: bridges inside items, mated plugs, the chassis and other bodies."""
    yield from joints
    yield from ((path.a, path.b) for path in inner if path.path.nature is Nature.JOINED)
    for name, item in harness.items.items():
        yield from ((Point(name, terminal), CHASSIS) for terminal in item.kind.on_chassis())
        if isinstance(item.kind, EarthPoint):
            yield Point(name), Point(item.kind.body)


def _joints(harness: Harness) -> Iterator[tuple[Point, Point]]:
    for stub in harness.stubs.values():
        if stub.joined_at is not None:
            yield stub.point, stub.joined_at
    for name, plug in harness.plugs.items():
        other = harness.plugs.get(plug.mates_with or "")
        if other is not None and other is not plug:
            cavities = set(other.terminals)
            yield from ((Point(name, c), Point(other.name, c)) for c in plug.terminals if c in cavities)
