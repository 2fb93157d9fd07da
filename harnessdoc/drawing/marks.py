"""Small marks that several drawings share: numbered balloons, pills, arrowheads, dimension lines. Knows no harness."""

from __future__ import annotations

from typing import Final

from harnessdoc.sheet import lettering
from harnessdoc.sheet.page import BLACK, WHITE, Page

BALLOON_MM: Final = 3.4
"""Radius of a balloon, room for three digits of 2.5 mm."""
NARROW_MM: Final = 0.25  # ISO 128: narrow lines (dimensions, leaders) of the 0.5 mm group
_ARROW_MM: Final = 2.5
_PILL_MM: Final = 3.5
_PILL_PAD_MM: Final = 0.9


def balloon(page: Page, x: float, y: float, number: int, filled: bool = True) -> None:
    """Draw a station's number in a disc round (x, y), white on black; not filled: black on white."""
    page.circle(x, y, BALLOON_MM, fill=BLACK if filled else WHITE, stroke_mm=0.35)
    text = str(number)
    height = 2.5
    page.text(x, y + height / 2, text, height, bold=True, anchor="middle", fill=WHITE if filled else BLACK)


def label_mm(text: str) -> float:
    """Return the width of a station's label at the head of its block: a balloon, or wider for a long one."""
    return max(2 * BALLOON_MM, lettering.text_width_mm(text, lettering.SMALLEST_MM, True) + 3.0)


def label(page: Page, x: float, y: float, text: str) -> None:
    """Draw a station's label white on black, its left edge at x and its middle at height y."""
    width = label_mm(text)
    page.rect(x, y - BALLOON_MM, width, 2 * BALLOON_MM, radius=BALLOON_MM, fill=BLACK, stroke="none")
    base = y + lettering.SMALLEST_MM / 2
    page.text(x + width / 2, base, text, lettering.SMALLEST_MM, bold=True, anchor="middle", fill=WHITE)


def pill_mm(text: str) -> float:
    """Return the width of a pill with that text, mm."""
    return max(lettering.text_width_mm(text, lettering.SMALLEST_MM, True) + 2 * _PILL_PAD_MM, _PILL_MM)


def pill(page: Page, x: float, y: float, text: str) -> None:
    """Draw a station's label white on black among texts whose base line is at y, its left edge at x."""
    width = pill_mm(text)
    top = y - lettering.SMALLEST_MM - (_PILL_MM - lettering.SMALLEST_MM) / 2
    page.rect(x, top, width, _PILL_MM, radius=_PILL_MM / 2, fill=BLACK, stroke="none")
    page.text(x + width / 2, y, text, lettering.SMALLEST_MM, bold=True, anchor="middle", fill=WHITE)


def dimension(page: Page, x1: float, x2: float, y: float, text: str) -> None:
    """Draw a dimension line with filled arrowheads at both ends, its text above the middle (ISO 129 habit)."""
    dimension_line(page, x1, x2, y)
    page.text((x1 + x2) / 2, y - 1.0, text, lettering.SMALLEST_MM, anchor="middle", box_mm=abs(x2 - x1))


def dimension_line(page: Page, x1: float, x2: float, y: float) -> None:
    """Draw a dimension line with filled arrowheads at both ends, without its text."""
    page.line(x1, y, x2, y, stroke_mm=NARROW_MM)
    for tip, away in ((x1, 1 if x2 > x1 else -1), (x2, -1 if x2 > x1 else 1)):
        back = tip + away * _ARROW_MM
        page.polyline([(tip, y), (back, y - 0.45), (back, y + 0.45)], closed=True, fill=BLACK, stroke="none")
