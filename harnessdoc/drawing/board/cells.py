"""The grid of tiles over the board: which rectangle each tile prints, and where a text fits on one tile whole.

Neighbours print a strip of OVERLAP_MM twice; no text stands in it. Knows no harness."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from harnessdoc.drawing.board.ground import JOINT_WIDE_MM, TEXT_CLEAR_MM, Ground
from harnessdoc.drawing.board.path import Point, meet
from harnessdoc.sheet.frame import ZONE_LETTERS
from harnessdoc.sheet.marks import Rect

OVERLAP_MM: Final = JOINT_WIDE_MM
_INSIDE_MM: Final = 2.0
_STEP_MM: Final = 12.0


class Tile(NamedTuple):
    """A tile by its row and column, from 0."""

    row: int
    column: int

    @property
    def name(self) -> str:
        """As printed: `B3` is in the second row, the third from the left."""
        letters, row = "", self.row
        while True:
            letters = ZONE_LETTERS[row % len(ZONE_LETTERS)] + letters
            row = row // len(ZONE_LETTERS) - 1
            if row < 0:
                return f"{letters}{self.column + 1}"


@dataclass(frozen=True, slots=True)
class Cells:
    """Tiles of `width_mm` by `height_mm`, from joint to joint."""

    width_mm: float
    height_mm: float

    def cell(self, tile: Tile) -> Rect:
        """From its joint to the next: what a tile shows when all are joined."""
        return Rect(tile.column * self.width_mm, tile.row * self.height_mm, self.width_mm, self.height_mm)

    def window(self, tile: Tile) -> Rect:
        """What the tile prints: its cell and the strip under its neighbours to the right and below."""
        cell = self.cell(tile)
        return Rect(cell.x, cell.y, cell.width + OVERLAP_MM, cell.height + OVERLAP_MM)

    def for_text(self, tile: Tile) -> Rect:
        """What only this tile prints."""
        cell = self.cell(tile)
        edge = OVERLAP_MM + _INSIDE_MM
        return Rect(cell.x + edge, cell.y + edge, cell.width - edge - _INSIDE_MM, cell.height - edge - _INSIDE_MM)

    def at(self, x: float, y: float) -> Tile:
        """The tile in whose cell a point lies."""
        return Tile(max(0, int(y // self.height_mm)), max(0, int(x // self.width_mm)))

    def touched(self, rect: Rect) -> Iterator[Tile]:
        """The tiles whose cells a rectangle reaches into."""
        first, last = self.at(rect.x, rect.y), self.at(rect.right, rect.bottom)
        for row in range(first.row, last.row + 1):
            for column in range(first.column, last.column + 1):
                yield Tile(row, column)

    def holds(self, rect: Rect) -> bool:
        """Whether a text is printed whole by one tile, and by no other."""
        room = self.for_text(self.at(rect.x, rect.y))
        inside_x = room.x - 1e-6 <= rect.x and rect.right <= room.right + 1e-6
        return inside_x and room.y - 1e-6 <= rect.y and rect.bottom <= room.bottom + 1e-6

    def spot(
        self,
        ground: Ground,
        sizes: Sequence[tuple[float, float]],
        near: Point,
        most_mm: float,
        avoid: Sequence[Rect] = (),
        *,
        step_mm: float = _STEP_MM,
        from_lines_mm: float = TEXT_CLEAR_MM,
        leader_mm: float = 10.0,
    ) -> Rect | None:
        """The free rectangle of one of these sizes nearest to a point, no further than `most_mm`; None if there is
        none. A straight leader from the point to it crosses nothing but within `leader_mm` of the point."""
        for ring in (most_mm / 3, most_mm):
            for far, x, y, width, height in sorted(self._tried(ground, sizes, near, ring, step_mm)):
                rect = Rect(x, y, width, height)
                if ring < most_mm or far > most_mm / 3:
                    if any(meet(rect, one) for one in avoid) or not ground.free(rect, from_lines_mm):
                        continue
                    if clear_leader(ground, near, nearest(rect, near), leader_mm):
                        return rect
        return None

    def _tried(
        self, ground: Ground, sizes: Sequence[tuple[float, float]], near: Point, most_mm: float, step_mm: float
    ) -> Iterator[tuple[float, float, float, float, float]]:
        """How far off, and the rectangle: all that stand whole on one tile, no further off than `most_mm`."""
        for width, height in sizes:
            left, top = near[0] - most_mm - width, near[1] - most_mm - height
            right, bottom = near[0] + most_mm, near[1] + most_mm
            for tile in self.touched(Rect(left, top, right - left, bottom - top)):
                room = self.for_text(tile)
                last_x, last_y = min(room.right, ground.width_mm) - width, min(room.bottom, ground.height_mm) - height
                downs = list(_steps(max(room.y, top), min(last_y, bottom), step_mm))
                for x in _steps(max(room.x, left), min(last_x, right), step_mm):
                    dx = max(x - near[0], near[0] - x - width, 0.0)
                    for y in downs:
                        far = math.hypot(dx, max(y - near[1], near[1] - y - height, 0.0))
                        if far <= most_mm:
                            yield far, x, y, width, height


def nearest(rect: Rect, point: Point) -> Point:
    """The point of a rectangle nearest to another point."""
    return min(max(point[0], rect.x), rect.right), min(max(point[1], rect.y), rect.bottom)


def clear_leader(ground: Ground, start: Point, end: Point, free_mm: float) -> bool:
    """Whether a straight line from a mark to its text crosses nothing, but near the mark."""
    length = math.dist(start, end)
    steps = int(length // 5.0) + 1
    for step in range(steps + 1):
        x, y = start[0] + (end[0] - start[0]) * step / steps, start[1] + (end[1] - start[1]) * step / steps
        if length * step / steps < free_mm or length * (1 - step / steps) < 1.5:
            continue
        dot = Rect(x - 5.0, y - 5.0, 10.0, 10.0)
        if any(meet(dot, taken.line) for taken in ground.lines):
            return False
        inner = Rect(x - 1.0, y - 1.0, 2.0, 2.0)
        if any(meet(inner, box) for box in ground.boxes):
            return False
    return True


def _steps(first: float, last: float, step: float) -> Iterator[float]:
    if last < first:
        return
    count = int((last - first) // step)
    for index in range(count + 1):
        yield first + index * step
    if last - first - count * step > 1e-6:
        yield last
