"""Measuring drawn lines on the rendered page: which strings a line runs through. Reads the PDF as a stranger would."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence

import pdfplumber

from tests.sheet.measure import MM_PER_POINT, TextBox

Segment = tuple[float, float, float, float]
_BAND_MM = 5.0  # lines are looked up by bands of this height


def straight_lines(pdf: bytes) -> list[list[Segment]]:
    """Return every stroked straight piece of each page, mm, y down."""
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return [list(_of_page(page)) for page in document.pages]


def crossed(boxes: Sequence[TextBox], lines: Sequence[Segment], slack_mm: float = 0.15) -> list[tuple[str, Segment]]:
    """Return the strings that a line runs through; the box is taken in by the slack on every side."""
    bands: dict[int, list[Segment]] = {}
    for line in lines:
        for band in range(int(min(line[1], line[3]) // _BAND_MM), int(max(line[1], line[3]) // _BAND_MM) + 1):
            bands.setdefault(band, []).append(line)
    return [
        (box.text, line)
        for box in boxes
        if abs(box.angle) < 1
        for band in range(int(box.y0 // _BAND_MM), int(box.y1 // _BAND_MM) + 1)
        for line in bands.get(band, ())
        if _hits(box, line, slack_mm)
    ]


def _of_page(page: pdfplumber.page.Page) -> Iterator[Segment]:
    for thing in (*page.lines, *page.rects, *page.curves):
        if thing.get("stroke") is False or not thing.get("linewidth"):
            continue
        at: tuple[float, float] | None = None
        first: tuple[float, float] | None = None
        for step in thing["path"]:
            kind, points = step[0], step[1:]
            to = (points[-1][0] * MM_PER_POINT, points[-1][1] * MM_PER_POINT) if points else first
            if kind == "m":
                first = to
            elif kind in ("l", "h") and at is not None and to is not None and at != to:
                yield (*at, *to)
            at = to


def _hits(box: TextBox, line: Segment, slack: float) -> bool:
    """Whether the segment enters the box (Liang and Barsky's clipping)."""
    x1, y1, x2, y2 = line
    start, end = 0.0, 1.0
    for delta, near, far in (
        (x2 - x1, box.x0 + slack - x1, box.x1 - slack - x1),
        (y2 - y1, box.y0 + slack - y1, box.y1 - slack - y1),
    ):
        if abs(delta) < 1e-9:
            if near > 0 or far < 0:
                return False
            continue
        low, high = sorted((near / delta, far / delta))
        start, end = max(start, low), min(end, high)
    return start < end
