"""Where everything stands along a lead: the columns of one drawing, from the bundle to the item. Draws the leads.

Texts stand above their wire, one under the other where they are long, so that no line runs through one. Knows leads
and millimetres, no harness."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from harnessdoc.drawing import marks
from harnessdoc.drawing.breakouts.end_marks import LENGTH_MM, draw_end_mark
from harnessdoc.drawing.breakouts.leads import UNKNOWN, Lead
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, draw_sleeve, shortened
from harnessdoc.sheet.page import BLACK, WHITE, Page

PITCH_MM: Final = 6.2
"""Height of a lead with one line of text."""
LINE_UP_MM: Final = 1.5
"""How far a lead's line stands above the foot of its row."""
SPINE_MM: Final = (1.2, 2.2)  # from a block's left to its bundle's middle, and the bundle's outer width
WIRE_MM: Final = 0.35
MOST_LINES: Final = 4  # own choice: a text that needs more is shortened with …
_INNER_MM: Final = 1.5
_FAN_MM: Final = 1.8  # how far a wire bends where it leaves the bundle
_BASE_MM: Final = 2.0  # from the wire up to its texts' base line: clear of end marks and descenders
BREAKS: Final = "-._:/"
"""A designation too long for its column goes on after one of these first."""
_GAP_MM: Final = 1.6
_BODY_MM: Final = 78.0  # room for items that gaps between texts leave when they grow
_WIDER_MM: Final = 2.4
_SLEEVE_MM: Final = (7.0, 2.8)
_NUMBER_LEFT_MM: Final = 5.0
_CAPS_MM: Final = (34.0, 19.0, 22.0, 20.0, 34.0, 28.0)  # most of number, code, size, length, goes, fitting
_WEIGHTS: Final = (6, 6, 1, 2, 2, 1)  # own choice: how much a break spoils each; sizes and fittings break between words
_LEAST_TEXT_MM: Final = 8.0
_STEP_MM: Final = 0.5
_LEAST_BODY_MM: Final = 48.0


@dataclass(frozen=True, slots=True)
class Ruler:
    """Left edges of a lead's texts from the block's left edge, their widths, and where its wire ends (`end_mm`)."""

    width_mm: float
    widths: tuple[float, ...]
    sleeve_mm: float
    lefts: tuple[float, ...]
    end_mm: float

    @property
    def body_mm(self) -> float:
        """The room right of the terminals, mm."""
        return self.width_mm - self.end_mm

    def row_mm(self, lead: Lead) -> float:
        """Height of a lead, mm."""
        return PITCH_MM + STEP_MM * (max(len(lines) for lines in self._cells(lead)) - 1)

    def draw(self, page: Page, x: float, y: float, lead: Lead, beyond: Sequence[tuple[float, float]] = ()) -> None:
        """Draw a lead in the row whose foot is at y, from the bundle to its end, then on through `beyond`.

        The end mark is left out where the wire goes on: it is written then."""
        line = y - LINE_UP_MM
        edge = x + SPINE_MM[0] + SPINE_MM[1] / 2
        end = x + self.end_mm
        with page.group(lead.name, lead.title, desc=lead.desc, link=lead.link, potential=lead.potential):
            bend = [(edge, line - _FAN_MM), (edge + _FAN_MM, line)]
            page.polyline([*bend, *(beyond or [(end, line)])], stroke_mm=WIRE_MM, join="round")
            if lead.hardware is not None and not beyond:
                draw_end_mark(page, end, line, lead.hardware.form)
            draw_sleeve(page, x + self.sleeve_mm + _SLEEVE_MM[0] / 2, line, lead.colour, *_SLEEVE_MM)
            self._draw_texts(page, x, line - _BASE_MM, lead)

    def _draw_texts(self, page: Page, x: float, base: float, lead: Lead) -> None:
        for index, (lines, left) in enumerate(zip(self._cells(lead), self.lefts, strict=True)):
            right = index == len(self.lefts) - 1
            at = x + left + (self.widths[index] if right else 0.0)
            first = base - STEP_MM * (len(lines) - 1)
            page.lines(at, first, lines, TEXT_MM, bold=index == 0, anchor="end" if right else "start")
        if lead.spot:
            lines = self._cells(lead)[4]
            at = x + self.lefts[4] + lettering.text_width_mm(lines[-1], TEXT_MM) + 1.0
            marks.pill(page, at, base, lead.spot)

    def _cells(self, lead: Lead) -> list[list[str]]:
        room = self.widths[4] - (marks.pill_mm(lead.spot) + 1.0 if lead.spot else 0.0)
        return [
            shortened(text, room if index == 4 else width, index == 0, MOST_LINES, BREAKS)
            for index, (text, width) in enumerate(zip(_texts(lead), self.widths, strict=True))
        ]


