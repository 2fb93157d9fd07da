"""Which row each vertex of a strip is on: few crossings first, then straight lines, as close as texts allow.

The order by sweeps over the layers (each vertex to the middle of its neighbours), the best order seen is kept; the rows
by the same sweeps, neighbours that want one row pushed apart as little as may be. Both take time in line with size."""

from __future__ import annotations

from bisect import bisect_right, insort
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from math import ceil
from typing import Final

from harnessdoc.drawing.strips.columns import set_rows
from harnessdoc.drawing.strips.graph import Block
from harnessdoc.drawing.strips.weave import Net, Row, Tip, Vertex, Weave

_SWEEPS: Final = 8
_LEVEL_SWEEPS: Final = 8


def set_row_numbers(made: Weave) -> None:
    """Give every vertex its y, in rows from 0 at the top."""
    _Order(made).run()
    _Levels(made).run()


class _Order:
    """The order of the vertices in each layer."""

    def __init__(self, made: Weave) -> None:
        self.made = made
        self.place: dict[int, float] = {}
        self.beside: dict[int, tuple[list[tuple[Net, Tip]], list[tuple[Net, Tip]]]] = {}
        for nets in made.channels.values():
            for net in nets:
                for on_left, tips in ((True, net.left), (False, net.right)):
                    for tip in tips:
                        pair = self.beside.setdefault(id(tip.vertex), ([], []))
                        pair[0 if not on_left else 1].append((net, tip))

    def run(self) -> None:
        self.start()
        best, crossings = self.orders(), self.crossings()
        for sweep in range(_SWEEPS):
            if not crossings:
                break
            self.sweep(rightwards=sweep % 2 == 0)
            now = self.crossings()
            if now < crossings:
                best, crossings = self.orders(), now
        for layer, order in zip(self.made.layers, best, strict=True):
            layer[:] = order
        self.number()

    def start(self) -> None:
        """First order: as a walk along the lines meets them, so that what belongs together lies together."""
        seen: dict[int, int] = {}
        every = [vertex for layer in self.made.layers for vertex in layer]
        for first in every:
            todo = [first]
            while todo:
                vertex = todo.pop()
                if id(vertex) in seen:
                    continue
                seen[id(vertex)] = len(seen)
                pairs = self.beside.get(id(vertex), ([], []))
                others = [tip.vertex for net, _ in (*pairs[1], *pairs[0]) for tip in net.tips]
                todo.extend(other for other in reversed(others) if id(other) not in seen)
        for layer in self.made.layers:
            layer.sort(key=lambda vertex: seen[id(vertex)])
        self.number()

    def number(self) -> None:
        for layer in self.made.layers:
            self.number_layer(layer)

    def number_layer(self, layer: Sequence[Vertex]) -> None:
        self.place.update({id(vertex): float(index) for index, vertex in enumerate(layer)})

    def at(self, tip: Tip) -> float:
        """A tip's place in its layer: pins of one block in their order."""
        return self.place[id(tip.vertex)] + tip.row / 100

    def orders(self) -> list[list[Vertex]]:
        return [list(layer) for layer in self.made.layers]

    def sweep(self, rightwards: bool) -> None:
        layers = self.made.layers if rightwards else list(reversed(self.made.layers))
        for layer in layers:
            wanted = {}
            for index, vertex in enumerate(layer):
                pairs = self.beside.get(id(vertex), ([], []))
                found = self.middle(pairs[0 if rightwards else 1], rightwards)
                wanted[id(vertex)] = float(index) if found is None else found
                if isinstance(vertex, Block) and vertex.sort == "box":
                    self.sort_pins(vertex, pairs)
            layer.sort(key=lambda vertex: wanted[id(vertex)])
            self.number_layer(layer)

    def middle(self, beside: Iterable[tuple[Net, Tip]], rightwards: bool) -> float | None:
        places = [self.at(t) - tip.row / 100 for net, tip in beside for t in (net.left if rightwards else net.right)]
        return sum(places) / len(places) if places else None

    def sort_pins(self, block: Block, pairs: tuple[list[tuple[Net, Tip]], list[tuple[Net, Tip]]]) -> None:
        """Bring a box's pins into the order of what they are joined to."""
        wanted: dict[int, float] = {}
        for beside, opposite in ((pairs[0], "left"), (pairs[1], "right")):
            for net, tip in beside:
                tips = net.left if opposite == "left" else net.right
                if tip.pin is not None and tips:
                    wanted[id(tip.pin)] = sum(self.at(one) for one in tips) / len(tips)
        order = sorted(range(len(block.pins)), key=lambda i: (wanted.get(id(block.pins[i]), 1e9), i))
        block.pins = [block.pins[i] for i in order]
        set_rows(block)

    def crossings(self) -> int:
        return sum(self.crossings_in(nets) for nets in self.made.channels.values())

    def crossings_in(self, nets: Sequence[Net]) -> int:
        pairs = sorted((self.at(a), self.at(b)) for net in nets for a in net.left[:8] for b in net.right[:8])
        seen: list[float] = []
        count = 0
        for _, right in pairs:
            count += len(seen) - bisect_right(seen, right)
            insort(seen, right)
        return count


