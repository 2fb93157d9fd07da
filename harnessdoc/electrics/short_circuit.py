"""What lies behind a fuse up to the next one, and the current that a dead short at its far end would draw.

The way with the least resistance, all contacts closed, copper at 20 °C; parallel ways are not added up, so the current
is the least that flows. No verdict."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from harnessdoc.electrics.circuit import Branch, Gate
from harnessdoc.electrics.drops import DRAWS, PASSES
from harnessdoc.electrics.study import Study
from harnessdoc.model.points import CHASSIS

COPPER = frozenset({"wire"})


class Reach(NamedTuple):
    """`wires`: those of the feed behind the fuse with no other fuse between. `far`: what is shorted for the least
    current, a load or the node where a wire ends; `short_a`: that current in A, None where no source is found.
    `to_chassis`: `far` is no load, and the way back is from the chassis. `assumed`: figures that it rests on were not
    stated."""

    fuse: str
    wires: tuple[str, ...]
    far: str
    short_a: float | None
    to_chassis: bool
    assumed: tuple[str, ...]


class ShortCircuits:
    """Resistances from the sources and back, found once for a study."""

    def __init__(self, study: Study) -> None:
        self.study = study
        self.branches = study.circuit.branches
        self.around: dict[int, list[int]] = {}
        for index, branch in enumerate(self.branches):
            self.around.setdefault(branch.a, []).append(index)
            self.around.setdefault(branch.b, []).append(index)
        self.sources = [i for i, b in enumerate(self.branches) if b.sort == "source" and b.gate is None]
        returns = {self.branches[i].b: 0.0 for i in self.sources}
        self.stops = frozenset(self._spread(returns, COPPER)[0])
        starts = {self.branches[i].a: self.branches[i].ohm for i in self.sources}
        self.feed, self.feed_came = self._spread(starts, PASSES, self.stops)
        # A switch or a power stage in the return carries the short circuit too.
        self.back, self.back_came = self._spread(returns, PASSES, frozenset(self.feed))
        self.assumed = frozenset(note.about for note in study.circuit.assumptions)

    def _spread(
        self,
        starts: Mapping[int, float],
        through: frozenset[str],
        stops: frozenset[int] = frozenset(),
        near: int = -1,
    ) -> tuple[dict[int, float], dict[int, int]]:
        """Least ohm from the starts to each node, and the branch by which it is reached; not into stops nor `near`."""
        best = dict(starts)
        came: dict[int, int] = {}
        todo: list[tuple[float, int, Gate | None]] = [(ohm, node, None) for node, ohm in starts.items()]
        heapq.heapify(todo)
        while todo:
            ohm, node, last = heapq.heappop(todo)
            if ohm > best[node]:
                continue
            for index in self.around.get(node, ()):
                branch = self.branches[index]
                other = _other(branch, node)
                if branch.sort not in through or other in stops or other == near or _never_together(last, branch.gate):
                    continue
                total = ohm + branch.ohm
                if total < best.get(other, float("inf")):
                    best[other], came[other] = total, index
                    heapq.heappush(todo, (total, other, branch.gate))
        return best, came

    def behind(self, fuse: str) -> Reach | None:
        """What a fuse protects and the least short-circuit current behind it; None where no source feeds it."""
        own = next((i for i in self.study.by_part.get(fuse, ()) if self.branches[i].sort == "fuse"), None)
        if own is None:
            return None
        branch = self.branches[own]
        reached = [node for node in (branch.a, branch.b) if node in self.feed]
        if not reached:
            return None
        near = min(reached, key=lambda node: self.feed[node])
        start = _other(branch, near)
        ohm, came = self._spread({start: self.feed[near] + branch.ohm}, PASSES - {"fuse"}, self.stops, near)
        wires = self._wires(ohm)
        return self._reach(fuse, own, near, wires, ohm, came)

    def _wires(self, nodes: Iterable[int]) -> tuple[str, ...]:
        found = {i: None for node in nodes for i in self.around.get(node, ()) if self.branches[i].sort == "wire"}
        return tuple(self.branches[i].part for i in sorted(found))

    def _reach(
        self, fuse: str, own: int, near: int, wires: tuple[str, ...], ohm: Mapping[int, float], came: Mapping[int, int]
    ) -> Reach:
        """The far end: the load with the most ohm in its loop, else the node with the most, shorted to the chassis."""
        loops: list[tuple[float, str, int, int]] = []
        for node in ohm:
            for index in self.around.get(node, ()):
                branch = self.branches[index]
                other = _other(branch, node)
                if branch.sort in DRAWS and other in self.back:
                    loops.append((ohm[node] + self.back[other], branch.name, node, other))
        to_chassis = not loops
        if not loops:
            chassis = self.study.circuit.node.get(CHASSIS, -1)
            node = max(ohm, key=lambda one: ohm[one])
            loops.append((ohm[node] + self.back.get(chassis, 0.0), self._name(node), node, chassis))
        most, far, node, other = max(loops)
        used = [own, *_trail(came, node, self.branches), *_trail(self.feed_came, near, self.branches)]
        used += _trail(self.back_came, other, self.branches)
        volts = max((self.branches[i].volts for i in self.sources), default=0.0)
        parts = dict.fromkeys(self.branches[i].part for i in (*used, *self.sources))
        contacts = {self.branches[i].part for i in used if self.branches[i].sort in ("contact", "drive")}
        assumed = tuple(part for part in parts if part in self.assumed or part in contacts)
        return Reach(fuse, wires, far, volts / most if most else None, to_chassis, assumed)

    def _name(self, node: int) -> str:
        return next((str(point) for point, number in self.study.circuit.node.items() if number == node), "")


def _other(branch: Branch, node: int) -> int:
    return branch.b if branch.a == node else branch.a


def _trail(came: Mapping[int, int], node: int, branches: tuple[Branch, ...]) -> list[int]:
    found: list[int] = []
    while node in came and came[node] not in found:
        found.append(came[node])
        node = _other(branches[came[node]], node)
    return found


def _never_together(last: Gate | None, gate: Gate | None) -> bool:
    """Whether two contacts of one device, passed one after the other, are closed in no position both."""
    return last is not None and gate is not None and last.device == gate.device and not last.closed & gate.closed
