"""Solve a resistor network by eliminating its nodes one after the other (star to mesh, Kron's reduction).

Only sums of positive conductances, never a difference, so a milliohm beside a megohm costs no digits, and a part that
hangs on nothing comes out as floating by itself. Harnesses are nearly trees: eliminated by least degree they fill in
hardly at all, and time grows with the nodes. The order is found once for a network; values come with each state.
Source of the reduction: G. Kron, Tensor Analysis of Networks (1939). Least degree: common practice."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import nan

Step = tuple[int, tuple[tuple[int, int], ...], tuple[tuple[int, int, int], ...]]
"""A node, its (neighbour, edge) pairs when it goes, and (edge, edge, edge between) for each pair of neighbours."""


@dataclass(frozen=True)
class Elimination:
    """The order in which nodes go. `edges`: number of edge slots, those of the network first, then the filled in."""

    nodes: int
    steps: tuple[Step, ...]
    edges: int
    slot: tuple[int, ...]
    """Edge slot of each pair that it was made from; -1 for a pair that joins a node with itself."""

    def solve(
        self, conductances: Sequence[float], to_ground: Sequence[float], currents: Sequence[float]
    ) -> list[float]:
        """Return the voltage of every node over ground, in V; nan for a node that hangs on nothing.

        `conductances`: S for each pair (0 for one that is open), parallel pairs add up; `to_ground`: S for each node;
        `currents`: A into each node."""
        g = [0.0] * self.edges
        for index, value in zip(self.slot, conductances, strict=True):
            if index >= 0:
                g[index] += value
        ground, current = list(to_ground), list(currents)
        sums = [0.0] * self.nodes
        for node, around, pairs in self.steps:
            total = ground[node]
            for _, edge in around:
                total += g[edge]
            sums[node] = total
            if total <= 0.0:
                continue
            share = ground[node] / total
            into = current[node] / total
            for other, edge in around:
                value = g[edge]
                if value:
                    ground[other] += value * share
                    current[other] += value * into
            for first, second, between in pairs:
                g[between] += g[first] * g[second] / total
        return self._back(g, current, sums)

    def _back(self, g: list[float], current: list[float], sums: list[float]) -> list[float]:
        volts = [nan] * self.nodes
        for node, around, _ in reversed(self.steps):
            total = sums[node]
            if total > 0.0:
                lifted = current[node]
                for other, edge in around:
                    value = g[edge]
                    if value:
                        lifted += value * volts[other]
                volts[node] = lifted / total
        return volts


def plan(nodes: int, pairs: Iterable[tuple[int, int]]) -> Elimination:
    """Find the order for a network of `nodes` nodes joined by pairs; ground is not a node."""
    slots: dict[tuple[int, int], int] = {}
    around: list[dict[int, int]] = [{} for _ in range(nodes)]

    def edge(a: int, b: int) -> int:
        key = (a, b) if a < b else (b, a)
        if key not in slots:
            slots[key] = len(slots)
            around[a][b] = around[b][a] = slots[key]
        return slots[key]

    slot = tuple(edge(a, b) if a != b else -1 for a, b in pairs)
    todo = [(len(near), node) for node, near in enumerate(around)]
    heapq.heapify(todo)
    gone = [False] * nodes
    steps: list[Step] = []
    while todo:
        degree, node = heapq.heappop(todo)
        if gone[node]:
            continue
        near = around[node]
        if degree != len(near):
            heapq.heappush(todo, (len(near), node))
            continue
        gone[node] = True
        others = sorted(near)
        fill = tuple((near[a], near[b], edge(a, b)) for index, a in enumerate(others) for b in others[index + 1 :])
        steps.append((node, tuple((other, near[other]) for other in others), fill))
        for other in others:
            del around[other][node]
            heapq.heappush(todo, (len(around[other]), other))
    return Elimination(nodes, tuple(steps), len(slots), slot)
