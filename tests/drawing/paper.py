"""Measuring what is drawn on the rendered page: texts, lines and outlines in mm. Reads the PDF as a stranger would."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import pdfplumber

from tests.sheet.measure import MM_PER_POINT, TextBox, boxes_of

Segment = tuple[float, float, float, float]
_BAND_MM = 5.0  # lines are looked up by bands of this height
_FRAME_LINE_MM = 0.7  # ISO 5457, confirmed on one page (de.wikibooks.org Technisches Zeichnen)


class Line(NamedTuple):
    """A straight stroked piece: its middle line and its width, mm. `seen`: its ink is not white."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float
    seen: bool


class Outline(NamedTuple):
    """A closed stroked or filled shape by the box round its middle line, mm. `circle`: it is one."""

    x0: float
    y0: float
    x1: float
    y1: float
    width: float
    circle: bool
    stroked: bool


@dataclass(frozen=True)
class Drawn:
    """One rendered page."""

    width_mm: float
    height_mm: float
    texts: tuple[TextBox, ...]
    lines: tuple[Line, ...]
    outlines: tuple[Outline, ...]

    @property
    def frame(self) -> Outline | None:
        """The frame: the largest box drawn with the frame's line."""
        thick = [shape for shape in self.outlines if shape.stroked and abs(shape.width - _FRAME_LINE_MM) < 0.02]
        return max(thick, key=lambda shape: (shape.x1 - shape.x0) * (shape.y1 - shape.y0), default=None)


def read_drawn(pdf: bytes) -> list[Drawn]:
    """Return all that is drawn on each page; the PDF is read once."""
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return [_drawn(page) for page in document.pages]


def straight_lines(pdf: bytes) -> list[list[Segment]]:
    """Return every stroked straight piece of each page, mm, y down."""
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        return [[line[:4] for line in _lines(page)] for page in document.pages]


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
        if hits(box, line, slack_mm)
    ]


def _drawn(page: pdfplumber.page.Page) -> Drawn:
    return Drawn(
        float(page.width) * MM_PER_POINT,
        float(page.height) * MM_PER_POINT,
        tuple(boxes_of(page)),
        tuple(_lines(page)),
        tuple(filter(None, map(_outline, (*page.rects, *page.curves)))),
    )


def _lines(page: pdfplumber.page.Page) -> Iterator[Line]:
    for thing in (*page.lines, *page.rects, *page.curves):
        if not _stroked(thing):
            continue
        width, seen = thing["linewidth"] * MM_PER_POINT, not _white(thing["stroking_color"])
        at: tuple[float, float] | None = None
        first: tuple[float, float] | None = None
        for step in thing["path"]:
            kind, points = step[0], step[1:]
            to = (points[-1][0] * MM_PER_POINT, points[-1][1] * MM_PER_POINT) if points else first
            if kind == "m":
                first = to
            elif kind in ("l", "h") and at is not None and to is not None and at != to:
                yield Line(*at, *to, width, seen)
            at = to


def _outline(thing: dict[str, Any]) -> Outline | None:
    steps = [step[0] for step in thing["path"]]
    if thing["object_type"] != "rect" and "h" not in steps:
        return None
    x0, y0, x1, y1 = (thing[side] * MM_PER_POINT for side in ("x0", "top", "x1", "bottom"))
    square = abs((x1 - x0) - (y1 - y0)) < 0.02 * (x1 - x0)
    width = (thing["linewidth"] or 0.0) * MM_PER_POINT
    return Outline(x0, y0, x1, y1, width, square and "l" not in steps and "c" in steps, _stroked(thing))


def _stroked(thing: dict[str, Any]) -> bool:
    return thing.get("stroke") is not False and bool(thing.get("linewidth"))


def _white(colour: Any) -> bool:
    return colour is not None and all(part > 0.98 for part in (colour if isinstance(colour, tuple) else (colour,)))


def hits(box: TextBox, line: Segment, slack: float) -> bool:
    """Whether the segment enters the box (Liang and Barsky's clipping)."""
    x1, y1, x2, y2 = line[:4]
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