def ruler_for(leads: Iterable[Lead], width_mm: float) -> Ruler:
    """Return the columns for all leads of a drawing, as narrow as their texts, in blocks of that width, mm."""
    widths = _widths_mm(list(leads), width_mm - _LEAST_BODY_MM)
    gap = _GAP_MM + min(max(width_mm - _least_mm(widths) - _BODY_MM, 0.0) / (len(widths) + 1), _WIDER_MM)
    sleeve = _NUMBER_LEFT_MM + widths[0] + gap
    left = sleeve + _SLEEVE_MM[0] + _GAP_MM
    lefts = [_NUMBER_LEFT_MM]
    for width in widths[1:]:
        lefts.append(left)
        left += width + gap
    return Ruler(width_mm, tuple(widths), sleeve, tuple(lefts), max(left, lefts[-1] + LENGTH_MM + _GAP_MM))


def _least_mm(widths: Sequence[float]) -> float:
    """Where wires end at the least."""
    return _NUMBER_LEFT_MM + sum(widths) + _SLEEVE_MM[0] + _GAP_MM * (len(widths) + 1)


def draw_spine(page: Page, x: float, top: float, bottom: float) -> None:
    """Draw a piece of the bundle upright along a block's left edge."""
    middle, wide = x + SPINE_MM[0], SPINE_MM[1]
    page.line(middle, top, middle, bottom, stroke=BLACK, stroke_mm=wide)
    page.line(middle, top, middle, bottom, stroke=WHITE, stroke_mm=_INNER_MM)


def _texts(lead: Lead) -> tuple[str, ...]:
    return (
        lead.number,
        lead.colour.code if lead.colour else UNKNOWN,
        lead.size,
        lead.length,
        lead.goes,
        lead.fitting,
    )


def _widths_mm(leads: Sequence[Lead], most_mm: float) -> list[float]:
    """Columns as wide as their widest texts, then narrowed where that breaks the fewest texts for a millimetre won,
    until the wires end at `most_mm`."""
    counts = [Counter(_STEP_MM * ceil(_needed_mm(index, lead) / _STEP_MM) for lead in leads) for index in range(6)]
    steps = [
        sorted({min(needed, cap) for needed in found} or {0.0}) for found, cap in zip(counts, _CAPS_MM, strict=True)
    ]
    least = [_LEAST_TEXT_MM] * len(steps)
    least[0] = max(_LEAST_TEXT_MM, steps[0][-1] / 2 + 2)  # numbers are broken late, and not cut short
    steps[0] = sorted({*steps[0], min(least[0], steps[0][-1])})
    broken = [0] * len(steps)
    while _least_mm([column[-1] for column in steps]) > most_mm:
        costs = []
        for index, column in enumerate(steps):
            if len(column) > 1 and column[-2] >= least[index]:
                more = sum(count for needed, count in counts[index].items() if needed > column[-2])
                cost = _WEIGHTS[index] * (more - broken[index]) / (column[-1] - column[-2])
                costs.append((cost, index, more))
        if not costs:
            break
        _, index, broken[index] = min(costs)
        steps[index].pop()
    return [column[-1] for column in steps]


def _needed_mm(index: int, lead: Lead) -> float:
    pill = marks.pill_mm(lead.spot) + 1.0 if index == 4 and lead.spot else 0.0
    return lettering.text_width_mm(_texts(lead)[index], TEXT_MM, index == 0) + pill + 0.01
