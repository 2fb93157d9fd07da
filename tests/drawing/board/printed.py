"""Putting a full-size board together from its printed tiles, as someone with scissors would: by names and offsets.

The sizes are worked by hand from the margins: A4 lying, 297 x 210 mm, less 12 mm left and right and 10 mm overlap gives
263 mm from joint to joint; less 12 mm above, 26 mm below and 10 mm overlap 162 mm. A3 in the same way 386 x 249 mm."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import pdfplumber

from tests.sheet.measure import MM_PER_POINT, text_boxes

PITCH = {"A4": (263.0, 162.0), "A3": (386.0, 249.0)}
MARGIN = 12.0
OVERLAP = 10.0
CENTRE_LINE_MM = 0.18
UNKNOWN_LINE_MM = 0.7
Point = tuple[float, float]


@dataclass(frozen=True)
class Stroke:
    """A stroked line on a sheet: its points (bends flattened finely), its width and dash in mm."""

    points: tuple[Point, ...]
    width_mm: float
    dash: tuple[float, ...]


@dataclass(frozen=True)
class Printed:
    """One printed tile: row, column, its strokes in mm of the board."""

    row: int
    column: int
    strokes: tuple[Stroke, ...]


@cache
def tiles(pdf: bytes, paper: str) -> list[Printed]:
    """Every sheet that bears a tile's name in letters of 10 mm, its lines moved to where the board has them."""
    width, height = PITCH[paper]
    found = []
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        for page, boxes in zip(document.pages, text_boxes(pdf), strict=True):
            names = [box.text for box in boxes if box.cap_mm > 9 and re.fullmatch("[A-Z]+[0-9]+", box.text)]
            if not names:
                continue
            row, column = "ABCDEFGHJKLMNPQRSTUVWXYZ".index(names[0][0]), int(names[0][1:]) - 1
            dx, dy = column * width - MARGIN, row * height - MARGIN
            strokes = tuple(
                Stroke(tuple((x + dx, y + dy) for x, y in one.points), one.width_mm, one.dash) for one in _strokes(page)
            )
            found.append(Printed(row, column, strokes))
    return found


def run_lengths(pdf: bytes, paper: str) -> list[float]:
    """The printed length of each centre line, over all tiles from joint to joint."""
    width, height = PITCH[paper]
    lengths: list[tuple[Point, Point, float]] = []
    for tile in tiles(pdf, paper):
        cell = (tile.column * width, tile.row * height, (tile.column + 1) * width, (tile.row + 1) * height)
        for stroke in tile.strokes:
            thin = abs(stroke.width_mm - CENTRE_LINE_MM) < 0.02 and len(stroke.dash) == 4
            heavy = abs(stroke.width_mm - UNKNOWN_LINE_MM) < 0.02 and len(stroke.dash) == 2
            if thin or heavy:
                first, last = stroke.points[0], stroke.points[-1]
                inside = sum(_inside(a, b, cell) for a, b in pairwise(stroke.points))
                same = [one for one in lengths if math.dist(one[0], first) < 1 and math.dist(one[1], last) < 1]
                lengths = [one for one in lengths if one not in same]
                lengths.append((first, last, inside + sum(one[2] for one in same)))
    return sorted(length for _, _, length in lengths)


def crosses(tile: Printed) -> set[Point]:
    """The middles of a tile's registration crosses: two thin lines of 7 mm through each other, in mm of the board."""
    level, upright = set(), set()
    for stroke in tile.strokes:
        if len(stroke.points) == 2 and abs(math.dist(*stroke.points) - 7.0) < 0.02 and stroke.width_mm < 0.2:
            (ax, ay), (bx, by) = stroke.points
            (level if abs(ay - by) < 0.01 else upright).add((round((ax + bx) / 2, 2), round((ay + by) / 2, 2)))
    return level & upright


def _strokes(page: pdfplumber.page.Page) -> Iterator[Stroke]:
    for thing in (*page.lines, *page.curves):
        if not thing.get("stroke") or not thing.get("linewidth"):
            continue
        points: list[Point] = []
        for step in thing["path"]:
            kind, ends = step[0], [(x * MM_PER_POINT, y * MM_PER_POINT) for x, y in step[1:]]
            if kind in ("m", "l"):
                points.append(ends[0])
            elif kind == "c":
                points += _bezier(points[-1], *ends)
        pattern = thing.get("dashing_style") or thing.get("dash") or ((), 0)
        dash = tuple(float(value) for value in (pattern[0] if pattern else ()))
        if len(points) > 1:
            yield Stroke(tuple(points), float(thing["linewidth"]) * MM_PER_POINT, dash)


def _bezier(a: Point, b: Point, c: Point, d: Point, steps: int = 24) -> list[Point]:
    found = []
    for step in range(1, steps + 1):
        t = step / steps
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        found.append(tuple(sum(w * p[axis] for w, p in zip(weights, (a, b, c, d), strict=True)) for axis in (0, 1)))
    return found  # type: ignore[return-value]


def _inside(a: Point, b: Point, cell: tuple[float, float, float, float]) -> float:
    """How much of a segment lies in a rectangle (Liang and Barsky's clipping)."""
    start, end = 0.0, 1.0
    for axis in (0, 1):
        delta = b[axis] - a[axis]
        near, far = cell[axis] - a[axis], cell[axis + 2] - a[axis]
        if abs(delta) < 1e-12:
            if near > 0 or far <= 0:
                return 0.0
            continue
        low, high = sorted((near / delta, far / delta))
        start, end = max(start, low), min(end, high)
    return max(0.0, end - start) * math.dist(a, b)