class _Levels:
    """The rows, once the order stands."""

    def __init__(self, made: Weave) -> None:
        self.made = made
        self.left: dict[int, list[tuple[Net, Tip]]] = {}
        self.right: dict[int, list[tuple[Net, Tip]]] = {}
        for nets in made.channels.values():
            for net in nets:
                for tip in net.right:
                    self.left.setdefault(id(tip.vertex), []).append((net, tip))
                for tip in net.left:
                    self.right.setdefault(id(tip.vertex), []).append((net, tip))

    def run(self) -> None:
        for layer in self.made.layers:
            self.place(layer, [0.0] * len(layer))
        best, least = self.rows(), float("inf")
        for sweep in range(_LEVEL_SWEEPS):
            rightwards = sweep % 2 == 0
            for layer in self.made.layers if rightwards else reversed(self.made.layers):
                self.place(layer, [self.wanted(vertex, rightwards) for vertex in layer])
            if sweep and (now := self.bends()) < least:
                best, least = self.rows(), now
        for layer, rows in zip(self.made.layers, best, strict=True):
            for vertex, row in zip(layer, rows, strict=True):
                vertex.y = row
        top = min((v.y - v.up for layer in self.made.layers for v in layer), default=0.0)
        for layer in self.made.layers:
            for vertex in layer:
                vertex.y += ceil(-top)

    def rows(self) -> list[list[int]]:
        return [[vertex.y for vertex in layer] for layer in self.made.layers]

    def bends(self) -> float:
        """How crooked all lines are: each row more that a net needs, and a little for how far apart they are."""
        total = 0.0
        for nets in self.made.channels.values():
            for net in nets:
                rows = {tip.y for tip in net.tips}
                total += (len(rows) - 1) * (0.3 if net.link else 1.0) + 0.05 * (max(rows) - min(rows))
        return total

    def wanted(self, vertex: Vertex, rightwards: bool) -> float:
        """The row on which most of a vertex's lines to one side are straight; its own where it has none.

        A wire's row looks first for a net that is nothing but a line: one that more share is bent anyhow."""
        here, there = (self.left, self.right) if rightwards else (self.right, self.left)
        if isinstance(vertex, Row):
            rows = self._rows(vertex, here, True) or self._rows(vertex, there, True) or self._rows(vertex, here, False)
        else:
            rows = self._rows(vertex, here, False)
        rows.sort()
        return float(rows[(len(rows) - 1) // 2]) if rows else float(vertex.y)

    def _rows(self, vertex: Vertex, side: Mapping[int, list[tuple[Net, Tip]]], plain: bool) -> list[int]:
        """Where the vertex would be for each of its lines to one side; `plain`: only of nets with two ends."""
        return [
            other.y - tip.row
            for net, tip in side.get(id(vertex), ())
            if not plain or len(net.left) + len(net.right) == 2
            for other in (net.left if side is self.left else net.right)
        ]

    def place(self, layer: Sequence[Vertex], wanted: Sequence[float]) -> None:
        """Nearest to what is wanted with all in order and apart: blocks that touch move as one, to their middle."""
        offsets = [0] if layer else []
        for above, below in pairwise(layer):
            offsets.append(offsets[-1] + ceil(above.down + below.up - 1e-9))
        groups: list[tuple[list[float], int]] = []  # what the members want of their first, sorted; how many
        for want, offset in zip(wanted, offsets, strict=True):
            values, count = [want - offset], 1
            while groups and _median(groups[-1][0]) > _median(values):
                before, members = groups.pop()
                values, count = sorted(before + values), count + members
            groups.append((values, count))
        index = 0
        for values, count in groups:
            base = round(_median(values))
            for _ in range(count):
                layer[index].y = base + offsets[index]
                index += 1


def _median(values: Sequence[float]) -> float:
    return values[(len(values) - 1) // 2]
