"""A page to measure a printer by: rulers both ways, the outlines of a stock's labels, boxes for what was measured.

Printed on plain paper at 100 % and held against a sheet of the stock, it tells how far print is off; that offset is
then given back, and a second print shows whether it is right. Knows stock only.
"""

from __future__ import annotations

from typing import Final

from harnessdoc.labels.imposing import check_offset
from harnessdoc.labels.material import Stock
from harnessdoc.labels.printing import CUT_LINE_MM
from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Anchor, Rect
from harnessdoc.sheet.page import WHITE, Page

RULER_MM: Final = 100.0
STEP_MM: Final = 10.0
_TEXT_MM: Final = 2.5
_HEAD_MM: Final = 5.0
_TICKS_MM: Final = {10: 5.0, 5: 3.5, 1: 2.0}  # own choice
_LINE_MM: Final = 0.2
_PANEL_MM: Final = Rect(0.0, 0.0, 150.0, 166.0)  # own choice: holds rulers and words, leaves outlines round it
_BOX_MM: Final = (24.0, 9.0)
_PADDING_MM: Final = 6.0
_TAPE_ENDS_MM: Final = 5.0


def calibration_page(stock: Stock, offset: tuple[float, float] = (0.0, 0.0)) -> Page:
    """Return the page for a stock. `offset`: what is applied already, right and down, mm.

    Raises ValueError for an offset that is no calibration, and for sleeves, whose width differs by size.
    """
    check_offset(offset)
    if stock.form == "sheet":
        return _sheet(stock, offset)
    if stock.form == "tape":
        return _tape(stock, offset)
    raise ValueError("sleeves have no calibration page: print one piece and measure it")


def _sheet(stock: Stock, offset: tuple[float, float]) -> Page:
    page = Page(stock.sheet_width_mm, stock.sheet_height_mm, f"calibration {stock.name}")
    dx, dy = offset
    for position in range(1, stock.count + 1):
        box = stock.label(position)
        page.rect(box.x + dx, box.y + dy, box.width, box.height, radius=stock.corner_mm, stroke_mm=CUT_LINE_MM)
    left, top = (stock.sheet_width_mm - _PANEL_MM.width) / 2, (stock.sheet_height_mm - _PANEL_MM.height) / 2
    panel = Rect(left + dx, top + dy, _PANEL_MM.width, _PANEL_MM.height)
    page.rect(*panel, fill=WHITE, stroke_mm=_LINE_MM)
    inner = panel.inset(_PADDING_MM)
    y = _words(page, inner, stock, offset)
    x = inner.x + 22.0
    _across(page, x, y + 9.0)
    _down(page, x, y + 9.0)
    _boxes(page, Rect(x + 22.0, y + 26.0, inner.right - x - 22.0, 0.0), offset)
    return page


def _words(page: Page, inner: Rect, stock: Stock, offset: tuple[float, float]) -> float:
    """What to do, line by line. Returns where the next thing may begin, mm."""
    page.text(inner.x, inner.y + _HEAD_MM, "Calibration", _HEAD_MM, bold=True)
    steps = (
        f"Stock {stock.name}. Applied already: {offset[0]:g} mm right, {offset[1]:g} mm down.",
        "1. Print this page on plain paper at 100 %, as you print labels: same tray, same way up.",
        "2. Measure both rulers. Are they not 100 mm, the printer fits pages: turn that off first.",
        "3. Hold the page and a sheet of labels against a window, edges together.",
        "4. Measure how far the labels on the sheet lie right of and below the outlines here; left and up are minus.",
        "5. Add that to what is applied already, write it below, and give it as the offset of this stock.",
    )
    lines = [piece for step in steps for piece in lettering.wrap(step, inner.width, _TEXT_MM)]
    return page.lines(inner.x, inner.y + _HEAD_MM + 6.0, lines, _TEXT_MM)


def _across(page: Page, x: float, y: float) -> None:
    """The ruler to the right, figures over it."""
    page.line(x, y, x + RULER_MM, y, stroke_mm=_LINE_MM)
    for mm in range(int(RULER_MM) + 1):
        page.line(x + mm, y, x + mm, y + _tick(mm), stroke_mm=_LINE_MM)
        if mm % int(STEP_MM) == 0:
            page.text(x + mm, y - 1.5, str(mm), _TEXT_MM, anchor="middle")


def _down(page: Page, x: float, y: float) -> None:
    """The ruler downwards, figures left of it."""
    page.line(x, y, x, y + RULER_MM, stroke_mm=_LINE_MM)
    for mm in range(int(RULER_MM) + 1):
        page.line(x, y + mm, x + _tick(mm), y + mm, stroke_mm=_LINE_MM)
        if mm % int(STEP_MM) == 0 and mm:
            page.text(x - 1.5, y + mm + _TEXT_MM / 2, str(mm), _TEXT_MM, anchor="end")


def _tick(mm: int) -> float:
    return next(long for every, long in _TICKS_MM.items() if mm % every == 0)


def _boxes(page: Page, area: Rect, offset: tuple[float, float]) -> None:
    """Boxes to write what was measured."""
    y = area.y
    for told in ("Ruler across, mm", "Ruler down, mm", "Offset to the right, mm", "Offset down, mm"):
        page.text(area.x, y + _BOX_MM[1] / 2 + _TEXT_MM / 2, told, _TEXT_MM)
        page.rect(area.right - _BOX_MM[0], y, *_BOX_MM, stroke_mm=_LINE_MM)
        y += _BOX_MM[1] + 4.0


def _tape(stock: Stock, offset: tuple[float, float]) -> Page:
    """A strip with a ruler along it and the printable edges marked; figures where they have room."""
    page = Page(RULER_MM + 2 * _TAPE_ENDS_MM, stock.tape_mm, f"calibration {stock.name}")
    x, edge = _TAPE_ENDS_MM + offset[0], (stock.tape_mm - stock.printable_mm) / 2
    top, bottom = edge + offset[1], stock.tape_mm - edge + offset[1]
    for y in (top + _LINE_MM / 2, bottom - _LINE_MM / 2):
        page.line(x, y, x + RULER_MM, y, stroke_mm=_LINE_MM)
    room = stock.printable_mm
    size = _TEXT_MM if room >= _TEXT_MM * 2 else 1.8  # ISO 3098's smallest on tape of 6 mm
    for mm in range(int(RULER_MM) + 1):
        long = min(_tick(mm), room - size - 0.6 if mm % int(STEP_MM) == 0 else room / 3)
        page.line(x + mm, top, x + mm, top + long, stroke_mm=_LINE_MM)
        if mm % int(STEP_MM) == 0:
            anchor: Anchor = "start" if mm == 0 else "end" if mm == int(RULER_MM) else "middle"
            page.text(x + mm, bottom - 0.4, str(mm), size, anchor=anchor)
    return page
