"""Ways that one run of a given length can take from a peg over free ground: straight, bent off, folded to and fro.

Pure geometry. Each way is a list of corners whose line, bends rounded, has exactly the run's length."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from harnessdoc.drawing.board.ground import BEND_MM, CLEAR_MM, Ground
from harnessdoc.drawing.board.path import Point, saved_mm, spanned

EAST, SOUTH, WEST, NORTH = (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)
AXES: Final = (EAST, SOUTH, WEST, NORTH)
SLANTS: Final = ((1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0))
_SQUARE: Final = saved_mm(math.pi / 2, BEND_MM)
_SLANT: Final = saved_mm(math.pi / 4, BEND_MM)
_DROPS: Final = (1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)  # by how many clearances a lane lies off
_LEAST_MM: Final = BEND_MM + 5.0  # a straight at either end: its bend and a little more
_MOST_FOLDS: Final = 60
_NEAR_SHARED: Final = 1.42 * CLEAR_MM  # at 45 degrees two runs of a peg are CLEAR_MM apart from here on

Corners = tuple[Point, ...]


def ways(ground: Ground, peg: int, used: Sequence[Point], length_mm: float) -> Iterator[Corners]:
    """All ways that are tried, each clear of everything but perhaps of the peg's other runs (see `apart`)."""
    start = ground.at[peg]
    for way in AXES:
        if way in used:
            continue
        yield from _along(ground, peg, (start,), way, length_mm, None)
        if way in (SOUTH, NORTH):
            yield from _turned_off(ground, peg, start, way, length_mm)
    for slant in SLANTS:
        if slant not in used:
            yield from _slanting(ground, peg, start, slant, length_mm)


def apart(ground: Ground, peg: int, corners: Corners) -> bool:
    """Whether a way keeps its distance from the other runs of its peg, and does not come back to the peg."""
    at = ground.at[peg]
    others = [taken.line for taken in ground.lines if peg in taken.pegs]
    for index in range(len(corners) - 1):
        a, b = corners[index], corners[index + 1]
        steps = max(1, math.ceil(math.dist(a, b) / 10.0))
        for step in range(steps + 1):
            x, y = a[0] + (b[0] - a[0]) * step / steps, a[1] + (b[1] - a[1]) * step / steps
            if math.dist((x, y), at) < _NEAR_SHARED:
                if index >= 2:
                    return False
                continue
            for line in others:
                dx = max(line.x - x, 0.0, x - line.right)
                dy = max(line.y - y, 0.0, y - line.bottom)
                if dx * dx + dy * dy < (CLEAR_MM - 0.01) ** 2:
                    return False
    return True


def _turned_off(ground: Ground, peg: int, start: Point, way: Point, length_mm: float) -> Iterator[Corners]:
    """Away from the trunk at a right angle, then along it in a lane of its own."""
    reach = ground.reach(start, way, peg)
    for drop in _DROPS:
        down = drop * CLEAR_MM
        if down > reach or length_mm + _SQUARE - down < _LEAST_MM:
            return
        corner = _moved(start, way, down)
        if ground.on_joint(corner[1]):
            continue
        for side in (EAST, WEST):
            yield from _along(ground, peg, (start, corner), side, length_mm + _SQUARE - down, way)


def _slanting(ground: Ground, peg: int, start: Point, slant: Point, length_mm: float) -> Iterator[Corners]:
    """Off at 45 degrees for one lane, then level or upright: for pegs that many runs leave."""
    corner = _moved(start, slant, CLEAR_MM)
    left = length_mm + _SLANT - CLEAR_MM * math.sqrt(2)
    if left < _LEAST_MM or not ground.open(spanned(start, corner), peg):
        return
    for way in ((slant[0], 0.0), (0.0, slant[1])):
        yield from _along(ground, peg, (start, corner), way, left, None)


def _along(
    ground: Ground, peg: int, corners: Corners, way: Point, left_mm: float, fold: Point | None
) -> Iterator[Corners]:
    """On in one direction, to the end or to where there is no more room; then folded back, one lane further."""
    for _ in range(_MOST_FOLDS):
        reach = ground.reach(corners[-1], way, peg, corners)
        if reach >= left_mm >= _LEAST_MM or (reach >= left_mm and len(corners) == 1):
            yield (*corners, _moved(corners[-1], way, left_mm))
            return
        if not way[0]:  # only level passes are folded
            return
        folded = _folded(ground, peg, corners, way, reach, left_mm, fold)
        if folded is None:
            return
        corners, left_mm, fold, ended = folded
        if ended:
            yield corners
            return
        way = (-way[0], 0.0)


def _folded(
    ground: Ground, peg: int, corners: Corners, way: Point, reach: float, left_mm: float, fold: Point | None
) -> tuple[Corners, float, Point, bool] | None:
    """The corners with one more fold, what is left to lay, to which side it went, and whether it ended on the side."""
    sides = (fold,) if fold is not None else (SOUTH, NORTH)
    for side in sides:
        for drop in _DROPS:
            down = drop * CLEAR_MM
            # so far that a straight is left for the last lane
            level = min(reach, left_mm + 2 * _SQUARE - down - _LEAST_MM)
            if level < 2 * BEND_MM:
                break
            turn = _moved(corners[-1], way, level)
            if ground.reach(turn, side, peg, (*corners, turn)) < down:
                break
            lane = _moved(turn, side, down)
            if ground.on_joint(lane[1]):
                continue
            left = left_mm + 2 * _SQUARE - level - down
            back = (-way[0], 0.0)
            room = ground.reach(lane, back, peg, (*corners, turn, lane))
            if room >= min(left, 4 * CLEAR_MM):
                return (*corners, turn, lane), left, side, False
    return None


def _moved(start: Point, way: Point, by_mm: float) -> Point:
    return start[0] + way[0] * by_mm, start[1] + way[1] * by_mm
