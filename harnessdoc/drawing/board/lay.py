"""Lays the trees of runs on the ground, run by run, with room for each peg's list beside it.

The board is tried narrow first and widened until everything fits below its greatest height; a run that still finds no
way starts from its peg drawn once more. Pure geometry: knows sizes of texts, not what they say."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count, pairwise
from typing import Final

from harnessdoc.drawing.board.cells import Cells, Tile
from harnessdoc.drawing.board.ground import BEND_MM, CLEAR_MM, EDGE_MM, TEXT_CLEAR_MM, Ground
from harnessdoc.drawing.board.path import Path, Point, grown, meet, spanned
from harnessdoc.drawing.board.tree import Branch, Drawn, Root
from harnessdoc.drawing.board.ways import AXES, EAST, NORTH, SOUTH, Corners, apart, ways
from harnessdoc.sheet.marks import Rect

Sizes = Sequence[tuple[float, float]]
"""Widths and heights that a list can have, the one to be preferred first."""

_COLUMNS: Final = (3, 4, 5, 6, 8, 10, 13, 17, 22, 30, 40, 60)
_FAR_MM: Final = 1500.0  # for texts that found no room near
_NEAR_TEXT_MM: Final = 220.0
_ENDLESS_MM: Final = 1e6


@dataclass(slots=True)
class Peg:
    """A nail where runs meet or end. `echo`: its place is laid at another peg. `boxes`: where its lists stand."""

    station: int
    at: Point
    echo: bool
    used: list[Point] = field(default_factory=list)
    boxes: list[Rect] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Laid:
    """A run on the board, between two pegs by their number. `forward`: its line begins at the run's own first end."""

    drawn: Drawn
    path: Path
    a: int
    b: int
    forward: bool


