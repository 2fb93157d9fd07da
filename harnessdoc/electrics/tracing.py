"""How current gets to a load, or why it does not: the chain of wires, contacts and fuses, or the gap in it.

Read from one settled state; names parts, judges nothing."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from harnessdoc.electrics.circuit import Branch, Circuit
from harnessdoc.electrics.probes import Probe
from harnessdoc.electrics.settle import Settled

_CLOSED, _SNEAK, _OPEN = 1.0, 1e3, 1e6
"""Weights of a step through copper, through a load or coil, and across an open contact."""
_DEEPEST = 3
"""How many relays in a row an explanation follows."""


class _Way(NamedTuple):
    """A chain of branches; `cost` tells whether loads or open contacts are in it."""

    branches: tuple[int, ...]
    cost: float


def how_live(circuit: Circuit, kept: Sequence[int], settled: Settled, probe: Probe, blocked: Iterable[int] = ()) -> str:
    """The chain that keeps it live, as in `G1 - W1 - S1:1-2 (on) - W2 - M1, back by W3`."""
    tracer = _Tracer(circuit, kept, settled, blocked)
    ends = _ends(circuit, settled, probe)
    if ends is None:
        return ""
    high, low = ends
    feed, back = tracer.from_source(high), tracer.to_return(low) if low is not None else None
    text = " - ".join(tracer.names(feed)) if feed else f"{probe.name} holds a voltage of its own"
    if back is not None and back.branches:
        text += f", back by {' - '.join(tracer.names(back, source=False))}"
    return text


def why_dead(circuit: Circuit, kept: Sequence[int], settled: Settled, probe: Probe, blocked: Iterable[int] = ()) -> str:
    """The gap that keeps it dead: open contacts, nothing that leads there, or too little voltage."""
    return _Tracer(circuit, kept, settled, blocked).gap(probe, 0)


def _ends(circuit: Circuit, settled: Settled, probe: Probe) -> tuple[int, int | None] | None:
    """The node it is fed at and the one it returns by."""
    volts = settled.volts
    if probe.coil is not None:
        plus, minus = probe.coil.plus, probe.coil.minus
        return (minus, plus) if volts[minus] > volts[plus] else (plus, minus)
    if probe.across:
        branch = circuit.branches[probe.across[0][0]]
        return (branch.b, branch.a) if volts[branch.b] > volts[branch.a] else (branch.a, branch.b)
    hot = [node for node in probe.nodes if volts[node] >= probe.hot_v]
    return ((hot or list(probe.nodes))[0], None) if probe.nodes else None


class _Tracer:
    def __init__(self, circuit: Circuit, kept: Sequence[int], settled: Settled, blocked: Iterable[int]) -> None:
        self.circuit, self.settled = circuit, settled
        taken = frozenset(blocked)
        self.around: dict[int, list[tuple[int, int]]] = {}
        self.sources: list[Branch] = []
        for index in kept:
            branch = circuit.branches[index]
            if index in taken:
                continue
            if branch.sort == "source":
                if self.closed(branch):
                    self.sources.append(branch)
                continue
            self.around.setdefault(branch.a, []).append((index, branch.b))
            self.around.setdefault(branch.b, []).append((index, branch.a))

    def closed(self, branch: Branch) -> bool:
        return branch.gate is None or self.settled.positions.get(branch.gate.device) in branch.gate.closed

    def _weight(self, branch: Branch) -> float:
        if not self.closed(branch):
            return _OPEN
        through = branch.sort in ("load", "coil", "input", "signal")
        return _SNEAK if through else _CLOSED + branch.ohm

    def _way(self, starts: Iterable[int], goal: int, without: frozenset[str]) -> _Way | None:
        """The cheapest chain from any start to a node, not through the parts `without`."""
        best: dict[int, float] = dict.fromkeys(starts, 0.0)
        came: dict[int, tuple[int, int]] = {}
        todo = [(0.0, node) for node in best]
        heapq.heapify(todo)
        while todo:
            cost, node = heapq.heappop(todo)
            if node == goal:
                return _Way(tuple(self._back(came, goal)), cost)
            if cost > best[node]:
                continue
            for index, other in self.around.get(node, ()):
                branch = self.circuit.branches[index]
                if branch.name in without:
                    continue
                total = cost + self._weight(branch)
                if total < best.get(other, float("inf")):
                    best[other], came[other] = total, (node, index)
                    heapq.heappush(todo, (total, other))
        return None

    @staticmethod
    def _back(came: dict[int, tuple[int, int]], goal: int) -> list[int]:
        chain: list[int] = []
        while goal in came:
            goal, index = came[goal]
            chain.append(index)
        return chain[::-1]

    def from_source(self, node: int, without: frozenset[str] = frozenset()) -> _Way | None:
        """The chain from a source's feed to a node."""
        return self._way([source.a for source in self.sources], node, without)

    def to_return(self, node: int, without: frozenset[str] = frozenset()) -> _Way | None:
        """The chain from a node back to the return, told from the node."""
        way = self._way([*self.circuit.grounds[:1], *(s.b for s in self.sources)], node, without)
        return _Way(way.branches[::-1], way.cost) if way else None

    def names(self, way: _Way, source: bool = True) -> list[str]:
        """The branches of a chain by name, contacts with their position, the source first."""
        found: list[str] = []
        if source and way.branches:
            ends = set(self.circuit.branches[way.branches[0]][:2])
            found = [s.part for s in self.sources if s.a in ends][:1]
        elif source:
            found = [s.part for s in self.sources][:1]
        for index in way.branches:
            branch = self.circuit.branches[index]
            told = branch.part if branch.sort == "fuse" else branch.name
            if branch.gate is not None:
                told += f" ({self.settled.positions.get(branch.gate.device, '')})"
            found.append(told)
        return found

    def gap(self, probe: Probe, depth: int) -> str:
        """Why a probe is dead."""
        ends = _ends(self.circuit, self.settled, probe)
        if ends is None:
            return "nothing leads to it"
        own = frozenset(self.circuit.branches[index].name for index, _ in probe.across)
        own |= {f"{probe.name} coil", f"{probe.name} input"} if probe.coil is not None else set()
        if probe.coil is not None and probe.coil.supply is not None:
            have = self.settled.volts[probe.coil.supply[0]] - self.settled.volts[probe.coil.supply[1]]
            if not have >= probe.coil.supply[2]:
                return f"the supply of {probe.name} is missing"
        orders = [ends] if ends[1] is None else [ends, (ends[1], ends[0])]
        tried = [
            (self.from_source(a, own), self.to_return(b, own) if b is not None else _Way((), 0.0)) for a, b in orders
        ]
        whole = [(feed, back) for feed, back in tried if feed is not None and back is not None]
        if not whole:
            fed = any(feed is not None for feed, _ in tried)
            return (
                f"nothing leads from {probe.name} to the return"
                if fed
                else f"nothing leads from a source to {probe.name}"
            )
        feed, back = min(whole, key=lambda pair: pair[0].cost + pair[1].cost)
        chain = (*feed.branches, *back.branches)
        gaps = [i for i in chain if not self.closed(self.circuit.branches[i])]
        if gaps:
            return "; ".join(dict.fromkeys(self._opened(index, depth) for index in gaps[:2]))
        loads = [self.circuit.branches[i] for i in chain if self.circuit.branches[i].sort in ("load", "coil", "input")]
        if loads:
            return f"its only way is through {' and '.join(dict.fromkeys(b.part for b in loads))}"
        return self._too_little(probe)

    def _opened(self, index: int, depth: int) -> str:
        branch = self.circuit.branches[index]
        device = branch.gate.device if branch.gate is not None else branch.part
        text = f"{branch.name} is open ({device} {self.settled.positions.get(device, 'at rest')})"
        coils = self.circuit.coils_of.get(device, ())
        if coils and depth < _DEEPEST and self.settled.positions.get(device) == coils[0].rest:
            text += f", for {self.gap(Probe(device, coil=coils[0]), depth + 1)}"
        return text

    def _too_little(self, probe: Probe) -> str:
        volts = self.settled.volts
        if probe.coil is not None:
            have = volts[probe.coil.plus] - volts[probe.coil.minus]
            return f"only {have:.3g} V at its coil, it pulls at {probe.coil.pulls_v:.3g} V"
        if probe.across:
            index, rated = probe.across[0]
            have = abs(volts[self.circuit.branches[index].a] - volts[self.circuit.branches[index].b])
            return f"only {have:.3g} V across it, of {rated:.3g} V"
        return f"only {max(volts[node] for node in probe.nodes):.3g} V there"
