"""The small drawing of who looks at a plug from where: an eye, the plug from the side, its wires and contacts."""

from __future__ import annotations

from typing import Final

from harnessdoc.drawing.cavity import draw_contact
from harnessdoc.model.face import View
from harnessdoc.sheet.grid import TEXT_MM
from harnessdoc.sheet.page import BLACK, WHITE, Page

WIDTH_MM: Final = 44.0
HEIGHT_MM: Final = 14.0
_RISES_MM: Final = (-3.5, 0.0, 3.5)
_DEEP_MM: Final = 3.0
WORD_MM: Final = 4.5
"""Height of the line under it that says pins or sockets."""


def draw_viewer(page: Page, x: float, y: float, view: View, contacts: str | None = None) -> None:
    """Draw into a box with its top left at (x, y): the eye left, and the side of the plug that it looks at.

    `contacts`: pins stand out of the mating face, sockets open into it; not stated, neither is drawn."""
    middle = y + HEIGHT_MM / 2
    with page.group("viewer", f"looked at from the {view.value}", desc=f"contacts: {contacts or 'not stated'}"):
        _eye(page, x + 5.5, middle)
        page.line(x + 11.5, middle, x + 15.5, middle, stroke_mm=0.35)
        page.polyline(
            [(x + 17.5, middle), (x + 15, middle - 1), (x + 15, middle + 1)], closed=True, fill=BLACK, stroke="none"
        )
        left, right = x + 25, x + 35
        page.rect(left, y + 1, right - left, HEIGHT_MM - 2, radius=1, stroke_mm=0.5)
        wires, mating = ((left, -1), (right, 1)) if view is View.WIRE_SIDE else ((right, 1), (left, -1))
        for rise in _RISES_MM:
            _wire(page, *wires, middle + rise, rise)
            _contact(page, *mating, middle + rise, contacts)
        if contacts:
            draw_contact(page, left + 1.3, y + HEIGHT_MM + WORD_MM - 1.4, contacts)
            page.text(left + 4, y + HEIGHT_MM + WORD_MM, contacts, TEXT_MM)


def _eye(page: Page, x: float, y: float) -> None:
    page.path(f"M {x - 5} {y} Q {x} {y - 5.5} {x + 5} {y} Q {x} {y + 5.5} {x - 5} {y} Z", fill=WHITE, stroke_mm=0.5)
    page.circle(x, y, 1.9, fill=BLACK, stroke="none")
    page.circle(x + 0.6, y - 0.6, 0.5, fill=WHITE, stroke="none")


def _contact(page: Page, x: float, out: int, y: float, contacts: str | None) -> None:
    """A contact at the mating face, whose outside lies `out` of it."""
    if contacts == "pins":
        page.line(x, y, x + out * _DEEP_MM, y, stroke_mm=1.2)
    elif contacts == "sockets":
        page.polyline(
            [(x, y - 0.7), (x - out * _DEEP_MM, y - 0.7), (x - out * _DEEP_MM, y + 0.7), (x, y + 0.7)], stroke_mm=0.35
        )
    else:
        page.line(x, y - 0.9, x, y + 0.9, stroke_mm=1.2)


def _wire(page: Page, x: float, away: int, y: float, rise: float) -> None:
    """A wire that leaves the housing and bends away."""
    page.path(f"M {x} {y} L {x + away * 3} {y} Q {x + away * 5} {y} {x + away * 6.5} {y + rise * 0.4}", stroke_mm=0.5)
