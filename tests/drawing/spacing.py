"""Faults of spacing on a rendered page: texts on one another, out of their frame or cell, run through, too small.

What a text stands in is found from the page's own lines and outlines, never from the code that drew it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import Generic, TypeVar

from tests.drawing.paper import Drawn, Line, Outline, hits
from tests.sheet.measure import TextBox, overlaps

SMALLEST_MM = 2.5
EDGE_MM = 5.0  # what printers leave at the paper's edge; common practice, no source
_SLACK_MM = 0.05
_SQUARE_MM = 20.0
Thing = TypeVar("Thing")


def overlapping(drawn: Drawn) -> list[str]:
    """Pairs of texts on one another."""
    return [f"{a.text!r} on {b.text!r}" for a, b in overlaps(drawn.texts)]


def out_of_frame(drawn: Drawn) -> list[str]:
    """Texts neither wholly inside the frame nor wholly in the strip round it, or too near the paper's edge."""
    paper = (EDGE_MM, EDGE_MM, drawn.width_mm - EDGE_MM, drawn.height_mm - EDGE_MM)
    frame = drawn.frame[:4] if drawn.frame else paper
    return [
        repr(box.text)
        for box in drawn.texts
        if not _inside(box, *paper) or not (_inside(box, *frame) or _beside(box, *frame))
    ]


def out_of_cell(drawn: Drawn) -> list[str]:
    """Texts whose ink leaves the smallest outline round their middle, or touches a ruled line."""
    outlines = _Squares[Outline]()
    for shape in drawn.outlines:
        if shape.stroked and min(shape.x1 - shape.x0, shape.y1 - shape.y0) >= SMALLEST_MM:
            outlines.put(shape, *shape[:4])
    ruled = [line for line in drawn.lines if line.x1 == line.x2 or line.y1 == line.y2]
    touching = {id(box) for box, _ in _struck(drawn, ruled, _touches)}
    found = []
    for box in drawn.texts:
        cell = _cell(box, outlines)
        if cell is not None and not _fits(box, cell):
            found.append(f"{box.text!r} leaves its {'circle' if cell.circle else 'box'}")
        elif id(box) in touching:
            found.append(f"{box.text!r} touches a line")
    return found


def run_through(drawn: Drawn) -> list[str]:
    """Texts that a line runs through."""
    return [
        f"{box.text!r} by {', '.join(f'{number:.1f}' for number in line[:4])}"
        for box, line in _struck(drawn, drawn.lines, lambda box, line: hits(box, line, 0.15))
    ]


def too_small(drawn: Drawn) -> list[str]:
    """Texts whose capitals are under 2.5 mm."""
    return [f"{box.text!r} {box.cap_mm:.2f} mm" for box in drawn.texts if box.cap_mm < SMALLEST_MM - 0.01]


SPACING: dict[str, Callable[[Drawn], list[str]]] = {
    "overlap": overlapping,
    "out of frame": out_of_frame,
    "out of cell": out_of_cell,
    "run through": run_through,
    "too small": too_small,
}


class _Squares(Generic[Thing]):
    """Things by the squares of the page that they reach into."""

    def __init__(self) -> None:
        self._held: dict[tuple[int, int], list[Thing]] = {}

    def put(self, thing: Thing, x0: float, y0: float, x1: float, y1: float) -> None:
        """Hold a thing by its box."""
        for square in _squares(x0, y0, x1, y1):
            self._held.setdefault(square, []).append(thing)

    def near(self, x0: float, y0: float, x1: float, y1: float) -> list[Thing]:
        """Return what lies in the squares of a box; a thing may come twice."""
        return [thing for square in _squares(x0, y0, x1, y1) for thing in self._held.get(square, ())]


def _struck(
    drawn: Drawn, lines: Sequence[Line], strikes: Callable[[TextBox, Line], bool]
) -> Iterator[tuple[TextBox, Line]]:
    """Texts with the lines that strike them; not what a fill laid over it hides."""
    held, fills = _Squares[Line](), _Squares[Outline]()
    for line in lines:
        if line.seen:
            held.put(line, *line[:4])
    for shape in drawn.outlines:
        if shape.filled:
            fills.put(shape, *shape[:4])
    for box in drawn.texts:
        for line in dict.fromkeys(held.near(box.x0 - 1, box.y0 - 1, box.x1 + 1, box.y1 + 1)):
            if strikes(box, line) and not any(
                _hides(shape, line, box) for shape in fills.near(box.x0, box.y0, box.x1, box.y1)
            ):
                yield box, line


def _touches(box: TextBox, line: Line) -> bool:
    """Whether the ink of a level or upright line, its width counted, comes on the box."""
    left, right = sorted((line.x1, line.x2))
    top, bottom = sorted((line.y1, line.y2))
    across, along = (0.0, line.width / 2) if top == bottom else (line.width / 2, 0.0)
    return (
        min(box.x1, right + across) - max(box.x0, left - across) > _SLACK_MM
        and min(box.y1, bottom + along) - max(box.y0, top - along) > _SLACK_MM
    )


def _hides(shape: Outline, line: Line, box: TextBox) -> bool:
    """Whether a fill drawn after the line covers all of it that is near the text."""
    if shape.order <= line.order:  # a shape's own line lies on its fill
        return False
    xs, ys = sorted((line.x1, line.x2)), sorted((line.y1, line.y2))
    left, right = max(xs[0], box.x0), min(xs[1], box.x1)
    top, bottom = max(ys[0], box.y0), min(ys[1], box.y1)
    return (
        shape.x0 - _SLACK_MM <= left
        and shape.x1 + _SLACK_MM >= right
        and shape.y0 - _SLACK_MM <= top
        and shape.y1 + _SLACK_MM >= bottom
    )


def _squares(x0: float, y0: float, x1: float, y1: float) -> list[tuple[int, int]]:
    left, right = (int(x // _SQUARE_MM) for x in sorted((x0, x1)))
    top, bottom = (int(y // _SQUARE_MM) for y in sorted((y0, y1)))
    return [(column, row) for column in range(left, right + 1) for row in range(top, bottom + 1)]


def _cell(box: TextBox, outlines: _Squares[Outline]) -> Outline | None:
    x, y = (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2
    around = [
        shape
        for shape in outlines.near(x, y, x, y)
        if shape.x0 < x < shape.x1
        and shape.y0 < y < shape.y1
        and (not shape.circle or math.dist((x, y), _middle(shape)) < (shape.x1 - shape.x0) / 2)
    ]
    return min(around, key=lambda shape: (shape.x1 - shape.x0) * (shape.y1 - shape.y0), default=None)


def _fits(box: TextBox, cell: Outline) -> bool:
    if not cell.circle:
        return _inside(box, *cell[:4])
    return all(math.dist(corner, _middle(cell)) <= (cell.x1 - cell.x0) / 2 + _SLACK_MM for corner in box.corners)


def _middle(shape: Outline) -> tuple[float, float]:
    return (shape.x0 + shape.x1) / 2, (shape.y0 + shape.y1) / 2


def _inside(box: TextBox, x0: float, y0: float, x1: float, y1: float) -> bool:
    return (
        box.x0 >= x0 - _SLACK_MM and box.y0 >= y0 - _SLACK_MM and box.x1 <= x1 + _SLACK_MM and box.y1 <= y1 + _SLACK_MM
    )


def _beside(box: TextBox, x0: float, y0: float, x1: float, y1: float) -> bool:
    return box.x1 <= x0 or box.x0 >= x1 or box.y1 <= y0 or box.y0 >= y1
