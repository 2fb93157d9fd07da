"""Lines in a channel: each net gets an upright on a track of its own, so that lines cross but never lie on each other.

Two nets that want the same row from both sides are told apart by their order; where that goes round in a ring one of
them takes two uprights. Rows and tracks only, no millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from heapq import heapify, heappop, heappush
from typing import Final

JOG: Final = (0.5, -0.5, 0.25, -0.25, 0.75, -0.75)
"""Where between two rows a net with two uprights goes over from one to the other."""


@dataclass(eq=False, slots=True)
class Wanted:
    """A net as a channel sees it: rows on its left and right. Filled: `track` of its upright, None where it is
    straight; `second`: that of another upright, joined to the first on row `jog`."""

    left: list[float]
    right: list[float]
    track: int | None = None
    second: int | None = None
    jog: float = 0.0

    @property
    def straight(self) -> bool:
        """Whether all its ends are on one row."""
        return len({*self.left, *self.right}) < 2


@dataclass(eq=False, slots=True)
class _Upright:
    net: Wanted
    low: float
    high: float
    left: Sequence[float]
    right: Sequence[float]
    after: list[int] = field(default_factory=list)
    waits: int = 0
    track: int = 0

    @property
    def urge(self) -> tuple[float, float]:
        """Uprights that lead down go on the left the lower they are, those that lead up the higher they are."""
        if not self.left or not self.right:
            return (0.0 if self.left else 1.0, self.high - self.low)
        down = sum(self.right) / len(self.right) >= sum(self.left) / len(self.left)
        return (0.5, -self.high) if down else (0.5, self.low)


def set_tracks(nets: Sequence[Wanted]) -> int:
    """Give each net that is not straight its track, counted from the left; return how many tracks there are."""
    bent = [net for net in nets if not net.straight]
    uprights = [
        _Upright(net, min(*net.left, *net.right), max(*net.left, *net.right), net.left, net.right)
        if len(net.left) + len(net.right) > 1
        else _Upright(net, 0.0, 0.0, net.left, net.right)
        for net in bent
    ]
    taken = {row for net in nets for row in (*net.left, *net.right)}
    while True:
        done = _in_order(uprights)
        if len(done) == len(uprights):
            break
        ring = _one_of_a_ring(uprights, done)
        uprights = _parted(uprights, ring, taken)
    return _assign(uprights, done)


def _in_order(uprights: list[_Upright]) -> list[int]:
    """Numbers of uprights so that whoever must be left of another comes before; short where there is a ring."""
    by_right: dict[float, int] = {}
    for number, one in enumerate(uprights):
        one.after, one.waits = [], 0
        by_right.update(dict.fromkeys(one.right, number))
    for number, one in enumerate(uprights):
        for row in one.left:
            other = by_right.get(row, number)
            if other != number:
                one.after.append(other)
                uprights[other].waits += 1
    for one in uprights:
        one.after.sort()
    second = {id(one.net): n for n, one in enumerate(uprights) if not one.left}
    for one in uprights:
        if not one.right and id(one.net) in second and one.net.second is not None:
            one.after.append(second[id(one.net)])
            uprights[second[id(one.net)]].waits += 1
    ready = [(one.urge, number) for number, one in enumerate(uprights) if not one.waits]
    heapify(ready)
    done = []
    while ready:
        _, number = heappop(ready)
        done.append(number)
        for other in uprights[number].after:
            uprights[other].waits -= 1
            if not uprights[other].waits:
                heappush(ready, (uprights[other].urge, other))
    return done


def _one_of_a_ring(uprights: list[_Upright], done: list[int]) -> int:
    """An upright that lies on a ring: from any that waits, back along what it waits for."""
    left = set(range(len(uprights))) - set(done)
    waits_for: dict[int, int] = {}
    for number in sorted(left):
        for other in uprights[number].after:
            if other in left:
                waits_for.setdefault(other, number)
    at = min(left)
    seen = set()
    while at not in seen:
        seen.add(at)
        at = waits_for[at]
    return at


def _parted(uprights: list[_Upright], ring: int, taken: set[float]) -> list[_Upright]:
    """Replace an upright by two: one for its left ends, one for its right ends."""
    one = uprights[ring]
    net = one.net
    net.second = -1
    jogs = (row + step for row in (*one.left, *one.right) for step in JOG)
    net.jog = next((jog for jog in jogs if jog not in taken), max(taken) + 0.5)
    taken.add(net.jog)
    first = _Upright(net, min(*one.left, net.jog), max(*one.left, net.jog), one.left, ())
    other = _Upright(net, min(*one.right, net.jog), max(*one.right, net.jog), (), one.right)
    return [*uprights[:ring], first, other, *uprights[ring + 1 :]]


def _assign(uprights: list[_Upright], order: list[int]) -> int:
    """The first track that is free over its length and right of all that must be on its left."""
    least = [0] * len(uprights)
    tracks: list[list[tuple[float, float]]] = []
    for number in order:
        one = uprights[number]
        at = least[number]
        while at < len(tracks) and any(one.low <= high and low <= one.high for low, high in tracks[at]):
            at += 1
        while at >= len(tracks):
            tracks.append([])
        tracks[at].append((one.low, one.high))
        for other in one.after:
            least[other] = max(least[other], at + 1)
        if one.net.second is not None and not one.left:
            one.net.second = at
        else:
            one.net.track = at
    return len(tracks)