@dataclass
class Board:
    """Everything laid. `again`: how many pegs had to be drawn once more."""

    cells: Cells
    ground: Ground
    pegs: list[Peg] = field(default_factory=list)
    laid: list[Laid] = field(default_factory=list)
    again: int = 0
    bends: int = 0

    @property
    def rows(self) -> int:
        """Rows of tiles down to the lowest thing laid."""
        low = max([t.line.bottom for t in self.ground.lines] + [b.bottom for b in self.ground.boxes], default=0.0)
        return int(low // self.cells.height_mm) + 1

    @property
    def columns(self) -> int:
        """Columns of tiles that it was laid on."""
        return round(self.ground.width_mm / self.cells.width_mm)

    @property
    def tiles(self) -> int:
        """How many tiles runs and lists lie on."""
        rects = [*(taken.line for taken in self.ground.lines), *self.ground.boxes]
        return len({tile for rect in rects for tile in self.cells.touched(rect)})


def lay(roots: Sequence[Root], lists: Mapping[int, Sequence[Sizes]], cells: Cells, most_rows: int) -> Board:
    """Lay everything on a narrow board on which all fits into so many rows of tiles, with few tiles and bends.

    `lists`: by station the sizes of each of its lists."""
    least = _least_mm2(roots, lists) / (most_rows * cells.height_mm * cells.width_mm)
    widths = [columns for columns in _COLUMNS if columns >= least] or [_COLUMNS[-1]]
    fits: list[Board] = []
    for columns in widths:
        tried = [_strictly(_Layer(roots, lists, cells, columns, most_rows, top)) for top in _starts(cells, most_rows)]
        enough = bool(fits)  # one width more than the first that does, for it may take fewer tiles
        fits += [board for board in tried if board is not None]
        if enough:
            break
    if fits:
        return min(fits, key=lambda board: board.tiles + board.bends / 2 + board.columns / 2)
    boards = [
        _Layer(roots, lists, cells, columns, most_rows, cells.height_mm * 0.75).board()
        for columns in widths[1::2] or widths
    ]
    return min(boards, key=lambda board: (board.rows > most_rows, board.again, board.tiles))


class _NoRoomError(Exception):
    """Something found no room on a board of that size."""


def _strictly(layer: _Layer) -> Board | None:
    """The board, None if anything on it found no room."""
    layer.strict = True
    try:
        return layer.board()
    except _NoRoomError:
        return None


def _least_mm2(roots: Sequence[Root], lists: Mapping[int, Sequence[Sizes]]) -> float:
    """The ground that runs and lists take even when packed without a gap."""
    texts = sum(sizes[0][0] * sizes[0][1] for of_one in lists.values() for sizes in of_one)
    todo = [branch for root in roots for branch in root.onwards]
    length_mm = 0.0
    while todo:
        branch = todo.pop()
        length_mm += branch.drawn.drawn_mm
        todo += branch.onwards
    return length_mm * CLEAR_MM + texts


def _starts(cells: Cells, rows: int) -> tuple[float, ...]:
    """Heights at which the trunk may begin: near the top, or further down for breakouts on both sides."""
    shares = (1.0, 0.75, 1.25, rows / 2, 0.5)
    return tuple(dict.fromkeys(max(EDGE_MM, cells.height_mm * share) for share in shares))


class _Layer:
    def __init__(
        self,
        roots: Sequence[Root],
        lists: Mapping[int, Sequence[Sizes]],
        cells: Cells,
        columns: int,
        rows: int,
        top: float,
    ) -> None:
        self._roots, self._lists, self._cells, self._top = roots, lists, cells, top
        self._columns, self._rows = columns, rows
        self._made = Board(cells, Ground(columns * cells.width_mm, rows * cells.height_mm, cells.height_mm))
        self._seen: set[int] = set()
        self.strict = False

    def board(self) -> Board:
        """Lay all trees, one below the other."""
        for number, root in enumerate(self._roots):
            at = (EDGE_MM + 20.0, self._top)
            if number:
                at = self._elsewhere(sum(branch.drawn.drawn_mm for branch in root.onwards[:1])) or self._below()
            self._grow(self._peg(root.station, at, False, len(root.onwards)), root.onwards)
        if self._made.rows > self._rows:
            self._refuse()
        return self._made

    def _elsewhere(self, length_mm: float) -> Point | None:
        """A start on free ground from which a run can go straight to the right, with room below and above."""
        ground = self._made.ground
        height = min(
            ground.height_mm, (self._made.rows + 1) * self._cells.height_mm, self._rows * self._cells.height_mm
        )
        for row in range(int((height - 2 * EDGE_MM) // CLEAR_MM)):
            y = EDGE_MM + CLEAR_MM / 2 + row * CLEAR_MM
            for column in range(int(ground.width_mm // CLEAR_MM)):
                start = (EDGE_MM + 20.0 + column * CLEAR_MM, y)
                upright = min(ground.reach(start, SOUTH, -1), ground.reach(start, NORTH, -1))
                if upright > 0 and not ground.on_joint(y) and ground.reach(start, EAST, -1) >= length_mm + CLEAR_MM:
                    return start
        return None

    def _below(self) -> Point:
        """A start under everything laid; the ground has no lower end from now on."""
        ground = self._made.ground
        low = max([t.line.bottom for t in ground.lines] + [b.bottom for b in ground.boxes], default=0.0)
        ground.height_mm = _ENDLESS_MM
        return EDGE_MM + 20.0, low + 2.5 * CLEAR_MM

    def _grow(self, peg: int, branches: Sequence[Branch]) -> None:
        """The trunk's next run, then the breakouts of this peg with all beyond them, then on along the trunk."""
        todo: list[tuple[int, Branch | None, Sequence[Branch]]] = [(peg, None, branches)]
        while todo:
            at, branch, onwards = todo.pop()
            if branch is not None:
                at, onwards = self._edge(at, branch, False), branch.onwards
            if onwards:
                trunk = self._edge(at, onwards[0], True)
                todo.append((trunk, None, onwards[0].onwards))
                todo += [(at, breakout, ()) for breakout in onwards[1:]]  # the shortest is laid first

    def _edge(self, peg: int, branch: Branch, trunk: bool) -> int:
        """Lay one run; return the peg at its far end."""
        corners = self._best(peg, branch, trunk)
        if corners is None:
            self._refuse()
            self._made.again += 1
            at = self._elsewhere(branch.drawn.drawn_mm) or self._below()
            peg = self._peg(self._made.pegs[peg].station, at, True, 1)
            corners = self._best(peg, branch, True) or self._straight(peg, branch.drawn.drawn_mm)
        path = Path(corners, BEND_MM)
        start, end = self._made.pegs[peg], corners[-1]
        start.used.append(_way(corners[0], corners[1]))
        number = len(self._made.pegs)
        self._made.ground.add(path, (peg, number))
        self._made.bends += len(corners) - 2
        far = self._peg(branch.station, end, branch.echo, len(branch.onwards), _way(end, corners[-2]))
        self._made.laid.append(Laid(branch.drawn, path, peg, far, branch.forward))
        return far

    def _straight(self, peg: int, length_mm: float) -> Corners:
        """With all else failing: straight to the right under everything, on a board as wide as it takes."""
        x, y = self._made.pegs[peg].at
        self._made.ground.width_mm = max(self._made.ground.width_mm, x + length_mm + 2 * CLEAR_MM)
        return (x, y), (x + length_mm, y)

    def _best(self, peg: int, branch: Branch, trunk: bool) -> Corners | None:
        start, ground = self._made.pegs[peg], self._made.ground
        found = [
            (self._cost(peg, branch, corners, trunk), corners)
            for corners in ways(ground, peg, start.used, branch.drawn.drawn_mm)
            if not self._over_texts(corners)
        ]
        return next((corners for _, corners in sorted(found) if apart(ground, peg, corners)), None)

    def _over_texts(self, corners: Corners) -> bool:
        first = spanned(corners[0], corners[1])
        return bool(first.width and first.height) and any(meet(grown(first, 4.0), b) for b in self._made.ground.boxes)

    def _cost(self, peg: int, branch: Branch, corners: Corners, trunk: bool) -> float:
        """Bends cost, and ends that leave too few ways on; a trunk goes on straight, a breakout at a right angle."""
        start = self._made.pegs[peg]
        way = _way(corners[0], corners[1])
        cost = 30.0 * (len(corners) - 2)
        ahead = (-start.used[0][0], -start.used[0][1]) if start.used else (1.0, 0.0)
        if way not in AXES:
            cost += 150.0
        elif trunk:
            cost += 0.0 if way == ahead else 70.0
        else:
            cost += 50.0 if way in (ahead, (-ahead[0], -ahead[1])) else 0.0
        needed = min(3, len(branch.onwards))
        exits = self._made.ground.exits(corners[-1], -1, (_way(corners[-1], corners[-2]),))
        cost += 400.0 * max(0, needed - exits)
        levels = [a for a, b in pairwise(corners) if abs(a[1] - b[1]) < 1e-6]
        cost += 200.0 * sum(self._made.ground.on_joint(y) for _, y in levels)
        low = max(y for _, y in corners)
        return cost + 0.05 * low

    def _peg(self, station: int, at: Point, echo: bool, onwards: int, came: Point | None = None) -> int:
        number = len(self._made.pegs)
        peg = Peg(station, at, echo or station in self._seen, [came] if came else [])
        if not peg.echo:
            self._seen.add(station)
        self._made.pegs.append(peg)
        self._made.ground.at[number] = at
        for sizes in self._lists.get(station, ()) if not peg.echo else (ECHO,):
            box = self._room(at, sizes, onwards, came)
            peg.boxes.append(box)
            self._made.ground.stand(box)
        return number

    def _room(self, at: Point, sizes: Sizes, onwards: int, came: Point | None) -> Rect:
        """Where a peg's list stands: near it and off its ways on; where there is no room, at the nearest free spot."""
        avoid = [grown(Rect(*at, 0, 0), TEXT_CLEAR_MM)]
        if onwards:
            wide, long = 2 * TEXT_CLEAR_MM + 8.0, 3 * CLEAR_MM
            avoid += [
                Rect(at[0] - long, at[1] - wide / 2, 2 * long, wide),
                Rect(at[0] - wide / 2, at[1] - long, wide, 2 * long),
            ]
        elif came is not None:
            avoid.append(grown(spanned(at, (at[0] + came[0] * CLEAR_MM, at[1] + came[1] * CLEAR_MM)), TEXT_CLEAR_MM))
        spot, ground = self._cells.spot, self._made.ground
        near = spot(ground, sizes, at, _NEAR_TEXT_MM, avoid, leader_mm=30.0)
        if near is not None:
            return near
        far = spot(ground, sizes, at, _FAR_MM, avoid, leader_mm=math.inf, step_mm=30.0)
        if far is None:
            self._refuse()
        return far or self._under(sizes[0])

    def _refuse(self) -> None:
        if self.strict:
            raise _NoRoomError

    def _under(self, size: tuple[float, float]) -> Rect:
        """In the lowest row of tiles that is used, or in a new one under it."""
        rows, ground = self._made.rows, self._made.ground
        for tile in (Tile(row, column) for row in count(rows - 1) for column in range(self._columns)):
            room = self._cells.for_text(tile)
            rect = Rect(room.x, room.y, *size)
            if ground.free(rect):
                ground.height_mm = max(ground.height_mm, (tile.row + 1) * self._cells.height_mm)
                return rect
        raise AssertionError("rows never end")


ECHO: Final[Sizes] = ((50.0, 12.0),)
"""Room for the words beside a peg that is drawn once more."""


def _way(start: Point, to: Point) -> Point:
    """The direction from one point to another as a unit step, slanted ones as (±1, ±1)."""
    dx, dy = to[0] - start[0], to[1] - start[1]
    return (0.0 if abs(dx) < 1e-6 else math.copysign(1.0, dx), 0.0 if abs(dy) < 1e-6 else math.copysign(1.0, dy))
