"""Whether the line under a wire's number ends on what it names: measured on the page, from the number on."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise

from harnessdoc.model.harness import Harness
from harnessdoc.model.points import Point
from tests.drawing.paper import Drawn, Outline, Stroke
from tests.drawing.rows import WireRow, Words, words_of
from tests.sheet.measure import TextBox

ON_MM = 0.3
"""How near a line must come to what it ends on."""
_UNDER_MM = (0.2, 3.5)  # a number stands so far above its line
_TERMINAL_MM = (12.0, 3.3)  # right of the line's end, and its middle above or below it
_TITLE_MM = (45.0, 4.5)  # right of the line's end, and at most so far below it
_AGAIN = ",continued"  # behind a title that is said again
_BODY_MM = 3.5  # an outline that a line can end on is at least so tall; what sits on a wire's end is smaller


class Leads:
    """The lines of one page and what they can end on."""

    def __init__(self, drawn: Drawn, designations: Collection[str]) -> None:
        """Sort the page's lines and titles; `designations`: of items, plugs and splices."""
        self._level: dict[int, list[tuple[float, float, float, Stroke]]] = {}
        for stroke in drawn.strokes:
            for (x1, y1), (x2, y2) in pairwise(stroke.points):
                if abs(y1 - y2) < 0.01:
                    self._level.setdefault(round(y1), []).append((y1, min(x1, x2), max(x1, x2), stroke))
        self._bodies = [shape for shape in drawn.outlines if shape.stroked and shape.y1 - shape.y0 >= _BODY_MM]
        self._dots = [shape for shape in drawn.outlines if shape.circle and not shape.stroked]
        self._sleeves = [shape for shape in drawn.outlines if shape.stroked and _is_sleeve(shape)]
        self._sides = [line for line in drawn.lines if line.x1 == line.x2 and abs(line.y2 - line.y1) >= _BODY_MM]
        self._texts = [box for box in drawn.texts if abs(box.angle) < 1]
        bare = {"".join(name.split()): name for name in designations}
        self._titles = [
            (word, name)
            for word in words_of(drawn.texts)
            if word.lines[0].bold and (name := _title(word.text, bare)) is not None
        ]

    def end_of(self, number: Words) -> tuple[float, float] | None:
        """The right end of the line that the number stands on, past the sleeve on it; None without a line."""
        box = number.lines[-1]
        base = box.y0 + box.cap_mm
        under = [
            (y, stroke)
            for key in range(round(base) - 1, round(base) + 6)
            for y, left, right, stroke in self._level.get(key, ())
            if _UNDER_MM[0] <= y - base <= _UNDER_MM[1] and left <= box.x0 + 1 and right >= box.x1
        ]
        return self._past_sleeve(*_end(min(under)[1])) if under else None

    def _past_sleeve(self, x: float, y: float) -> tuple[float, float]:
        """A line may stop at a sleeve and go on from its other side."""
        for sleeve in self._sleeves:
            if abs(sleeve.x0 - x) <= ON_MM and sleeve.y0 < y < sleeve.y1:
                for at, left, right, stroke in self._level.get(round(y), ()):
                    if abs(at - y) < 0.01 and abs(left - sleeve.x1) <= ON_MM and right > left:
                        return _end(stroke)
        return x, y

    def touches(self, x: float, y: float) -> bool:
        """Whether a line's end is on an outline or an upright side, or in a dot, within 0.3 mm."""
        sides = (line for line in self._sides if abs(line.x1 - x) <= ON_MM)
        return (
            any(min(line.y1, line.y2) - ON_MM <= y <= max(line.y1, line.y2) + ON_MM for line in sides)
            or any(_is_on(x, y, shape) for shape in self._bodies)
            or any(math.dist((x, y), _middle(dot)) <= (dot.x1 - dot.x0) / 2 + ON_MM for dot in self._dots)
        )

    def ends_at(self, x: float, y: float, point: Point) -> bool:
        """Whether the terminal's name stands right of the line's end, and its owner's is the nearest title above."""
        if point.terminal and not any(_is_beside(box, x, y, point.terminal) for box in self._texts):
            return False
        above = [
            (word.lines[0].y0, name)
            for word, name in self._titles
            if x - ON_MM < word.lines[0].x0 < x + _TITLE_MM[0]
            and word.lines[0].y0 + word.lines[0].cap_mm < y + _TITLE_MM[1]
        ]
        nearest = max(above, default=(0.0, ""))[0]
        return any(name == point.owner for top, name in above if top == nearest)


