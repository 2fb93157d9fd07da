"""Headings of blocks: a place's number, name and surroundings, the runs that leave it, and notes. Knows no harness."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing import marks
from harnessdoc.drawing.breakouts.ruler import SPINE_MM, Ruler, draw_spine
from harnessdoc.drawing.flow import Part
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.sheet.page import BLACK, WHITE, Page

RULE_MM: Final = 0.7
_HEAD_MM: Final = 10.6
_NAME_MM: Final = 3.5
_RUN_MM: Final = 5.4
_RUN_LEFT_MM: Final = 9.0
_OVERVIEW_MM: Final = 42.0


@dataclass(frozen=True, slots=True)
class Heading:
    """What stands over a block. `overview`: where the place is on the overview; `again`: it goes on from elsewhere."""

    label: str
    name: str
    about: str
    overview: str
    again: bool = False


def heading(ruler: Ruler, said: Heading) -> Part:
    """Return the heading of a block with the head of its bundle; one without a label has no bundle."""
    return titled(ruler.width_mm, said)


def titled(width_mm: float, said: Heading) -> Part:
    """Return a heading as wide as asked."""
    left = marks.label_mm(said.label) + 2 if said.label else 0.0
    room = width_mm - left - (_OVERVIEW_MM if said.overview else 0.0)
    lines = _name_lines(said.name, room)
    height = _NAME_MM if len(lines) == 1 and lettering.text_width_mm(lines[0], _NAME_MM, True) <= room else TEXT_MM
    step = height * lettering.LINE_SPACING
    rest = room - lettering.text_width_mm(lines[-1], height, True) - 4
    beside = len(lines) == 1 and lettering.text_width_mm(said.about, TEXT_MM) <= rest
    below = [] if beside or not said.about else shortened(said.about, width_mm - left, most=4)
    down = _HEAD_MM + step * (len(lines) - 1)

    def draw(page: Page, x: float, y: float) -> None:
        page.line(x, y, x + width_mm, y, stroke_mm=RULE_MM)
        with page.group(f"heading-{said.label or said.name}", " ".join(filter(None, (said.label, said.name)))):
            draw_words(page, x, y)

    def draw_words(page: Page, x: float, y: float) -> None:
        if said.label:
            draw_spine(page, x, y + 5.2 + marks.BALLOON_MM - 0.4, y + down + STEP_MM * len(below))
            marks.label(page, x, y + 5.2, said.label)
        base = y + 6.9
        for index, line in enumerate(lines):
            page.text(x + left, base + step * index, line, height, bold=True)
        if beside:
            page.text(x + left + lettering.text_width_mm(lines[-1], height, True) + 4, base, said.about)
        page.lines(x + left, base + step * (len(lines) - 1) + 4.6, below)
        if said.overview:
            page.text(x + width_mm, base, f"overview: {said.overview}", TEXT_MM, anchor="end", box_mm=_OVERVIEW_MM - 2)

    return Part(down + STEP_MM * len(below), draw, glued=True)


def _name_lines(name: str, room_mm: float) -> list[str]:
    if lettering.text_width_mm(name, _NAME_MM, True) <= room_mm:
        return [lettering.clean(name)]
    return shortened(name, room_mm, True, most=3)


def run_part(ruler: Ruler, label: str, name: str, length: str, bundle: str, last: bool) -> Part:
    """Return the mark where a run leaves the bundle, with where it goes, its length and its bundle."""
    words = ", ".join(filter(None, (length, bundle)))
    room = ruler.width_mm - _RUN_LEFT_MM - marks.pill_mm(label) - 9
    lines = shortened(f"{name}, {words}", room, most=3)
    height = _RUN_MM + STEP_MM * (len(lines) - 1) + (2.4 if last else 0.0)

    def draw(page: Page, x: float, y: float) -> None:
        draw_spine(page, x, y, y + height)
        level, middle = y + 2.6, x + SPINE_MM[0]
        start, end = middle + SPINE_MM[1] / 2 - 0.36, x + _RUN_LEFT_MM - 1.4
        with page.group("run-leaves", f"run to {label} {name}, {words}"):
            page.line(start, level, end, level, stroke=BLACK, stroke_mm=SPINE_MM[1])
            page.line(start - 0.5, level, end, level, stroke=WHITE, stroke_mm=1.5)
            page.polyline([(end, level - 1.1), (end + 0.9, level + 0.2), (end, level + 1.1)], stroke_mm=0.35)
            base = level + TEXT_MM / 2
            to = page.text(x + _RUN_LEFT_MM + 1, base, "to", TEXT_MM)
            at = x + _RUN_LEFT_MM + 2.2 + to
            marks.pill(page, at, base, label)
            page.lines(at + marks.pill_mm(label) + 1.2, base, lines, TEXT_MM)

    return Part(height, draw, glued=True)


def note_part(ruler: Ruler, text: str) -> Part:
    """Return a line of text beside the bundle."""
    return Part(6.0, lambda page, x, y: _note(page, x, y, text, ruler))


def _note(page: Page, x: float, y: float, text: str, ruler: Ruler) -> None:
    draw_spine(page, x, y, y + 6.0)
    page.text(x + _RUN_LEFT_MM, y + 3.6, text, TEXT_MM, box_mm=ruler.width_mm - _RUN_LEFT_MM)
