"""Measuring text on the rendered page: where every drawn string lies in a PDF, in mm, y down from the top left.

For tests of all sheets: `from tests.sheet.measure import text_boxes, overlaps, smallest_cap_height_mm`. Reads the
PDF as a stranger would (pdfplumber); takes nothing from the package that drew it.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import pdfplumber

MM_PER_POINT = 25.4 / 72
# Of the carried typeface (DejaVu Sans Condensed 2.37), read off the glyphs H and g with a font editor: in ems.
CAP_HEIGHT_EM = 1493 / 2048
DESCENDER_EM = 0.24
_DESCENDING = frozenset("gjpqyQ,;()[]{}/|@_çşţģķļņŗ")

Point = tuple[float, float]


@dataclass(frozen=True)
class TextBox:
    """One drawn string and the box of its ink: base line (or descender) to capitals, all its advance."""

    text: str
    x0: float
    y0: float
    x1: float
    y1: float
    cap_mm: float
    angle: float  # degrees clockwise, 0 reads left to right
    corners: tuple[Point, Point, Point, Point]
    bold: bool

    @property
    def width_mm(self) -> float:
        """Advance width along the reading direction."""
        return math.dist(self.corners[0], self.corners[1])


def text_boxes(pdf: bytes) -> list[list[TextBox]]:
    """Return the drawn strings of each page, in drawing order."""
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return [boxes_of(page) for page in document.pages]


def boxes_of(page: Any) -> list[TextBox]:
    """Return the drawn strings of one opened page (pdfplumber's, or one with its `chars`), in drawing order."""
    return [_box(run) for run in _runs(map(_glyph, page.chars, [page] * len(page.chars)))]


def overlaps(boxes: Sequence[TextBox], tolerance_mm: float = 0.1) -> list[tuple[TextBox, TextBox]]:
    """Return the pairs whose boxes (turned boxes too) reach into each other by more than the tolerance."""
    order = sorted(range(len(boxes)), key=lambda index: boxes[index].y0)
    found: list[tuple[int, int]] = []
    for at, first in enumerate(order):
        a = boxes[first]
        for other in order[at + 1 :]:  # down the page, as far as the box reaches
            b = boxes[other]
            if b.y0 >= a.y1 - tolerance_mm:
                break
            across = min(a.x1, b.x1) - max(a.x0, b.x0)
            if across > tolerance_mm and b.y1 - b.y0 > tolerance_mm and _depth(a, b) > tolerance_mm:
                found.append((min(first, other), max(first, other)))
    return [(boxes[first], boxes[other]) for first, other in sorted(found)]


def outside(
    boxes: Iterable[TextBox], x0: float, y0: float, x1: float, y1: float, tolerance_mm: float = 0.05
) -> list[TextBox]:
    """Return the boxes that are not wholly inside the rectangle."""
    return [
        box
        for box in boxes
        if box.x0 < x0 - tolerance_mm
        or box.y0 < y0 - tolerance_mm
        or box.x1 > x1 + tolerance_mm
        or box.y1 > y1 + tolerance_mm
    ]


def smallest_cap_height_mm(boxes: Iterable[TextBox]) -> float:
    """Return the height of the smallest capitals, mm (infinite for no text)."""
    return min((box.cap_mm for box in boxes), default=math.inf)


@dataclass(frozen=True)
class _Glyph:
    text: str
    start: Point  # on the base line, mm, y down
    along: Point  # unit vector of reading
    advance_mm: float
    em_mm: float
    bold: bool

    @property
    def end(self) -> Point:
        return self.start[0] + self.along[0] * self.advance_mm, self.start[1] + self.along[1] * self.advance_mm


def _glyph(char: dict[str, Any], page: Any) -> _Glyph:
    a, b, c, d, e, f = char["matrix"]
    length = math.hypot(a, b)
    # cairo writes the size into the matrix and 1 as font size; the glyph's advance is in the same units
    return _Glyph(
        text=char["text"],
        start=(e * MM_PER_POINT, (float(page.height) - f) * MM_PER_POINT),
        along=(a / length, -b / length),
        advance_mm=char["adv"] * length * MM_PER_POINT,
        em_mm=math.hypot(c, d) * MM_PER_POINT,
        bold="Bold" in char["fontname"],
    )


def _runs(glyphs: Iterable[_Glyph]) -> list[list[_Glyph]]:
    """Glyphs that follow each other on one base line, in one size, are one string."""
    runs: list[list[_Glyph]] = []
    for glyph in glyphs:
        if runs and _follows(runs[-1][-1], glyph):
            runs[-1].append(glyph)
        else:
            runs.append([glyph])
    return [run for run in runs if any(not glyph.text.isspace() for glyph in run)]


def _follows(before: _Glyph, after: _Glyph) -> bool:
    if abs(before.em_mm - after.em_mm) > 0.01 or before.bold != after.bold:
        return False
    if math.dist(before.along, after.along) > 0.001:
        return False
    return math.dist(before.end, after.start) < 0.03 * before.em_mm


def _box(run: Sequence[_Glyph]) -> TextBox:
    first, last = run[0], run[-1]
    text = "".join(glyph.text for glyph in run)
    (ax, ay), em_mm = first.along, first.em_mm
    below = em_mm * (DESCENDER_EM if _DESCENDING & set(text) else 0.02)
    above = em_mm * CAP_HEIGHT_EM

    def corner(at: Point, away: float) -> Point:
        return at[0] - ay * away, at[1] + ax * away  # `away` to the right of reading, that is downwards

    corners = corner(first.start, -above), corner(last.end, -above), corner(last.end, below), corner(first.start, below)
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    angle = math.degrees(math.atan2(ay, ax))
    return TextBox(text, min(xs), min(ys), max(xs), max(ys), above, angle, corners, first.bold)


def _depth(a: TextBox, b: TextBox) -> float:
    """How deep two turned boxes reach into each other: the least overlap over their four axes (separating axes)."""
    depth = math.inf
    for box in (a, b):
        for p, q in ((0, 1), (1, 2)):
            dx, dy = box.corners[q][0] - box.corners[p][0], box.corners[q][1] - box.corners[p][1]
            length = math.hypot(dx, dy)
            if length == 0:
                continue
            on_a = [(x * dx + y * dy) / length for x, y in a.corners]
            on_b = [(x * dx + y * dy) / length for x, y in b.corners]
            depth = min(depth, min(max(on_a), max(on_b)) - max(min(on_a), min(on_b)))
    return depth
