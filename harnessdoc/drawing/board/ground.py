"""The ground that the board is laid on: what is taken by runs and by texts, and how far a straight line may go.

Pure geometry in mm. Runs keep CLEAR_MM between their centre lines, but for those that leave one peg near it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise, product
from typing import Final, NamedTuple

from harnessdoc.drawing.board.path import Path, Point, grown, meet, spanned
from harnessdoc.sheet.marks import Rect

CLEAR_MM: Final = 80.0
"""Least distance between the centre lines of two runs, but within NEAR_MM of a peg that both leave."""
BEND_MM: Final = 40.0
"""Radius of every bend's centre line; a fold back needs CLEAR_MM."""
NEAR_MM: Final = 2 * CLEAR_MM
"""Within so far of a shared peg `reach` takes no notice of its other runs; `ways.apart` then looks closely."""
EDGE_MM: Final = 45.0
"""What stays free along the board's edges."""
TEXT_CLEAR_MM: Final = 16.0
"""From a run's centre line to texts beside it: half a thick bundle and its marks."""
JOINT_CLEAR_MM: Final = 13.0
JOINT_WIDE_MM: Final = 10.0
"""A joint of tiles is a strip so wide, that both print; level runs keep JOINT_CLEAR_MM off it where they can."""
_TINY: Final = 1e-6
_SQUARE_MM: Final = 150.0  # what is taken is looked up by squares of this size


class Taken(NamedTuple):
    """A straight stretch of a run, with its pegs by number. `wide`: it and its clearance."""

    line: Rect
    wide: Rect
    pegs: tuple[int, ...]


@dataclass
class Ground:
    """`width_mm`, `height_mm`: its limits. `joint_mm`: how far apart the level joints of tiles are, 0 for none.
    `lines`: stretches of runs; `boxes`: texts; `at`: where each peg is."""

    width_mm: float
    height_mm: float
    joint_mm: float = 0.0
    lines: list[Taken] = field(default_factory=list)
    boxes: list[Rect] = field(default_factory=list)
    wide_boxes: list[Rect] = field(default_factory=list)
    at: dict[int, Point] = field(default_factory=dict)
    _lines_in: dict[tuple[int, int], list[Rect]] = field(default_factory=dict)
    _boxes_in: dict[tuple[int, int], list[Rect]] = field(default_factory=dict)

    def stand(self, box: Rect) -> None:
        """Take the ground under a text."""
        self.boxes.append(box)
        _hold(self._boxes_in, box)
        self.wide_boxes.append(grown(box, TEXT_CLEAR_MM))

    def add(self, path: Path, pegs: tuple[int, ...]) -> None:
        """Take the ground under a run."""
        for a, b in pairwise(path.points):
            line = spanned(a, b)
            self.lines.append(Taken(line, grown(line, CLEAR_MM - _TINY), pegs))
            _hold(self._lines_in, line)

    def reach(self, start: Point, way: Point, peg: int, own: Sequence[Point] = ()) -> float:
        """How far a line may go from `start` in an axis direction before it comes too near to anything.

        Near `peg`, which it leaves, the other runs of that peg don't count. `own`: the line's corners so far."""
        far = self._to_edge(start, way)
        for rect in self._near(peg, own):
            far = min(far, _until(start, way, rect))
            if far <= 0:
                return 0.0
        return far

    def on_joint(self, y: float) -> bool:
        """Whether a level run there would lie along a joint of tiles, half on one and half on the other."""
        return self.joint_mm > 0 and (y + JOINT_CLEAR_MM) % self.joint_mm < 2 * JOINT_CLEAR_MM + JOINT_WIDE_MM

    def _to_edge(self, start: Point, way: Point) -> float:
        (x, y), (dx, dy) = start, way
        room = [
            (self.width_mm - EDGE_MM - x) if dx > 0 else (x - EDGE_MM) if dx < 0 else math.inf,
            (self.height_mm - EDGE_MM - y) if dy > 0 else (y - EDGE_MM) if dy < 0 else math.inf,
        ]
        return max(0.0, min(room))

    def _near(self, peg: int, own: Sequence[Point]) -> Iterator[Rect]:
        """Everything a new line keeps out of: stretches with their clearance (cut off near the peg), texts."""
        for taken in self.lines:
            if peg in taken.pegs:
                yield from _outside(taken.wide, self.at[peg])
            else:
                yield taken.wide
        for index in range(len(own) - 2):  # the stretch before the corner that it leaves touches it
            yield grown(spanned(own[index], own[index + 1]), CLEAR_MM - _TINY)
        yield from self.wide_boxes

    def open(self, rect: Rect, peg: int) -> bool:
        """Whether a line inside that rectangle comes too near to nothing; the runs of `peg` don't count near it."""
        inside = grown(rect, EDGE_MM)
        whole = inside.x >= 0 and inside.y >= 0 and inside.right <= self.width_mm and inside.bottom <= self.height_mm
        return whole and not any(meet(rect, taken) for taken in self._near(peg, ()))

    def exits(self, point: Point, peg: int, used: Sequence[Point]) -> int:
        """How many axis directions lead on from a point, but for those used."""
        ways = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
        return sum(self.reach(point, way, peg) >= CLEAR_MM for way in ways if way not in used)

    def free(self, rect: Rect, from_lines_mm: float = TEXT_CLEAR_MM, from_boxes_mm: float = 3.0) -> bool:
        """Whether a text may stand there."""
        wide, narrow = grown(rect, from_lines_mm), grown(rect, from_boxes_mm)
        return not _met(self._boxes_in, narrow) and not _met(self._lines_in, wide)