class Followed:
    """The wire lines of a whole drawing."""

    def __init__(self, harness: Harness, sheets: Sequence[Drawn]) -> None:
        """Take the designations from the harness, all else from the sheets."""
        self._harness = harness
        self._leads = [Leads(drawn, {*harness.items, *harness.plugs, *harness.splices}) for drawn in sheets]

    def stands_for(self, row: WireRow, point: Point) -> bool:
        """Whether the row's line ends at the point; of a row without a line, whether the point stands beside it."""
        page = self._leads[row.sheet - 1]
        end = page.end_of(row.number)
        return row.names(point) if end is None else page.ends_at(*end, point)

    def astray(self, rows: Mapping[str, list[WireRow]]) -> list[str]:
        """Rows without a line, and lines that end on nothing or not at the terminal that their row stands for."""
        return [fault for name, its in rows.items() for row in its if (fault := self._fault(name, row))]

    def _fault(self, name: str, row: WireRow) -> str:
        """A row that says where the wire goes stands for its other end."""
        wire, page = self._harness.wires[name], self._leads[row.sheet - 1]
        ends = [here for here, there in ((wire.a, wire.b), (wire.b, wire.a)) if row.goes_to(there.text)]
        end = page.end_of(row.number)
        if end is None:
            return f"{name} on sheet {row.sheet}: no line under its number"
        if ends and all(here.point is None for here in ends):
            return ""
        if not page.touches(*end):
            return f"{name} on sheet {row.sheet}: its line ends on nothing at {end[0]:.1f}, {end[1]:.1f}"
        if not any(here.point is not None and page.ends_at(*end, here.point) for here in ends):
            return f"{name} on sheet {row.sheet}: its line ends not at {' or '.join(here.text for here in ends)}"
        return ""


def _title(text: str, bare: Mapping[str, str]) -> str | None:
    """The designation that a title says; None for any other text."""
    text = text.removesuffix(_AGAIN)
    if text in bare:
        return bare[text]
    cut = text[:-1] if text.endswith("…") and len(text) > 3 else None
    return next((name for whole, name in bare.items() if cut and whole.startswith(cut)), None)


def _is_sleeve(shape: Outline) -> bool:
    return 2.0 <= shape.y1 - shape.y0 <= 3.4 and 4.0 <= shape.x1 - shape.x0 <= 12.0


def _end(stroke: Stroke) -> tuple[float, float]:
    return max(stroke.points[0], stroke.points[-1])


def _is_on(x: float, y: float, shape: Outline) -> bool:
    if shape.circle:
        return abs(math.dist((x, y), _middle(shape)) - (shape.x1 - shape.x0) / 2) <= ON_MM
    inside = shape.x0 - ON_MM <= x <= shape.x1 + ON_MM and shape.y0 - ON_MM <= y <= shape.y1 + ON_MM
    return inside and min(abs(x - shape.x0), abs(x - shape.x1), abs(y - shape.y0), abs(y - shape.y1)) <= ON_MM


def _middle(shape: Outline) -> tuple[float, float]:
    return (shape.x0 + shape.x1) / 2, (shape.y0 + shape.y1) / 2


def _is_beside(box: TextBox, x: float, y: float, name: str) -> bool:
    return (
        -ON_MM <= box.x0 - x <= _TERMINAL_MM[0]
        and abs((box.y0 + box.y1) / 2 - y) <= _TERMINAL_MM[1]
        and "".join(box.text.split()) == "".join(name.split())
    )
