"""Which fuse stands before which wire: feeds followed outward from their sources, through fuses, contacts and joints.

Topology and ratings only; what a wire may stand is not known here."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import NamedTuple

from harnessdoc.electrics.network import Inner, Network, never_together
from harnessdoc.model.harness import End, Harness, Wire
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.kinds.controls import SpeedController
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.routing.routing import Routing

GOES_ON = frozenset({Nature.CONTACT, Nature.JOINED, Nature.DRIVEN, Nature.PROTECTED})
"""Inner paths that a feed goes on through; a regulator's too, which passes its input's fault current when it fails."""
ENCLOSED = ("box", "enclosure", "enclosed", "cabinet", "panel")
"""Words in a place's zone that say that wires within it are enclosed."""
BARE_COVERS = ("none", "open", "bare")

Guard = tuple[str, str]
"""A fuse or breaker and the terminal that the feed leaves it by. For a controller's own fuse: the controller, ""."""


class Way(NamedTuple):
    """How a feed with no fuse comes to a point: its source, the wires, their length in mm (None if one is unknown), and
    whether they are sheathed or enclosed all along (None if unknown)."""

    source: Point
    wires: tuple[str, ...] = ()
    length_mm: float | None = 0.0
    sheathed: bool | None = True


class Protection:
    """What stands before each wire, for one harness."""

    def __init__(self, network: Network, routing: Routing) -> None:
        self.network = network
        self.harness: Harness = network.harness
        self.routing = routing
        self.conductors = dict(conductors(network))
        self._at: dict[Point, list[tuple[Wire, Point | None]]] = {}
        for wire in self.conductors.values():
            for near, far in ((wire.a.point, wire.b.point), (wire.b.point, wire.a.point)):
                if near is not None:
                    self._at.setdefault(near, []).append((wire, far))
        self._inner: dict[Point, list[Inner]] = {}
        for inner in network.inner:
            if inner.path.nature in GOES_ON:
                self._inner.setdefault(inner.a, []).append(inner)
                self._inner.setdefault(inner.b, []).append(inner)
        self._stops = frozenset(self._return_potentials())
        self.guards: dict[str, dict[Guard, Inner | None]] = {}
        """Wire to the fuses that it hangs on with no other between, and the last contact on the way."""
        self.behind: dict[Guard, list[str]] = {}
        """The same the other way round."""
        self.before: dict[Guard, list[Guard]] = {}
        """What stands before a fuse itself; empty where it hangs on a source with nothing between."""
        self._walk_all()

    def _return_potentials(self) -> Iterator[int]:
        potential = self.network.potential
        if CHASSIS in potential:
            yield potential[CHASSIS]
        for name, item in self.harness.items.items():
            for terminal, side in item.kind.sides().items():
                if side is Side.RETURN:
                    yield potential[Point(name, terminal)]

    def sources(self) -> Iterator[Point]:
        """Feeding terminals of all sources that are not on a return."""
        for name, item in self.harness.items.items():
            for terminal, side in item.kind.sides().items():
                point = Point(name, terminal)
                if side is Side.FEED and self.network.potential[point] not in self._stops:
                    yield point

    @cached_property
    def bare(self) -> Mapping[Point, Way]:
        """Points that a source reaches with no fuse between, by the shortest way; unknown lengths count as nothing."""
        found: dict[Point, Way] = {}
        seen: set[tuple[Point, Inner | None]] = set()
        count = 0
        todo: list[tuple[float, int, Point, Inner | None, Way]] = []
        for start in self.sources():
            todo.append((0.0, count, start, None, Way(start)))
            count += 1
        while todo:
            length, _, point, contact, way = heapq.heappop(todo)
            if (point, contact) in seen or (point, None) in seen:
                continue
            seen.add((point, contact))
            found.setdefault(point, way)
            for wire, far in self._at.get(point, ()):
                if far is not None and self._passable(far):
                    further = self._further(way, wire)
                    count += 1
                    heapq.heappush(todo, (length + (self.length_mm(wire) or 0.0), count, far, contact, further))
            for inner, far in self._through(point, contact):
                if inner.path.nature is not Nature.PROTECTED and not self._own_fuse(inner):
                    count += 1
                    heapq.heappush(todo, (length, count, far, inner if _is_contact(inner) else contact, way))
        return found

    def _further(self, way: Way, wire: Wire) -> Way:
        if wire.name not in self.harness.wires and wire.length_mm == 0:
            return way  # two mated cavities are no wire
        own = self.length_mm(wire)
        length = None if own is None or way.length_mm is None else way.length_mm + own
        return Way(way.source, (*way.wires, wire.name), length, _both(way.sheathed, self.sheathed(wire)))

    def length_mm(self, wire: Wire) -> float | None:
        """A wire's or a stub's length; None if unknown."""
        return self.routing.length_mm(wire.name) if wire.name in self.harness.wires else wire.length_mm

    def sheathed(self, wire: Wire) -> bool | None:
        """Whether it lies in a jacket, a covering or an enclosure all along; None where nobody said."""
        if wire.cable is not None:
            return True
        route = self.routing.routes.get(wire.name)
        runs = route.runs if route else None
        if runs is None:
            return None
        if not runs:
            name = self.harness.place_of(wire.a.point)
            place = self.harness.places.get(name) if name else None
            zone = (place.zone or "").casefold() if place else ""
            return True if any(word in zone for word in ENCLOSED) else None
        sheathed: bool | None = True
        for run in runs:
            cover = self.harness.runs[run].cover
            sheathed = _both(sheathed, None if cover is None else cover.casefold() not in BARE_COVERS)
        return sheathed

    def _passable(self, point: Point) -> bool:
        return self.network.potential.get(point) not in self._stops

    def _through(self, point: Point, contact: Inner | None) -> Iterator[tuple[Inner, Point]]:
        for inner in self._inner.get(point, ()):
            far = inner.b if inner.a == point else inner.a
            if self._passable(far) and not never_together(contact, inner):
                yield inner, far

    def own_fuse_at(self, point: Point) -> bool:
        """Whether the point is the feed of a controller with a fuse of its own."""
        item = self.harness.items.get(point.owner)
        kind = item.kind if item else None
        return isinstance(kind, SpeedController) and kind.own_fuse_a is not None and point.terminal == "IN+"

    def _own_fuse(self, inner: Inner) -> bool:
        return self.own_fuse_at(inner.a)

    def _walk_all(self) -> None:
        started: set[Guard] = set()
        todo: list[tuple[Guard, Point]] = []
        for inner, far in self._leaving(self.bare):
            guard = _guard(inner, far)
            if guard not in started:
                started.add(guard)
                self.before[guard] = []
                todo.append((guard, far))
        while todo:
            guard, start = todo.pop()
            for after, far in self._walk(guard, start):
                known = self.before.setdefault(after, [])
                if after not in started:
                    started.add(after)
                    todo.append((after, far))
                    known.append(guard)
                elif known and guard not in known:
                    known.append(guard)

    def _leaving(self, points: Mapping[Point, Way]) -> Iterator[tuple[Inner, Point]]:
        """Fuses at the edge of what is bare, each with the point behind it; those bridged by bare copper too."""
        for point in points:
            for inner, far in self._through(point, None):
                if inner.path.nature is Nature.PROTECTED or self._own_fuse(inner):
                    yield inner, far

    def _walk(self, guard: Guard, start: Point) -> list[tuple[Guard, Point]]:
        """Everything behind one fuse up to the next ones, which are returned."""
        edge: list[tuple[Guard, Point]] = []
        seen: set[tuple[Point, Inner | None]] = set()
        todo: list[tuple[Point, Inner | None]] = [(start, None)]
        behind = self.behind.setdefault(guard, [])
        while todo:
            point, contact = todo.pop()
            if (point, contact) in seen or (point, None) in seen:
                continue
            seen.add((point, contact))
            for wire, far in self._at.get(point, ()):
                guards = self.guards.setdefault(wire.name, {})
                if guard not in guards:
                    guards[guard] = contact
                    behind.append(wire.name)
                if far is not None and self._passable(far):
                    todo.append((far, contact))
            for inner, far in self._through(point, contact):
                if inner.path.nature is Nature.PROTECTED or self._own_fuse(inner):
                    if inner.item != guard[0] and far not in self.bare:
                        edge.append((_guard(inner, far), far))
                else:
                    todo.append((far, inner if _is_contact(inner) else contact))
        return list(dict.fromkeys(edge))

    def rating_a(self, device: str) -> float | None:
        """What a fuse, a breaker or a controller's own fuse is rated; None if nobody said."""
        kind = self.harness.items[device].kind
        return (
            kind.rating_a if isinstance(kind, Fuse) else kind.own_fuse_a if isinstance(kind, SpeedController) else None
        )

    @cached_property
    def passes(self) -> Mapping[Guard, float | None]:
        """Guard to the current in A that can flow through it for long: its rating, or less where all that stands before
        it passes less; None where the ratings that count are unknown."""
        found: dict[Guard, float | None] = {}
        for guard in self.before:
            self._passes(guard, found)
        return found

    def _passes(self, guard: Guard, found: dict[Guard, float | None]) -> None:
        """Depth first without recursion; what leads back to itself counts by its own rating."""
        trail = [guard]
        while trail:
            at = trail[-1]
            found.setdefault(at, self.rating_a(at[0]))
            fresh = [one for one in self.before[at] if one not in found]
            if fresh:
                trail.extend(fresh)
                continue
            trail.pop()
            upper = [found[one] for one in self.before[at]]
            known = [amps for amps in upper if amps is not None]
            own = self.rating_a(at[0])
            if upper and len(known) == len(upper):
                found[at] = sum(known) if own is None else min(own, sum(known))

    def together(self, wire: str) -> tuple[Guard, ...]:
        """The fuses that can feed a wire at one time, the group that passes most; () for a wire behind none."""
        guards = self.guards.get(wire, {})
        if len(guards) < 2 or not any(guards.values()):
            return tuple(guards)
        groups = [
            tuple(
                two for two, other in guards.items() if two == one or other is None or not never_together(mine, other)
            )
            for one, mine in guards.items()
        ]
        return max(groups, key=lambda group: sum(self.passes[guard] or 0.0 for guard in group), default=())


def _is_contact(inner: Inner) -> bool:
    return inner.path.nature is Nature.CONTACT


def _guard(inner: Inner, far: Point) -> Guard:
    return (inner.item, far.terminal if inner.path.nature is Nature.PROTECTED else "")


def _both(one: bool | None, other: bool | None) -> bool | None:
    return False if one is False or other is False else None if one is None or other is None else True


def conductors(network: Network) -> Iterator[tuple[str, Wire]]:
    """All that a feed goes along, by name: wires, the stubs that are joined again, and mated cavities, which have no
    size and no length."""
    harness = network.harness
    yield from harness.wires.items()
    for stub in harness.stubs.values():
        name = f"stub {stub.point}"
        ends = End(stub.joined_at), End(stub.point)
        yield name, Wire(name, *ends, size=stub.size, length_mm=stub.length_mm, existing=True, mark=stub.mark)
    for a, b in {frozenset(joint): joint for joint in network.joints}.values():
        if a not in harness.stubs or harness.stubs[a].joined_at != b:
            name = f"{a} and {b}"
            yield name, Wire(name, End(a), End(b), length_mm=0.0)
