"""Where wires meet in one point: splices as dots, earth points, ends that nobody knows. Knows leads, no harness."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from harnessdoc.drawing.breakouts.leads import Lead
from harnessdoc.drawing.breakouts.rows import AFTER_MM, Row, Slot, Words, rows_of
from harnessdoc.drawing.breakouts.ruler import LINE_UP_MM, WIRE_MM, Ruler, draw_spine
from harnessdoc.drawing.flow import Part
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.sheet.page import BLACK, WHITE, Page

Sign = Callable[[Page, float, float], None]
"""Draws what the wires meet on round (x, y)."""
DOT_MM: Final = 1.1
SIGN_MM: Final = 16.0
"""From the wires' end to the words."""
_FAN_MM: Final = 7.0
_MOST_FANNED: Final = 6
_TALLEST_MM: Final = 60.0  # so that a fan has room in any column
_TOP_MM: Final = 0.5
_AGAIN_MM: Final = 5.5


def joint_parts(
    ruler: Ruler, name: str, title: str, slot: Slot, words: Words, sign: Sign, again: Words
) -> Iterator[Part]:
    """Return a joint: few wires run together into one dot, more than six onto a bar that can be parted."""
    rows = rows_of((slot,), ruler)
    if len(rows) <= _MOST_FANNED and rows[-1].foot_mm <= _TALLEST_MM:
        yield _fanned(ruler, name, title, rows, words, sign)
    else:
        yield from _barred(ruler, name, title, rows, words, sign, again)


def _fanned(ruler: Ruler, name: str, title: str, rows: Sequence[Row], words: Words, sign: Sign) -> Part:
    middle = _TOP_MM + (rows[0].line_mm + rows[-1].line_mm) / 2
    height = max(rows[-1].foot_mm + _TOP_MM, words.height_mm, middle + 4.0) + AFTER_MM

    def draw(page: Page, x: float, y: float) -> None:
        draw_spine(page, x, y, y + height)
        edge, dot = x + ruler.end_mm, x + ruler.end_mm + _FAN_MM
        for row in rows:
            if row.lead is not None:
                line = y + _TOP_MM + row.line_mm
                ruler.draw(page, x, y + _TOP_MM + row.foot_mm, row.lead, ((edge, line), (dot, y + middle)))
        with page.group(f"joint-{name}", f"{name} {title}"):
            sign(page, dot, y + middle)
            words.draw(page, edge + SIGN_MM, y)

    return Part(height, draw)


def _barred(
    ruler: Ruler, name: str, title: str, rows: Sequence[Row], words: Words, sign: Sign, again: Words
) -> Iterator[Part]:
    last = len(rows) - 1
    spare = max(0.0, words.height_mm - rows[-1].foot_mm)

    def part(index: int, row: Row) -> Part:
        height = row.height_mm + (spare + AFTER_MM if index == last else 0.0)

        def draw(page: Page, x: float, y: float) -> None:
            draw_spine(page, x, y, y + height)
            dot, foot = x + ruler.end_mm + _FAN_MM, y + row.height_mm
            line = foot - (row.foot_mm - row.line_mm)
            if row.lead is not None:
                ruler.draw(page, x, foot, row.lead, ((dot, line),))
            page.line(dot, line if index == 0 else y, dot, line if index == last else foot, stroke_mm=2 * WIRE_MM)
            page.circle(dot, line, DOT_MM * 0.7, fill=BLACK, stroke="none")
            if index == 0:
                with page.group(f"joint-{name}", f"{name} {title}"):
                    sign(page, dot, line)
                    words.draw(page, x + ruler.end_mm + SIGN_MM, y)

        whole = row.foot_mm < words.height_mm + 4.0 or index >= last - 2
        return Part(height, draw, glued=index < last and whole, under=under if index else None)

    under = _again(ruler, again)
    for index, row in enumerate(rows):
        yield part(index, row)


def _again(ruler: Ruler, words: Words) -> Part:
    def draw(page: Page, x: float, y: float) -> None:
        draw_spine(page, x, y, y + _AGAIN_MM)
        words.draw(page, x + ruler.end_mm + SIGN_MM, y)
        dot = x + ruler.end_mm + _FAN_MM
        page.line(dot, y + 2.0, dot, y + _AGAIN_MM, stroke_mm=2 * WIRE_MM, dash=(1.2, 0.8))

    return Part(_AGAIN_MM, draw)


def dot_sign(page: Page, x: float, y: float) -> None:
    """The dot where conductors are joined (IEC 60617: connection)."""
    page.circle(x, y, DOT_MM, fill=BLACK, stroke="none")


def earth_sign(page: Page, x: float, y: float) -> None:
    """A dot, and the earth's three bars to its right."""
    dot_sign(page, x, y)
    page.line(x, y, x + 3.6, y, stroke_mm=WIRE_MM)
    for index, half in enumerate((3.0, 2.0, 1.0)):
        page.line(x + 3.6 + 1.3 * index, y - half, x + 3.6 + 1.3 * index, y + half, stroke_mm=0.5)


def unknown_sign(page: Page, x: float, y: float) -> None:
    """A dashed ring with a question mark: something that nothing in the file describes."""
    page.circle(x + 2.4, y, 2.4, fill=WHITE, stroke_mm=0.35, dash=(1.0, 0.7))
    page.text(x + 2.4, y + 1.25, "?", 2.5, bold=True, anchor="middle")


def alone_part(ruler: Ruler, name: str, title: str, words: Words, sign: Sign) -> Part:
    """Return a joint on which no wire is known to end."""
    height = max(words.height_mm, 8.0) + AFTER_MM

    def draw(page: Page, x: float, y: float) -> None:
        draw_spine(page, x, y, y + height)
        with page.group(f"joint-{name}", f"{name} {title}"):
            sign(page, x + ruler.end_mm + _FAN_MM, y + 4.0)
            words.draw(page, x + ruler.end_mm + SIGN_MM, y)

    return Part(height, draw)


def open_part(ruler: Ruler, lead: Lead, words: str, unknown: bool) -> Part:
    """Return a lead whose end is not landed, or not found yet, with what is known of it."""
    room = ruler.body_mm - SIGN_MM / 2
    lines = shortened(words, room, most=3)
    row = max(ruler.row_mm(lead), STEP_MM * len(lines) + 1.6)

    def draw(page: Page, x: float, y: float) -> None:
        end, line = x + ruler.end_mm, y + row - LINE_UP_MM
        draw_spine(page, x, y, y + row)
        ruler.draw(page, x, y + row, lead)
        if unknown:
            page.circle(end + 2.4, line - 0.75, 2.4, stroke_mm=0.35, dash=(1.0, 0.7))
            page.text(end + 2.4, line + 0.5, "?", TEXT_MM, bold=True, anchor="middle")
        page.lines(end + SIGN_MM / 2, line + 0.5 - STEP_MM * (len(lines) - 1), lines, TEXT_MM)

    return Part(row, draw)
