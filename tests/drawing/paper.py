"""Measuring what is drawn on the rendered page: texts, lines and outlines in mm. Reads the PDF as a stranger would."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from tests.drawing.quick_pdf import QuickPage, read_pages
from tests.sheet.measure import MM_PER_POINT, TextBox, boxes_of

Segment = tuple[float, float, float, float]
_BAND_MM = 5.0  # lines are looked up by bands of this height
_FRAME_LINE_MM = 0.7  # ISO 5457, confirmed on one page (de.wikibooks.org Technisches Zeichnen)


class Line(NamedTuple):
    """A straight stroked piece: its middle line and its width, mm. `seen`: its ink is not white.

    `order`: when it was drawn; what is drawn later lies above."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float
    seen: bool
    order: int = 0


class Stroke(NamedTuple):
    """An open line through points, and its width, mm."""

    points: tuple[tuple[float, float], ...]
    width: float


class Outline(NamedTuple):
    """A closed shape by the box round its middle line, mm. `circle`: it is one. `order`: when it was drawn."""

    x0: float
    y0: float
    x1: float
    y1: float
    width: float
    circle: bool
    stroked: bool
    filled: bool
    order: int


@dataclass(frozen=True)
class Drawn:
    """One rendered page."""

    width_mm: float
    height_mm: float
    texts: tuple[TextBox, ...]
    lines: tuple[Line, ...]
    outlines: tuple[Outline, ...]
    strokes: tuple[Stroke, ...]

    @property
    def frame(self) -> Outline | None:
        """The frame: the largest box drawn with the frame's line."""
        thick = [shape for shape in self.outlines if shape.stroked and abs(shape.width - _FRAME_LINE_MM) < 0.02]
        return max(thick, key=lambda shape: (shape.x1 - shape.x0) * (shape.y1 - shape.y0), default=None)


def read_drawn(pdf: bytes) -> list[Drawn]:
    """Return all that is drawn on each page; the PDF is read once."""
    return [drawn_on(page) for page in read_pages(pdf)]


def straight_lines(pdf: bytes) -> list[list[Segment]]:
    """Return every stroked straight piece of each page, mm, y down."""
    return [[line[:4] for line in _lines(page.shapes)] for page in read_pages(pdf)]


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


def drawn_on(page: QuickPage) -> Drawn:
    """Return what is drawn on a page that is read already."""
    return Drawn(
        page.width * MM_PER_POINT,
        page.height * MM_PER_POINT,
        tuple(boxes_of(page)),
        tuple(_lines(page.shapes)),
        tuple(filter(None, (_outline(order, shape) for order, shape in enumerate(page.shapes)))),
        tuple(filter(None, map(_stroke, page.shapes))),
    )


def _lines(things: Sequence[dict[str, Any]]) -> Iterator[Line]:
    for order, thing in enumerate(things):
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
                kept = clipped((*at, *to), [side * MM_PER_POINT for side in thing["clip"]])
                if kept is not None:
                    yield Line(*kept, width, seen, order)
            at = to


def _outline(order: int, thing: dict[str, Any]) -> Outline | None:
    steps = {step[0] for step in thing["path"]}
    if "h" not in steps:
        return None
    points = list(_along(thing["path"]))
    xs, ys = zip(*points, strict=True)
    x0, y0, x1, y1 = (side * MM_PER_POINT for side in (min(xs), min(ys), max(xs), max(ys)))
    left, top, right, bottom = (side * MM_PER_POINT for side in thing["clip"])
    if x1 < left or x0 > right or y1 < top or y0 > bottom:
        return None
    square = abs((x1 - x0) - (y1 - y0)) < 0.02 * (x1 - x0) and x0 >= left and x1 <= right and y0 >= top and y1 <= bottom
    x0, y0, x1, y1 = max(x0, left), max(y0, top), min(x1, right), min(y1, bottom)
    width = (thing["linewidth"] or 0.0) * MM_PER_POINT
    circle = square and "l" not in steps and "c" in steps
    return Outline(x0, y0, x1, y1, width, circle, _stroked(thing), bool(thing.get("fill")), order)


def _along(path: Sequence[tuple[Any, ...]]) -> Iterator[tuple[float, float]]:
    """The points of a path, and eight on each of its curves (Bezier's cubic)."""
    at = (0.0, 0.0)
    for kind, *points in path:
        if kind == "c":
            (ax, ay), (bx, by), (cx, cy) = points
            for step in range(1, 9):
                t = step / 8
                u = 1 - t
                weights = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
                yield (
                    sum(weight * value for weight, value in zip(weights, (at[0], ax, bx, cx), strict=True)),
                    sum(weight * value for weight, value in zip(weights, (at[1], ay, by, cy), strict=True)),
                )
        elif points:
            yield points[-1]
        at = points[-1] if points else at


def _stroke(thing: dict[str, Any]) -> Stroke | None:
    """The open line of straight pieces that an object is; None for any other."""
    if not _stroked(thing) or _white(thing["stroking_color"]) or {step[0] for step in thing["path"]} != {"m", "l"}:
        return None
    points = [(x * MM_PER_POINT, y * MM_PER_POINT) for _, (x, y) in thing["path"]]
    return None if points[0] == points[-1] else Stroke(tuple(points), thing["linewidth"] * MM_PER_POINT)


def _stroked(thing: dict[str, Any]) -> bool:
    return thing.get("stroke") is not False and bool(thing.get("linewidth"))


def _white(colour: Any) -> bool:
    return colour is not None and all(part > 0.98 for part in (colour if isinstance(colour, tuple) else (colour,)))


def hits(box: TextBox, line: Segment, slack: float) -> bool:
    """Whether the segment enters the box, taken in by the slack."""
    return clipped(line[:4], (box.x0 + slack, box.y0 + slack, box.x1 - slack, box.y1 - slack)) is not None


def clipped(line: Segment, box: Sequence[float]) -> Segment | None:
    """Return what of a segment lies in a box (Liang and Barsky's clipping); None for no length of it."""
    x1, y1, x2, y2 = line
    start, end = 0.0, 1.0
    for at, delta, low, high in ((x1, x2 - x1, box[0], box[2]), (y1, y2 - y1, box[1], box[3])):
        if abs(delta) < 1e-9:
            if not low <= at <= high:
                return None
            continue
        near, far = sorted(((low - at) / delta, (high - at) / delta))
        start, end = max(start, near), min(end, far)
    if start >= end:
        return None
    return (
        x1 + start * (x2 - x1),
        y1 + start * (y2 - y1),
        x1 + end * (x2 - x1),
        y1 + end * (y2 - y1),
    )
