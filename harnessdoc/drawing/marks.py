"""Small marks that several drawings share: numbered balloons, arrowheads, dimension lines. Knows no harness."""

from __future__ import annotations

from typing import Final

from harnessdoc.sheet import lettering
from harnessdoc.sheet.page import BLACK, WHITE, Page

BALLOON_MM: Final = 3.4
"""Radius of a balloon, room for three digits of 2.5 mm."""
NARROW_MM: Final = 0.25  # ISO 128: narrow lines (dimensions, leaders) of the 0.5 mm group
_ARROW_MM: Final = 2.5


def balloon(page: Page, x: float, y: float, number: int, filled: bool = True) -> None:
    """Draw a station's number in a disc round (x, y), white on black; not filled: black on white."""
    page.circle(x, y, BALLOON_MM, fill=BLACK if filled else WHITE, stroke_mm=0.35)
    text = str(number)
    height = 2.5
    page.text(x, y + height / 2, text, height, bold=True, anchor="middle", fill=WHITE if filled else BLACK)


def dimension(page: Page, x1: float, x2: float, y: float, text: str) -> None:
    """Draw a dimension line with filled arrowheads at both ends, its text above the middle (ISO 129 habit)."""
    page.line(x1, y, x2, y, stroke_mm=NARROW_MM)
    for tip, away in ((x1, 1), (x2, -1)):
        back = tip + away * _ARROW_MM
        page.polyline([(tip, y), (back, y - 0.45), (back, y + 0.45)], closed=True, fill=BLACK, stroke="none")
    page.text((x1 + x2) / 2, y - 1.0, text, lettering.SMALLEST_MM, anchor="middle", box_mm=x2 - x1)
