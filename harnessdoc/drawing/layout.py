"""Where stations and runs go: a trunk with breakouts on a raster of columns and rows. Pure geometry, no paper.

Any tree is laid out, cut into pieces where it is wider or taller than a sheet; a run that closes a loop ends in
a repeated station (an echo). A station's cell is never crossed: breakouts leave a station downwards or upwards,
run along free cells of its own column and turn right into the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

BREAKOUTS = 5
"""Breakouts that leave one side of a station at most: as many as its outline has room for."""


class Cell(NamedTuple):
    """A place on the raster; rows count downwards, the trunk's row is 0."""

    column: int
    row: int


@dataclass(frozen=True, slots=True)
class Edge:
    """A link between two stations, by its index in the list that was handed in."""

    link: int
    a: int
    b: int


@dataclass(frozen=True, slots=True)
class Stop:
    """A station in its cell. `echo`: it is drawn in full elsewhere. `more`: links that go on in other pieces."""

    station: int
    cell: Cell
    echo: bool = False
    more: int = 0


@dataclass(frozen=True, slots=True)
class Way:
    """A drawn link: straight to the right, or as breakout number `lane` of that side (0 is the rightmost)."""

    link: int
    start: Cell
    end: Cell
    lane: int = 0


@dataclass(slots=True)
class Piece:
    """One connected part of the drawing. Rows may be negative: above the trunk."""

    stops: list[Stop] = field(default_factory=list)
    ways: list[Way] = field(default_factory=list)

    @property
    def columns(self) -> int:
        """How many columns it takes."""
        return max(stop.cell.column for stop in self.stops) + 1

    @property
    def top(self) -> int:
        """Its uppermost row."""
        return min(stop.cell.row for stop in self.stops)

    @property
    def rows(self) -> int:
        """How many rows it takes."""
        return max(stop.cell.row for stop in self.stops) - self.top + 1


class _Branch(NamedTuple):
    """A child in the tree that is to be drawn: by which link, which station, and whether as an echo."""

    link: int
    station: int
    echo: bool


_Tree = dict[int, list[_Branch]]


def lay_out(stations: int, edges: Sequence[Edge], columns: int, rows: int) -> list[Piece]:
    """Return pieces of at most `columns` by `rows` that hold every station and every edge once.

    The trunk of each piece is the longest way through what is left; ties go to the lower number.
    """
    neighbours, closing = _tree_and_closures(stations, edges)
    pieces: list[Piece] = []
    seen: set[int] = set()
    for start in range(stations):
        if start in seen:
            continue
        root = _far_end(_far_end(start, neighbours), neighbours)
        other = _far_end(root, neighbours)
        root = min(root, other)
        tree = _hang(root, neighbours, closing, seen)
        waiting = [(root, tree.get(root, []), False)]
        while waiting:
            station, branches, echo = waiting.pop(0)
            piece, left = _Painter(tree, columns, rows).paint(station, branches, echo)
            pieces.append(piece)
            waiting += [(node, rest, True) for node, rest in left.items()]
    return pieces


def _tree_and_closures(
    stations: int, edges: Sequence[Edge]
) -> tuple[list[list[tuple[int, int]]], dict[int, list[_Branch]]]:
    """Split the edges into a tree (station to its links and neighbours) and those that close loops."""
    head = list(range(stations))

    def find(node: int) -> int:
        while head[node] != node:
            head[node] = head[head[node]]
            node = head[node]
        return node

    neighbours: list[list[tuple[int, int]]] = [[] for _ in range(stations)]
    closing: dict[int, list[_Branch]] = {}
    for edge in edges:
        if find(edge.a) == find(edge.b):
            closing.setdefault(edge.a, []).append(_Branch(edge.link, edge.b, True))
            continue
        head[find(edge.b)] = find(edge.a)
        neighbours[edge.a].append((edge.link, edge.b))
        neighbours[edge.b].append((edge.link, edge.a))
    return neighbours, closing


def _far_end(start: int, neighbours: list[list[tuple[int, int]]]) -> int:
    """The station the most links away, the lowest number among several."""
    distance = {start: 0}
    order = [start]
    for node in order:
        for _, other in neighbours[node]:
            if other not in distance:
                distance[other] = distance[node] + 1
                order.append(other)
    most = max(distance.values())
    return min(node for node, steps in distance.items() if steps == most)


def _hang(
    root: int, neighbours: list[list[tuple[int, int]]], closing: dict[int, list[_Branch]], seen: set[int]
) -> _Tree:
    """The tree as children of a root, the deepest child first, then as in the file; closures last."""
    parent: dict[int, int] = {root: -1}
    order = [root]
    for node in order:
        for _, other in neighbours[node]:
            if other not in parent:
                parent[other] = node
                order.append(other)
    seen.update(order)
    depth = dict.fromkeys(order, 0)
    for node in reversed(order[1:]):
        depth[parent[node]] = max(depth[parent[node]], depth[node] + 1)
    tree: _Tree = {}
    for node in order:
        children = [(link, other) for link, other in neighbours[node] if parent[other] == node]
        children.sort(key=lambda child: -depth[child[1]])
        tree[node] = [_Branch(link, other, False) for link, other in children] + closing.get(node, [])
    return tree


