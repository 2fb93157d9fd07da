"""How far each point is from the source and from the return: what makes a strip run from left to right.

Counted in wires and inner paths over the whole harness, so that a strip that starts in the middle runs the same way."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from harnessdoc.drawing.strips.graph import Level
from harnessdoc.electrics.network import PASSING, Network
from harnessdoc.model.kinds.base import Side
from harnessdoc.model.kinds.joints import EarthPoint
from harnessdoc.model.points import CHASSIS, Point

FEED, BETWEEN, RETURN = 0, 1, 2
Around = Mapping[Point, list[Point]]


def levels_of(network: Network) -> dict[Point, Level]:
    """Each point's level. What neither feed nor return reaches lies between, counted from what is known."""
    harness = network.harness
    around: dict[Point, list[Point]] = {point: [] for point in network.potential}
    loaded: dict[Point, list[Point]] = {}

    def join(into: dict[Point, list[Point]], a: Point, b: Point) -> None:
        into.setdefault(a, []).append(b)
        into.setdefault(b, []).append(a)

    for wire in harness.wires.values():
        if len(wire.points) == 2:
            join(around, *wire.points)
    for a, b in network.joints:
        join(around, a, b)
    for inner in network.inner:
        join(around if inner.path.nature in PASSING else loaded, inner.a, inner.b)
    sides = {Point(n, t): side for n, item in harness.items.items() for t, side in item.kind.sides().items()}
    feeds = _steps(around, [point for point, side in sides.items() if side is Side.FEED])
    grounds = [point for point, side in sides.items() if side is Side.RETURN]
    grounds += [Point(name) for name, item in harness.items.items() if isinstance(item.kind, EarthPoint)]
    returns = _steps(around, [*grounds, CHASSIS])
    found = {}
    for point in around:
        feed, back = feeds.get(point), returns.get(point)
        if feed is not None and (back is None or feed <= back):
            found[point] = Level(FEED, feed)
        elif back is not None:
            found[point] = Level(RETURN, -back)
    return found | _between(around, loaded, found)


def _between(around: Around, loaded: Around, known: Mapping[Point, Level]) -> dict[Point, Level]:
    """Signals and what nothing reaches: counted from the loads that lead to them, else from the first of each."""
    both = {point: [*others, *loaded.get(point, ())] for point, others in around.items() if point not in known}
    free = {point: [other for other in others if other not in known] for point, others in both.items()}
    steps = _steps(free, (other for point in known for other in loaded.get(point, ()) if other in free))
    for point in free:
        if point not in steps:
            _spread(free, steps, [point])
    return {point: Level(BETWEEN, count) for point, count in steps.items()}


def _steps(around: Around, starts: Iterable[Point]) -> dict[Point, int]:
    found: dict[Point, int] = {}
    _spread(around, found, [point for point in dict.fromkeys(starts) if point in around])
    return found


def _spread(around: Around, found: dict[Point, int], starts: list[Point]) -> None:
    """Count on from the starts to all that is not found yet."""
    found.update(dict.fromkeys(starts, 0))
    for point in starts:  # grows while it is walked
        for other in around[point]:
            if other not in found:
                found[other] = found[point] + 1
                starts.append(other)