def _hold(held: dict[tuple[int, int], list[Rect]], rect: Rect) -> None:
    """Keep a rectangle by the squares that it reaches into."""
    for square in _squares(rect):
        held.setdefault(square, []).append(rect)


def _met(held: Mapping[tuple[int, int], Sequence[Rect]], rect: Rect) -> bool:
    return any(meet(rect, other) for square in _squares(rect) for other in held.get(square, ()))


def _squares(rect: Rect) -> Iterator[tuple[int, int]]:
    across = range(int(rect.x // _SQUARE_MM), int(rect.right // _SQUARE_MM) + 1)
    down = range(int(rect.y // _SQUARE_MM), int(rect.bottom // _SQUARE_MM) + 1)
    return product(across, down)


def _until(start: Point, way: Point, rect: Rect) -> float:
    """How far a ray goes before it enters a rectangle; endless if it never does, 0 from inside."""
    left, top, width, height = rect
    if way[0]:
        along, across, first, side, long, wide = start[0], start[1], left, top, width, height
    else:
        along, across, first, side, long, wide = start[1], start[0], top, left, height, width
    if not side < across < side + wide:
        return math.inf
    if way[0] + way[1] > 0:
        return math.inf if along >= first + long else max(0.0, first - along)
    return math.inf if along <= first else max(0.0, along - first - long)


def _outside(rect: Rect, peg: Point) -> Iterator[Rect]:
    """The parts of a rectangle outside the square round a peg."""
    left, top, right, bottom = peg[0] - NEAR_MM, peg[1] - NEAR_MM, peg[0] + NEAR_MM, peg[1] + NEAR_MM
    if not meet(rect, Rect(left, top, 2 * NEAR_MM, 2 * NEAR_MM)):
        yield rect
        return
    if rect.y < top:
        yield Rect(rect.x, rect.y, rect.width, top - rect.y)
    if rect.bottom > bottom:
        yield Rect(rect.x, bottom, rect.width, rect.bottom - bottom)
    high, low = max(rect.y, top), min(rect.bottom, bottom)
    if rect.x < left:
        yield Rect(rect.x, high, left - rect.x, low - high)
    if rect.right > right:
        yield Rect(right, high, rect.right - right, low - high)
