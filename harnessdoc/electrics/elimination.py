"""Solve a resistor network by eliminating its nodes one after the other (star to mesh, Kron's reduction).

Only sums of positive conductances, never a difference, so a milliohm beside a megohm costs no digits, and a part that
hangs on nothing comes out as floating by itself. Harnesses are nearly trees: eliminated by least degree they fill in
hardly at all, and time grows with the nodes. The order is found once; nodes that no state changes go once for all.
Source of the reduction: G. Kron, Tensor Analysis of Networks (1939). Least degree: common practice."""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterable, Sequence
from math import nan
from typing import NamedTuple

Step = tuple[int, tuple[tuple[int, int], ...], tuple[tuple[int, int, int], ...]]
"""A node, its (neighbour, edge) pairs when it goes, and (edge, edge, edge between) for each pair of neighbours."""

Weights = tuple[int, float, int, float, int, float]
"""A node, its voltage where its neighbours have none, and two neighbours with the share of theirs that it takes."""

EARLY_DEGREE = 2
"""A node that no state changes goes early only if it has no more neighbours: it then fills in one edge at most."""


class Values:
    """Conductances of edges and to ground in S, currents into nodes in A, and each node's sum when it went.

    Lists by node are one longer than there are nodes: the last stands for ground, so that -1 may be written to."""

    __slots__ = ("current", "g", "ground", "sums")

    def __init__(self, g: list[float], ground: list[float], current: list[float], sums: list[float]) -> None:
        self.g, self.ground, self.current, self.sums = g, ground, current, sums

    def copy(self) -> Values:
        """The same values, to be changed apart."""
        return Values(self.g[:], self.ground[:], self.current[:], self.sums[:])


class Elimination(NamedTuple):
    """The order in which nodes go. `edges`: number of edge slots, those of the network first, then the filled in."""

    nodes: int
    early: tuple[Step, ...]
    """Nodes that go before any that was to be kept."""
    late: tuple[Step, ...]
    edges: int
    slot: tuple[int, ...]
    """Edge slot of each pair that it was made from; -1 for a pair that joins a node with itself."""
    zero: frozenset[int] = frozenset()
    """Nodes that are 0 V of their own when what they belong to hangs on nothing."""

    def values(self) -> Values:
        """A network in which nothing conducts."""
        size = self.nodes + 1
        return Values([0.0] * self.edges, [0.0] * size, [0.0] * size, [0.0] * size)

    def solve(
        self, conductances: Sequence[float], to_ground: Sequence[float], currents: Sequence[float]
    ) -> list[float]:
        """Return the voltage of every node over ground, in V; nan for a node that hangs on nothing.

        `conductances`: S for each pair (0 for one that is open), parallel pairs add up; `to_ground`: S for each node;
        `currents`: A into each node."""
        values = self.values()
        for index, value in zip(self.slot, conductances, strict=True):
            if index >= 0:
                values.g[index] += value
        values.ground[: self.nodes], values.current[: self.nodes] = to_ground, currents
        forward(values, self.early)
        weights = self.early_weights(values)
        forward(values, self.late)
        volts = self.late_volts(values)
        back_early(weights, volts)
        return volts[: self.nodes]

    def late_volts(self, values: Values) -> list[float]:
        """Voltages of the nodes that go late, after `forward`; the others nan. One more at the end, 0 for ground."""
        volts = [nan] * self.nodes
        volts.append(0.0)
        back(values, self.late, volts, self.zero)
        return volts

    def early_weights(self, values: Values) -> list[Weights]:
        """How each early node's voltage follows from its neighbours', after `forward`; for `back_early`."""
        found: list[Weights] = []
        for node, around, _ in reversed(self.early):
            total = values.sums[node]
            (a, edge_a), (b, edge_b) = (*around, (-1, -1), (-1, -1))[:2]
            share_a = values.g[edge_a] / total if edge_a >= 0 and total else 0.0
            share_b = values.g[edge_b] / total if edge_b >= 0 and total else 0.0
            found.append((node, values.current[node] / total if total else nan, a, share_a, b, share_b))
        return found


def forward(values: Values, steps: Iterable[Step]) -> None:
    """Let nodes go, in place: what hangs on each is handed to its neighbours."""
    g, ground, current, sums = values.g, values.ground, values.current, values.sums
    for node, around, pairs in steps:
        at, into = ground[node], current[node]
        total = at
        for _, edge in around:
            total += g[edge]
        sums[node] = total
        if total <= 0.0:
            continue
        if at or into:
            at /= total
            into /= total
            for other, edge in around:
                value = g[edge]
                ground[other] += value * at
                current[other] += value * into
        for first, second, between in pairs:
            g[between] += g[first] * g[second] / total


def back(values: Values, steps: Sequence[Step], volts: list[float], zero: Collection[int]) -> None:
    """Fill in the voltages of nodes that went, in place, last first."""
    g, current, sums = values.g, values.current, values.sums
    for node, around, _ in reversed(steps):
        total = sums[node]
        if total > 0.0:
            lifted = current[node]
            for other, edge in around:
                value = g[edge]
                if value:
                    lifted += value * volts[other]
            volts[node] = lifted / total
        elif node in zero:
            volts[node] = 0.0


def back_early(weights: Iterable[Weights], volts: list[float]) -> None:
    """Fill in the voltages of early nodes, in place, from those of the late ones."""
    for node, own, a, share_a, b, share_b in weights:
        volts[node] = own + share_a * volts[a] + share_b * volts[b]


def plan(
    nodes: int, pairs: Iterable[tuple[int, int]], keep: Collection[int] | None = None, zero: Iterable[int] = ()
) -> Elimination:
    """Find the order for a network of `nodes` nodes joined by pairs; ground is not a node.

    `keep`: nodes that states change; they and nodes with many neighbours go late. None: all go late. `zero`: go last
    of all, see Elimination."""
    slots: dict[tuple[int, int], int] = {}
    around: list[dict[int, int]] = [{} for _ in range(nodes)]

    def edge(a: int, b: int) -> int:
        key = (a, b) if a < b else (b, a)
        if key not in slots:
            slots[key] = len(slots)
            around[a][b] = around[b][a] = slots[key]
        return slots[key]

    def go(of: Collection[int], most: int) -> tuple[Step, ...]:
        """Take out those nodes by least degree, as long as they have at most so many neighbours."""
        todo = [(len(around[node]), node) for node in of if not gone[node]]
        heapq.heapify(todo)
        steps: list[Step] = []
        while todo:
            degree, node = heapq.heappop(todo)
            near = around[node]
            if gone[node] or degree > most:
                continue
            if degree != len(near):
                heapq.heappush(todo, (len(near), node))
                continue
            gone[node] = True
            others = sorted(near)
            fill = tuple((near[a], near[b], edge(a, b)) for index, a in enumerate(others) for b in others[index + 1 :])
            steps.append((node, tuple((other, near[other]) for other in others), fill))
            for other in others:
                del around[other][node]
                if other in of:
                    heapq.heappush(todo, (len(around[other]), other))
        return tuple(steps)

    slot = tuple(edge(a, b) if a != b else -1 for a, b in pairs)
    gone = [False] * nodes
    last = frozenset(zero)
    every = frozenset(range(nodes))
    early = () if keep is None else go(every - last - frozenset(keep), EARLY_DEGREE)
    late = go(every - last, nodes) + go(last, nodes)
    return Elimination(nodes, early, late, len(slots), slot, last)
