"""How far each point is from the source and from the return: what makes a strip run from left to right.

Counted in wires and inner paths over the whole harness, so that a strip that starts in the middle runs the same way.
What is one without a wire between (mated cavities, joined ways, the chassis) is one step together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from harnessdoc.drawing.strips.graph import Level
from harnessdoc.electrics.joining import Joining
from harnessdoc.electrics.network import PASSING, Network, bonds
from harnessdoc.model.kinds.base import Side
from harnessdoc.model.kinds.joints import EarthPoint
from harnessdoc.model.points import CHASSIS, Point

FEED, BETWEEN, RETURN = 0, 1, 2
Around = Mapping[int, list[int]]


def levels_of(network: Network) -> dict[Point, Level]:
    """Each point's level. What neither feed nor return reaches lies between, counted from what is known."""
    spot = _spots(network)
    around: dict[int, list[int]] = {number: [] for number in spot.values()}
    loaded: dict[int, list[int]] = {}
    for wire in network.harness.wires.values():
        if len(wire.points) == 2:
            _join(around, *(spot[point] for point in wire.points))
    for inner in network.inner:
        passes = inner.path.nature in PASSING
        _join(around if passes else loaded, spot[inner.a], spot[inner.b])
    items = network.harness.items.items()
    sides = {Point(name, t): side for name, item in items for t, side in item.kind.sides().items()}
    feeds = _steps(around, [spot[point] for point, side in sides.items() if side is Side.FEED])
    minus = [spot[point] for point, side in sides.items() if side is Side.RETURN]
    earths = [spot[Point(name)] for name, item in items if isinstance(item.kind, EarthPoint)]
    earths += [spot[CHASSIS]] if CHASSIS in spot else []
    returns = _steps(around, minus)
    _spread(around, returns, [number for number in dict.fromkeys(earths) if number not in returns])
    found = {number: Level(RETURN, 1) for number in minus}  # a source's own return comes last of all
    for number in around:
        feed, back = feeds.get(number), returns.get(number)
        if feed is not None and (back is None or feed <= back):
            found[number] = Level(FEED, feed)
        elif back is not None:
            found.setdefault(number, Level(RETURN, -back))
    found |= _between(around, loaded, found)
    return {point: found[number] for point, number in spot.items()}


def _spots(network: Network) -> dict[Point, int]:
    """Points by number, those that are one without a wire under one."""
    joined: Joining[Point] = Joining()
    for point in network.potential:
        joined.add(point)
    for a, b in bonds(network.harness, network.inner, network.joints):
        joined.join(a, b)
    return joined.numbers()


def _join(into: dict[int, list[int]], a: int, b: int) -> None:
    into.setdefault(a, []).append(b)
    into.setdefault(b, []).append(a)


def _between(around: Around, loaded: Around, known: Mapping[int, Level]) -> dict[int, Level]:
    """Signals and what nothing reaches: counted from the loads that lead to them, else from the first of each."""
    both = {point: [*others, *loaded.get(point, ())] for point, others in around.items() if point not in known}
    free = {point: [other for other in others if other not in known] for point, others in both.items()}
    steps = _steps(free, (other for point in known for other in loaded.get(point, ()) if other in free))
    for point in free:
        if point not in steps:
            _spread(free, steps, [point])
    return {point: Level(BETWEEN, count) for point, count in steps.items()}


def _steps(around: Around, starts: Iterable[int]) -> dict[int, int]:
    found: dict[int, int] = {}
    _spread(around, found, [point for point in dict.fromkeys(starts) if point in around])
    return found


def _spread(around: Around, found: dict[int, int], starts: list[int]) -> None:
    """Count on from the starts to all that is not found yet."""
    found.update(dict.fromkeys(starts, 0))
    for point in starts:  # grows while it is walked
        for other in around[point]:
            if other not in found:
                found[other] = found[point] + 1
                starts.append(other)
