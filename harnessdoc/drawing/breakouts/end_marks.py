"""Small pictures of what sits on a wire's end, drawn on the wire with their tip at the terminal.

Own pictures, after what the parts look like from the side; pin and socket after IEC 60617 (from memory). The form is
always written beside them. Knows forms of hardware, no wires."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from harnessdoc.sheet.page import BLACK, WHITE, Page

LENGTH_MM: Final = 5.0
"""How far the longest mark reaches back from the terminal."""
HALF_MM: Final = 1.05
"""How far a mark reaches to either side of the wire."""
_LINE_MM: Final = 0.25


def draw_end_mark(page: Page, x: float, y: float, form: str) -> None:
    """Draw the mark of a form (see `model.hardware.FORMS`) with its tip at (x, y); nothing for one without a mark."""
    mark = END_MARKS.get(form)
    if mark is not None:
        mark(page, x, y)


def _ring(page: Page, x: float, y: float) -> None:
    page.rect(x - 4.8, y - 0.6, 2.2, 1.2, fill=WHITE, stroke_mm=_LINE_MM)
    page.circle(x - 1.15, y, 1.05, fill=WHITE, stroke_mm=_LINE_MM)
    page.circle(x - 1.15, y, 0.45, stroke_mm=_LINE_MM)


def _fork(page: Page, x: float, y: float) -> None:
    page.rect(x - 4.8, y - 0.6, 2.2, 1.2, fill=WHITE, stroke_mm=_LINE_MM)
    prongs = [(x, y - 0.9), (x - 1.6, y - 0.9), (x - 2.6, y), (x - 1.6, y + 0.9), (x, y + 0.9)]
    page.polyline(prongs, stroke_mm=0.35)


def _tab(page: Page, x: float, y: float) -> None:
    page.rect(x - 4.8, y - 0.6, 1.8, 1.2, fill=WHITE, stroke_mm=_LINE_MM)
    page.rect(x - 3.0, y - 1.0, 2.9, 2.0, radius=0.4, fill=WHITE, stroke_mm=_LINE_MM)
    page.line(x - 1.6, y, x - 0.1, y, stroke_mm=_LINE_MM)


def _blade(page: Page, x: float, y: float) -> None:
    page.rect(x - 4.8, y - 0.6, 1.8, 1.2, fill=WHITE, stroke_mm=_LINE_MM)
    page.rect(x - 3.0, y - 0.9, 2.9, 1.8, fill=BLACK, stroke="none")


def _bullet(page: Page, x: float, y: float) -> None:
    page.rect(x - 4.8, y - 0.6, 1.8, 1.2, fill=WHITE, stroke_mm=_LINE_MM)
    page.rect(x - 3.0, y - 0.9, 2.9, 1.8, radius=0.9, fill=BLACK, stroke="none")


def _pin(page: Page, x: float, y: float) -> None:
    page.rect(x - 4.0, y - 0.5, 3.9, 1.0, fill=BLACK, stroke="none")


def _socket(page: Page, x: float, y: float) -> None:
    page.path(f"M{x - 0.1} {y - 0.9}A0.9 0.9 0 0 0 {x - 0.1} {y + 0.9}", fill=WHITE, stroke_mm=0.35)


def _ferrule(page: Page, x: float, y: float) -> None:
    page.polyline(
        [(x - 4.8, y - 1.0), (x - 3.6, y - 0.55), (x - 0.1, y - 0.55), (x - 0.1, y + 0.55), (x - 3.6, y + 0.55),
         (x - 4.8, y + 1.0)],
        closed=True, fill=WHITE, stroke_mm=_LINE_MM,
    )  # fmt: skip


def _butt(page: Page, x: float, y: float) -> None:
    page.rect(x - 4.4, y - 1.0, 4.3, 2.0, radius=0.4, fill=WHITE, stroke_mm=_LINE_MM)
    page.line(x - 2.25, y - 1.0, x - 2.25, y + 1.0, stroke_mm=_LINE_MM)


def _closed_end(page: Page, x: float, y: float) -> None:
    page.path(
        f"M{x - 4.2} {y - 1.0}H{x - 1.1}A1.0 1.0 0 0 1 {x - 1.1} {y + 1.0}H{x - 4.2}Z", fill=WHITE, stroke_mm=_LINE_MM
    )


def _solder(page: Page, x: float, y: float) -> None:
    page.polyline([(x - 3.2, y), (x - 1.0, y - 0.9), (x - 0.1, y), (x - 1.0, y + 0.9)], closed=True, fill=BLACK)


def _bare(page: Page, x: float, y: float) -> None:
    for spread in (-0.8, 0.8):
        page.line(x - 3.0, y, x - 0.2, y + spread, stroke_mm=_LINE_MM)


def _cap(page: Page, x: float, y: float) -> None:
    page.path(f"M{x - 3.6} {y - 1.0}H{x - 1.1}A1.0 1.0 0 0 1 {x - 1.1} {y + 1.0}H{x - 3.6}Z", fill=BLACK, stroke="none")


END_MARKS: Final[Mapping[str, Callable[[Page, float, float], None]]] = {
    "tab": _tab,
    "blade": _blade,
    "ring": _ring,
    "fork": _fork,
    "bullet": _bullet,
    "pin": _pin,
    "socket": _socket,
    "ferrule": _ferrule,
    "butt": _butt,
    "closed end": _closed_end,
    "solder": _solder,
    "bare": _bare,
    "cap": _cap,
}
"""A form of end hardware to the function that draws it."""