@dataclass(slots=True)
class _Sub:
    """A laid-out subtree, its root in cell (0, 0): stations, ways, and the cells and gaps it takes."""

    stops: dict[Cell, _Branch] = field(default_factory=dict)
    ways: list[Way] = field(default_factory=list)
    drops: dict[Cell, Cell] = field(default_factory=dict)  # a breakout's cell to the station it leaves
    gaps: set[Cell] = field(default_factory=set)
    left: dict[int, list[_Branch]] = field(default_factory=dict)


class _Painter:
    """Lays out one piece; what does not fit is handed back for the next."""

    def __init__(self, tree: _Tree, columns: int, rows: int) -> None:
        self._tree = tree
        self._columns = max(columns, 2)
        self._rows = max(rows, 1)

    def paint(self, station: int, branches: list[_Branch], echo: bool) -> tuple[Piece, dict[int, list[_Branch]]]:
        """Return the piece and, by station, the branches that are left for other pieces."""
        sub = self._grow(_Branch(-1, station, echo), branches, 0, both_sides=True)
        piece = Piece(ways=_in_lanes(sub.ways))
        for cell, branch in sub.stops.items():
            more = len(sub.left.get(branch.station, ())) if not branch.echo or cell == Cell(0, 0) else 0
            piece.stops.append(Stop(branch.station, cell, branch.echo, more))
        return piece, sub.left

    def _grow(self, root: _Branch, branches: list[_Branch], column: int, both_sides: bool) -> _Sub:
        """Lay out a subtree: its longest chain to the right, then its breakouts from the far end back."""
        sub = _Sub(stops={Cell(0, 0): root})
        chain: list[tuple[Cell, _Branch, list[_Branch]]] = []
        cell, node, rest = Cell(0, 0), root, branches
        while rest and column + cell.column + 1 < self._columns:
            first, *others = rest
            chain.append((cell, node, others))
            following = Cell(cell.column + 1, 0)
            sub.ways.append(Way(first.link, cell, following))
            sub.gaps.add(cell)
            sub.stops[following] = first
            cell, node, rest = following, first, self._children(first)
        if rest:
            sub.left[node.station] = list(rest)
        for at, branch, others in reversed(chain):
            lanes = {1: 0, -1: 0}
            for other in reversed(others):
                if not self._attach(sub, at, other, column, lanes, both_sides):
                    sub.left.setdefault(branch.station, []).append(other)
        return sub

    def _children(self, branch: _Branch) -> list[_Branch]:
        return [] if branch.echo else self._tree.get(branch.station, [])

    def _attach(
        self, sub: _Sub, at: Cell, branch: _Branch, column: int, lanes: dict[int, int], both_sides: bool
    ) -> bool:
        """Hang a breakout on the nearest free row, below or (on a trunk) above; False where there is none."""
        grown = self._grow(branch, self._children(branch), column + at.column + 1, both_sides=False)
        for distance in range(1, self._rows):
            for side in (1, -1) if both_sides else (1,):
                if lanes[side] < BREAKOUTS and self._fits(sub, grown, at, distance, side):
                    self._join(sub, grown, at, distance, side, branch.link)
                    lanes[side] += 1
                    return True
        return False

    def _fits(self, sub: _Sub, grown: _Sub, at: Cell, distance: int, side: int) -> bool:
        def moved(cell: Cell) -> Cell:
            return Cell(at.column + 1 + cell.column, side * (distance + cell.row))

        drops = [Cell(at.column, side * step) for step in range(1, distance + 1)]
        if any(cell in sub.stops or sub.drops.get(cell, at) != at for cell in drops):
            return False
        gaps = {moved(cell) for cell in grown.gaps} | {Cell(at.column, side * distance)}
        cells = {moved(cell) for cell in (*grown.stops, *grown.drops)}
        if gaps & sub.gaps or any(cell in sub.stops or cell in sub.drops for cell in cells):
            return False
        taken = [cell.row for cell in (*sub.stops, *cells)]
        return max(taken) - min(taken) < self._rows

    def _join(self, sub: _Sub, grown: _Sub, at: Cell, distance: int, side: int, link: int) -> None:
        def moved(cell: Cell) -> Cell:
            return Cell(at.column + 1 + cell.column, side * (distance + cell.row))

        sub.stops.update({moved(cell): branch for cell, branch in grown.stops.items()})
        sub.ways.append(Way(link, at, moved(Cell(0, 0))))
        sub.ways += [Way(way.link, moved(way.start), moved(way.end)) for way in grown.ways]
        sub.drops.update({moved(cell): moved(owner) for cell, owner in grown.drops.items()})
        sub.drops.update({Cell(at.column, side * step): at for step in range(1, distance + 1)})
        sub.gaps |= {moved(cell) for cell in grown.gaps} | {Cell(at.column, side * distance)}
        for station, branches in grown.left.items():
            sub.left.setdefault(station, []).extend(branches)


def _in_lanes(ways: list[Way]) -> list[Way]:
    """Number the breakouts of each station's side from the nearest row outwards, so that none crosses another."""
    numbered: list[Way] = []
    counts: dict[tuple[Cell, int], int] = {}
    for way in sorted(ways, key=lambda way: (way.start, abs(way.end.row - way.start.row))):
        side = (way.end.row > way.start.row) - (way.end.row < way.start.row)
        lane = counts.get((way.start, side), 0) if side else 0
        counts[way.start, side] = lane + 1
        numbered.append(replace(way, lane=lane))
    return numbered
