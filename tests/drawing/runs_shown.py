"""The runs as drawn: bundles from plate to plate with their dimension, found on the page, held against the model."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from harnessdoc.model.harness import Harness
from tests.drawing.paper import Drawn, Outline, Stroke
from tests.drawing.rows import length_equals
from tests.sheet.measure import TextBox

_BUNDLE_MM = 2.0  # a bundle's line is at least so wide
_ON_MM = 0.3
_PLATE_MM = 15.0  # a plate is at least so tall
_UNDER_MM = 40.0  # a run's dimension line is at most so far under its bundle
_ABOVE_MM = 2.0  # a dimension's text stands so far above its line
_SAID = re.compile(r"~?\d[\d.]* (mm|m)|length unknown")


class Shown(NamedTuple):
    """A bundle as drawn: the texts of the plates that it joins, and what its dimension says, "" for none."""

    a: str
    b: str
    length: str


def runs_not_dimensioned(harness: Harness, sheets: Sequence[Drawn]) -> list[str]:
    """Runs that no sheet shows between their places with the model's length; bundles that end on no plate."""
    shown = [run for drawn in sheets for run in _bundles(drawn)]
    found = [
        f"a bundle from {run.a or 'nothing'!r} to {run.b or 'nothing'!r}" for run in shown if not run.a or not run.b
    ]
    for run in harness.runs:
        between = [one for one in shown if _are(one, run.a, run.b)]
        if not between:
            found.append(f"{run.name}: not drawn")
        elif not all(length_equals(one.length, run.length_mm) for one in between):
            found.append(f"{run.name}: {[one.length for one in between]} for {run.length_mm} mm")
    return found


def _bundles(drawn: Drawn) -> Iterator[Shown]:
    plates = [shape for shape in drawn.outlines if shape.stroked and _is_plate(shape, drawn)]
    if not plates:
        return
    for stroke in drawn.strokes:
        (x1, y1), (x2, y2) = stroke.points[-2:]
        if stroke.width >= _BUNDLE_MM and abs(y1 - y2) < 0.01 and abs(x1 - x2) > 5:
            a, b = (_name(drawn, plates, *end) for end in (stroke.points[0], stroke.points[-1]))
            if a or b:  # else a bundle inside a breakout
                yield Shown(a, b, _dimension(drawn, stroke))


def _is_plate(shape: Outline, drawn: Drawn) -> bool:
    tall, wide = shape.y1 - shape.y0, shape.x1 - shape.x0
    return not shape.circle and _PLATE_MM <= tall < drawn.height_mm / 3 and 30 <= wide < drawn.width_mm / 4


def _name(drawn: Drawn, plates: Sequence[Outline], x: float, y: float) -> str:
    """The bold texts in the plate that has the point on its edge, without blanks; "" if there is no such plate."""
    for plate in plates:
        inside = plate.x0 - _ON_MM <= x <= plate.x1 + _ON_MM and plate.y0 - _ON_MM <= y <= plate.y1 + _ON_MM
        edge = min(abs(x - plate.x0), abs(x - plate.x1), abs(y - plate.y0), abs(y - plate.y1))
        if inside and edge <= _ON_MM:
            bold = [box for box in drawn.texts if box.bold and _holds(plate, box)]
            return "".join("".join(box.text.split()) for box in bold if not box.text.isdigit()) or "?"
    return ""


def _holds(plate: Outline, box: TextBox) -> bool:
    return plate.x0 < box.x0 and box.x1 < plate.x1 and plate.y0 < box.y0 and box.y1 < plate.y1


def _dimension(drawn: Drawn, stroke: Stroke) -> str:
    """The length on the nearest dimension line that spans the bundle's last leg."""
    (x1, y), (x2, _) = stroke.points[-2:]
    right = max(x1, x2)
    lines = [
        line
        for line in drawn.lines
        if line.y1 == line.y2 and 0 < line.y1 - y < _UNDER_MM and abs(max(line.x1, line.x2) - right) <= _ON_MM
    ]
    said = [
        (line.y1 - y, box.text)
        for line in lines
        for box in drawn.texts
        if _SAID.fullmatch(box.text)
        and 0 < line.y1 - (box.y0 + box.cap_mm) < _ABOVE_MM
        and math.isclose((box.x0 + box.x1) / 2, (line.x1 + line.x2) / 2, abs_tol=_ON_MM)
    ]
    return min(said, default=(0.0, ""))[1]


def _are(shown: Shown, a: str, b: str) -> bool:
    names = ("".join(a.split()), "".join(b.split()))
    return any(_is(one, names[0]) and _is(other, names[1]) for one, other in ((shown.a, shown.b), (shown.b, shown.a)))


def _is(printed: str, name: str) -> bool:
    return printed == name or (printed.endswith("…") and name.startswith(printed.rstrip("…")))
