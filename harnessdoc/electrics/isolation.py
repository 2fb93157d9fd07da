"""Which switch cuts the most off, whether that isolates, and what keeps a voltage even then. Quantities, no verdict.

What stays joined to a source is found by copper, fuses and contacts in any position, so it may be more than is ever
live at once, never less. A switch isolates only where nothing can run past it: what the states tell of an item counts,
else it must be parted from a source's feed or from its return by the drawn conductors."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import Final, NamedTuple

from harnessdoc.electrics.circuit import Gate
from harnessdoc.electrics.operation import LiveRow, live_table
from harnessdoc.electrics.study import Study
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.kinds.joints import EarthPoint, TerminalStrip
from harnessdoc.model.kinds.loads import Diode
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.sources import Source
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point

_CONDUCT: Final = frozenset({"wire", "fuse", "contact", "drive"})
_NEVER_RUN: Final = (Switch, TerminalStrip, EarthPoint, Fuse, Source, Diode)
"""Kinds that only pass a supply on, or give it; any other can run."""
_Ways = Mapping[int, Sequence[tuple[int, Gate | None]]]


class Isolation(NamedTuple):
    """`device` in `position` leaves the least live; None where no switch cuts anything off. `still`: items that can be
    live even then, `unknown`: those that can't be told, each with the reason. `hot`: points that stay joined to a
    source's feed, `wires` between them. `opens_return`: it parts the return, so the whole feed keeps the battery's
    voltage against its other post. `unproven`: what is neither told nor parted, wires and cavities that lead nobody
    knows where among them; `isolates`: nothing is `still` live, nothing `unproven`."""

    device: str | None
    position: str
    still: tuple[str, ...]
    unknown: tuple[tuple[str, str], ...]
    hot: tuple[Point, ...]
    wires: tuple[str, ...]
    sources: tuple[str, ...]
    opens_return: bool = False
    unproven: tuple[str, ...] = ()

    @property
    def isolates(self) -> bool:
        """Whether no load, motor, lamp, coil or sensor can run with the switch off."""
        return self.device is not None and not self.still and not self.unproven


def isolation(study: Study) -> Isolation:
    """Find the switch and position that leave the fewest items live; of several the one that leaves the fewest points
    joined to a source."""
    search = _Search(study)
    best = min(search.tried(), key=search.left, default=None)
    if best is None or search.left(best) >= search.left((None, "")):
        return search.told(None, "")
    return search.told(*best)


def without_switching(study: Study) -> Isolation:
    """What keeps a voltage and what can run whatever is switched: the same of no switch."""
    return _Search(study).told(None, "")


class _Search:
    """Ways through the circuit, made once for all switches."""

    def __init__(self, study: Study) -> None:
        self.study, self.circuit, self.harness = study, study.circuit, study.network.harness
        self.feeds = self._at_side(Side.FEED)
        self.returns = self._at_side(Side.RETURN)
        self.rows = [row for table in live_table(study) for row in table.rows]

    @cached_property
    def counts(self) -> Mapping[int, int]:
        """Node to how many points are in it."""
        found: dict[int, int] = {}
        for node in self.circuit.node.values():
            found[node] = found.get(node, 0) + 1
        return found

    @cached_property
    def copper(self) -> _Ways:
        """Ways that pass a supply on."""
        return self._ways((b.a, b.b, b.gate) for b in self.circuit.branches if b.sort in _CONDUCT)

    @cached_property
    def everything(self) -> _Ways:
        """Ways that pass any current on, those through items whose figures are missing too."""
        node = self.circuit.node
        ways: list[tuple[int, int, Gate | None]] = [
            (b.a, b.b, b.gate) for b in self.circuit.branches if b.sort != "source"
        ]
        for inner in self.study.network.inner:
            loaded = inner.path.nature in (Nature.LOADED, Nature.DRIVEN)
            given = isinstance(self.harness.items[inner.item].kind, Source)
            if loaded and not given and {inner.a, inner.b} <= node.keys():
                ways.append((node[inner.a], node[inner.b], None))
        for name, item in self.harness.items.items():
            if not item.kind.paths() and not isinstance(item.kind, _NEVER_RUN):
                ends = self._nodes(name)
                ways += [(ends[0], end, None) for end in ends[1:]]
        return self._ways(ways)

    def tried(self) -> Iterator[tuple[str | None, str]]:
        """Each switch that stays where it is put, in each position."""
        for name, item in self.harness.items.items():
            if isinstance(item.kind, Switch) and not item.kind.momentary:
                yield from ((name, position) for position in self.circuit.devices.get(name, ()))

    def left(self, at: tuple[str | None, str]) -> tuple[int, int]:
        """How many items can be live, how many points are joined to a feed."""
        live = sum(not row.unknown and _allows(row, *at) for row in self.rows)
        return live, sum(self.counts.get(node, 0) for node in self.hot(*at))

    def hot(self, device: str | None, position: str) -> frozenset[int]:
        """The nodes that conductors join to a feed."""
        return _joined(self.copper, self.feeds, self.circuit.grounds, device, position)

    def told(self, device: str | None, position: str) -> Isolation:
        """All of one position."""
        hot = self.hot(device, position)
        node, harness = self.circuit.node, self.harness
        back = _joined(self.copper, self.circuit.grounds[:1], self.feeds, device, position)
        whole = _joined(self.copper, self.circuit.grounds[:1], self.feeds, None, "")
        return Isolation(
            device,
            position,
            tuple(row.name for row in self.rows if not row.unknown and _allows(row, device, position)),
            tuple((row.name, row.unknown) for row in self.rows if row.unknown),
            tuple(point for point, number in node.items() if number in hot),
            tuple(
                wire.name
                for wire in harness.wires.values()
                if wire.points and all(node.get(point) in hot for point in wire.points)
            ),
            tuple(name for name, item in harness.items.items() if isinstance(item.kind, Source)),
            len(back) < len(whole),
            tuple(self._unproven(hot, device, position)),
        )

    def _unproven(self, hot: Collection[int], device: str | None, position: str) -> Iterator[str]:
        """Items nobody can tell of that current can come to and go from; live ends that lead nobody knows where."""
        back = _joined(self.copper, self.returns, self.feeds, device, position)
        fed = _joined(self.everything, self.feeds, back, device, position)
        returning = _joined(self.everything, self.returns, hot, device, position) | back
        told = {row.name for row in self.rows if not row.unknown}
        for name, item in self.harness.items.items():
            if name in told or isinstance(item.kind, _NEVER_RUN):
                continue
            ends = set(self._nodes(name))
            if ends & fed and (ends & returning or not item.kind.paths()):
                yield name
        yield from self._loose(hot)

    def _loose(self, hot: Collection[int]) -> Iterator[str]:
        node, harness = self.circuit.node, self.harness
        for wire in harness.wires.values():
            if len(wire.points) == 1 and not any(end.tail for end in wire.ends) and node.get(wire.points[0]) in hot:
                yield wire.name
        for point, number in node.items():
            plug = harness.plugs.get(point.owner)
            if number not in hot or plug is None or plug.mates_with in harness.plugs or point in harness.stubs:
                continue
            if len(harness.landings.get(point, ())) == 1:
                yield str(point)

    def _at_side(self, side: Side) -> frozenset[int]:
        """The nodes of the sources' own terminals of a side."""
        points = [
            Point(name, terminal)
            for name, item in self.harness.items.items()
            for terminal, its_side in item.kind.sides().items()
            if its_side is side
        ]
        return frozenset(self.circuit.node[point] for point in points if point in self.circuit.node)

    def _nodes(self, name: str) -> list[int]:
        """The nodes of an item's terminals."""
        node = self.circuit.node
        return [node[p] for t in self.harness.items[name].terminals if (p := Point(name, t)) in node]

    @staticmethod
    def _ways(pairs: Iterable[tuple[int, int, Gate | None]]) -> _Ways:
        around: dict[int, list[tuple[int, Gate | None]]] = {}
        for a, b, gate in pairs:
            around.setdefault(a, []).append((b, gate))
            around.setdefault(b, []).append((a, gate))
        return around


def _allows(row: LiveRow, device: str | None, position: str) -> bool:
    """Whether an item can be live while a device stands in a position."""
    return any(device is None or position in cube.get(device, (position,)) for cube in row.cubes)


def _joined(
    ways: _Ways, starts: Iterable[int], stops: Collection[int], device: str | None, position: str
) -> frozenset[int]:
    """The nodes that ways lead to, contacts of other devices in any position."""
    found = set(starts) - set(stops)
    todo = list(found)
    while todo:
        for other, gate in ways.get(todo.pop(), ()):
            if other in found or other in stops:
                continue
            if gate is None or gate.device != device or position in gate.closed:
                found.add(other)
                todo.append(other)
    return frozenset(found)
