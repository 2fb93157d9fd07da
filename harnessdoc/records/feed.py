"""Where a circuit's supply comes from: the nearest way from a source over copper, fuses and contacts.

A way is followed, not solved: contacts and power stages count as closed, no current is known here."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from harnessdoc.model.harness import Harness
from harnessdoc.model.kinds.base import InnerPath, Nature, Side
from harnessdoc.model.points import CHASSIS, Point


@dataclass(frozen=True, slots=True)
class Feed:
    """A source's item, and the fuses and breakers passed from it, in order."""

    source: str
    protections: tuple[str, ...] = ()

    def continues(self, other: Feed) -> bool:
        """Whether `other` is an earlier part of this way."""
        short = len(other.protections)
        return (
            self.source == other.source
            and len(self.protections) > short
            and self.protections[:short] == other.protections
        )


@dataclass(frozen=True, slots=True)
class _Step:
    """A way to a neighbouring point; `inside` is the path of the item `owner` that it takes, None for copper."""

    to: Point
    owner: str = ""
    inside: InnerPath | None = None


def feeds(harness: Harness) -> dict[Point, Feed]:
    """Every point that a source's feed side reaches without passing a load, with the nearest way to it."""
    steps = _steps(harness)
    stops = _stops(harness)
    found: dict[Point, Feed] = {}
    queue: deque[tuple[Point, _Step | None]] = deque()
    for name, item in harness.items.items():
        for terminal, side in item.kind.sides().items():
            if side is Side.FEED:
                found[Point(name, terminal)] = Feed(name)
                queue.append((Point(name, terminal), None))
    while queue:
        point, came = queue.popleft()
        for step in steps.get(point, ()):
            if step.to in found or step.to in stops or _at_odds(came, step):
                continue
            found[step.to] = _after(found[point], step)
            queue.append((step.to, step))
    return found


def feeds_of(points: Iterable[Point], reached: Mapping[Point, Feed]) -> tuple[Feed, ...]:
    """The different ways by which some of `points` are fed; what is only the beginning of another is left out."""
    ways = tuple(dict.fromkeys(reached[point] for point in points if point in reached))
    return tuple(way for way in ways if not any(other.continues(way) for other in ways))


def _after(feed: Feed, step: _Step) -> Feed:
    protected = step.inside is not None and step.inside.nature is Nature.PROTECTED
    return Feed(feed.source, (*feed.protections, step.owner)) if protected else feed


def _at_odds(came: _Step | None, step: _Step) -> bool:
    """Whether two contacts of one item would have to be closed that never are together (87 over 30 to 87a)."""
    if came is None or came.inside is None or step.inside is None or came.owner != step.owner:
        return False
    contacts = came.inside.nature is Nature.CONTACT and step.inside.nature is Nature.CONTACT
    return contacts and not set(came.inside.closed) & set(step.inside.closed)


def _stops(harness: Harness) -> set[Point]:
    """Return sides and what is bolted to the chassis: no supply is followed into them."""
    stops = {CHASSIS}
    for name, item in harness.items.items():
        returns = (terminal for terminal, side in item.kind.sides().items() if side is Side.RETURN)
        stops.update(Point(name, terminal) for terminal in (*returns, *item.kind.on_chassis()))
    return stops


def _steps(harness: Harness) -> dict[Point, list[_Step]]:
    steps: dict[Point, list[_Step]] = {}
    for a, b in _copper(harness):
        steps.setdefault(a, []).append(_Step(b))
        steps.setdefault(b, []).append(_Step(a))
    for name, item in harness.items.items():
        for path in item.kind.paths():
            if path.nature is not Nature.LOADED:
                a, b = Point(name, path.a), Point(name, path.b)
                steps.setdefault(a, []).append(_Step(b, name, path))
                steps.setdefault(b, []).append(_Step(a, name, path))
    return steps


def _copper(harness: Harness) -> Iterator[tuple[Point, Point]]:
    """Wires, stubs joined again, and the mated halves of plugs."""
    for wire in harness.wires.values():
        if len(wire.points) == 2:
            yield wire.points[0], wire.points[1]
    for stub in harness.stubs.values():
        if stub.joined_at is not None:
            yield stub.point, stub.joined_at
    for plug in harness.plugs.values():
        other = harness.plugs.get(plug.mates_with or "")
        if other is not None:
            shared = set(other.terminals)
            yield from ((Point(plug.name, c), Point(other.name, c)) for c in plug.terminals if c in shared)
