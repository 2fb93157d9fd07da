"""The way that current takes from a supply to a load and back, and what each part of it loses.

Quantities only. What other islands draw over shared parts is an upper bound: all of them at their worst."""

from __future__ import annotations

from collections.abc import Iterator
from math import isnan
from typing import NamedTuple

from harnessdoc.checks.rule import Case
from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Studied
from harnessdoc.model.harness import Wire
from harnessdoc.tables.resistance import resistance_factor


class Lost(NamedTuple):
    """A branch on the way: what flows in it in the state, in A and V, and what others add at their worst."""

    branch: Branch
    amps: float
    volts: float
    added_v: float

    @property
    def all_v(self) -> float:
        """With all others on, in V."""
        return self.volts + self.added_v


class FlowPath(NamedTuple):
    """`feed` from the load back to the supply, `back` from the load to the return; `supply`: what feeds it."""

    feed: tuple[Lost, ...]
    back: tuple[Lost, ...]
    supply: Branch

    @property
    def parts(self) -> tuple[Lost, ...]:
        """The whole way, without the supply itself."""
        return (*self.feed, *self.back)


class Flow:
    """Follows currents through a study's outcomes."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.study = case.study
        self._around: dict[int, dict[int, list[int]]] = {}
        places, runs = case.harness.places.values(), case.harness.runs
        stated = (*(place.warm_c for place in places), *(run.warm_c for run in runs))
        self._warm = any(warm_c is not None for warm_c in stated)
        self._factors: dict[str, float] = {}
        self._in: Settled | None = None
        self._found: dict[int, Lost] = {}
        """What is lost in the state that was looked at last: loads of one island share their feed."""

    def around(self, studied: Studied) -> dict[int, list[int]]:
        """Node to its branches, of those an island is settled with: no other carries current in its outcomes."""
        number = min(studied.island.own, default=-1)
        if number not in self._around:
            found: dict[int, list[int]] = {}
            for index in sorted(studied.island.kept):
                branch = self.study.circuit.branches[index]
                found.setdefault(branch.a, []).append(index)
                found.setdefault(branch.b, []).append(index)
            self._around[number] = found
        return self._around[number]

    def path(self, index: int, studied: Studied, settled: Settled) -> FlowPath | None:
        """The way to a branch and back, in one state; None where no current leads from a supply and back to it."""
        way = self.way(index, studied, settled)
        if way is None:
            return None
        feed, back, supply = way
        if self._in is not settled:
            self._in, self._found = settled, {}
        for part in (*feed, *back):
            if part not in self._found:
                self._found[part] = self._lost(part, studied, settled)
        lost = self._found
        return FlowPath(
            tuple(lost[part] for part in feed), tuple(lost[part] for part in back), self.study.circuit.branches[supply]
        )

    def way(self, index: int, studied: Studied, settled: Settled) -> tuple[list[int], list[int], int] | None:
        """The same by numbers of branches: feed, return and supply, with no word of what they lose."""
        branch = self.study.circuit.branches[index]
        across = self.study.across(index, settled)
        if isnan(across) or not across:
            return None
        high, low = (branch.a, branch.b) if across > 0 else (branch.b, branch.a)
        around = self.around(studied)
        feed, supply = self._walk(around, high, index, settled, 1)
        if supply is None:
            return None
        back, end = self._walk(around, low, index, settled, -1, self.study.circuit.branches[supply].b)
        if end is None:
            return None
        return feed, back, supply

    def _walk(
        self, around: dict[int, list[int]], node: int, came_by: int, settled: Settled, way: int, goal: int = -1
    ) -> tuple[list[int], int | None]:
        """Follow the largest current into (1) or out of (-1) each node, up to a supply or the node `goal`.

        A regulator's return is often on the way of greater currents, which lead past it."""
        branches = self.study.circuit.branches
        parts: list[int] = []
        seen = {node}
        while node != goal:
            best, most = None, 0.0
            for index in around.get(node, ()):
                if index != came_by:
                    amps = settled.amps[index] * (way if branches[index].b == node else -way)
                    if amps > most:
                        best, most = index, amps
            if best is None:
                return parts, None
            branch = branches[best]
            if branch.sort in ("source", "signal"):
                return parts, best
            parts.append(best)
            node = branch.a if branch.b == node else branch.b
            if node in seen:
                return parts, None
            seen.add(node)
            came_by = best
        return parts, came_by

    def _lost(self, index: int, studied: Studied, settled: Settled) -> Lost:
        branch = self.study.circuit.branches[index]
        amps = abs(settled.amps[index])
        volts = abs(settled.volts[branch.a] - settled.volts[branch.b])
        added_v = 0.0
        worst = self.study.worst.get(index)
        if worst is not None and worst.bound and index not in studied.island.own:
            added_v = max(0.0, worst.amps - amps) * branch.ohm
        if branch.sort == "wire":
            factor = self._factor(branch.part)
            volts, added_v = volts * factor, added_v * factor
        return Lost(branch, amps, volts, added_v)

    def _factor(self, wire: str) -> float:
        """What a wire's warmth makes of its resistance."""
        if wire not in self._factors:
            self._factors[wire] = resistance_factor(self.warm_c(self.case.harness.wires[wire]))
        return self._factors[wire]

    def warm_c(self, wire: Wire) -> float:
        """How warm the warmest place or run on a wire's way is, in °C; at least 20, as for what none states."""
        return max((20.0, *_stated_c(self.case, wire))) if self._warm else 20.0


def _stated_c(case: Case, wire: Wire) -> Iterator[float]:
    for end in wire.ends:
        place = case.harness.places.get(case.harness.place_of(end.point) or "")
        if place is not None and place.warm_c is not None:
            yield place.warm_c
    for run in case.routing.routes[wire.name].runs or ():
        warm_c = case.harness.runs[run].warm_c
        if warm_c is not None:
            yield warm_c
