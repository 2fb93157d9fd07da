"""Label sheets: labels put at their exact places on stock, symbols on the printer's dots, and a page of notes after.

Knows what labels say only through `says`; decides nothing about words (`arrange` does) or files.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.labels.arrange import Arrangement, arrange
from harnessdoc.labels.dots import dot_mm, least_dots, module_dots, snap_up
from harnessdoc.labels.notes import Remark, note_pages
from harnessdoc.labels.qr import QUIET_MODULES, Symbol, SymbolError, symbol
from harnessdoc.labels.says import Label, labels
from harnessdoc.labels.stock import Stock
from harnessdoc.model.harness import Harness, Title
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page

DPI: Final = 300
EDGE_TEXT_MM: Final = 2.5
_EDGE_ROOM_MM: Final = 9.0  # own choice: a top edge narrower than this stays blank (printers spare 4 to 5 mm)
_CUT_LINE_MM: Final = 0.1
_GREY: Final = "#808080"


@dataclass(frozen=True, slots=True)
class PlacedSymbol:
    """A symbol as drawn: its own top left corner (quiet zone outside of it) on the sheet, and its module, mm."""

    x: float
    y: float
    module_mm: float
    dots: int
    symbol: Symbol


@dataclass(frozen=True, slots=True)
class PlacedLabel:
    """A label on its sheet. `sheet` counts from 0, `position` from 1; `box` is the whole label, mm."""

    label: Label
    sheet: int
    position: int
    box: Rect
    arrangement: Arrangement
    symbol: PlacedSymbol | None


@dataclass(frozen=True, slots=True)
class LabelRun:
    """What came out. `pages`: the label sheets, then the notes; `sheets`: how many of them are label sheets."""

    pages: list[Page]
    sheets: int
    labels: list[PlacedLabel]
    without_qr: list[Remark]
    shortened: list[Remark]


def label_pages(
    harness: Harness,
    stock: Stock,
    dpi: int = DPI,
    start: int = 1,
    mark: str = "",
    cut_marks: bool = False,
) -> LabelRun:
    """Lay out every label of a harness in working order.

    `dpi`: the printer's dots per inch. `start`: the first free label of the first sheet, 1 to `stock.count`.
    `mark`: the content mark, printed on the sheets' edge and in the notes, not on labels: those outlive revisions.
    `cut_marks`: outline each label, for plain paper. Raises ValueError for a start or density that can't be.
    """
    return lay_out(labels(harness), harness.title, stock, dpi, start, mark, cut_marks)


def lay_out(
    wanted: Sequence[Label],
    title: Title,
    stock: Stock,
    dpi: int = DPI,
    start: int = 1,
    mark: str = "",
    cut_marks: bool = False,
) -> LabelRun:
    """Lay out the labels given, in their order; otherwise as `label_pages`."""
    if not 1 <= start <= stock.count:
        raise ValueError(f"a sheet of {stock.name} has labels 1 to {stock.count}; it can't start at {start}")
    placed: list[PlacedLabel] = []
    without_qr: list[Remark] = []
    shortened: list[Remark] = []
    for index, label in enumerate(wanted, start - 1):
        sheet, position = divmod(index, stock.count)
        one, why_not = _place(label, sheet, position + 1, stock, dpi)
        placed.append(one)
        if why_not:
            without_qr.append(Remark(label.subject, why_not))
        shortened.extend(_lost(one))
    sheets = placed[-1].sheet + 1 if placed else 0
    pages = [_sheet_page(stock, title, number, sheets, mark) for number in range(1, sheets + 1)]
    for one in placed:
        _draw(pages[one.sheet], one, stock, cut_marks)
    pages += note_pages(title, stock, len(placed), dpi, mark, without_qr, shortened)
    return LabelRun(pages, sheets, placed, without_qr, shortened)


def _place(label: Label, sheet: int, position: int, stock: Stock, dpi: int) -> tuple[PlacedLabel, str]:
    """Return the label in its place, and why it carries no symbol ("" if it does)."""
    box = stock.label(position)
    inner = box.inset(stock.margin_mm)
    made, why_not = _symbol_of(label)
    if made is not None:
        why_not = _too_large(made, inner, dpi)
    modules = made.modules_with_quiet if made is not None and not why_not else None
    found = arrange(label.number, label.fields, inner.width, inner.height, modules, dpi)
    if modules is not None and found.place is None:
        why_not = "its words leave no room for a symbol that scans"
    set_symbol = None
    if made is not None and found.place is not None:
        module_mm = found.place.dots * dot_mm(dpi)
        quiet_mm = QUIET_MODULES * module_mm
        x, y = snap_up(inner.x + found.place.x, dpi), snap_up(inner.y + found.place.y, dpi)
        set_symbol = PlacedSymbol(x + quiet_mm, y + quiet_mm, module_mm, found.place.dots, made)
    return PlacedLabel(label, sheet, position, box, found, set_symbol), why_not


def _symbol_of(label: Label) -> tuple[Symbol | None, str]:
    if label.payload is None:
        return None, label.no_payload or "nothing to point at"
    try:
        return symbol(label.payload), ""
    except SymbolError as error:
        return None, str(error)


def _too_large(made: Symbol, inner: Rect, dpi: int) -> str:
    """Say why no label of this stock holds the symbol, "" if it does."""
    modules, dot = made.modules_with_quiet, dot_mm(dpi)
    room = min(inner.width, inner.height) - dot
    if module_dots(modules, room, dpi) is not None:
        return ""
    side = modules * least_dots(dpi) * dot
    return (
        f"its symbol (version {made.version}) takes {side:.1f} mm at {least_dots(dpi)} dots of {dpi} dpi a module, "
        f"the label has {room:.1f} mm"
    )


def _lost(one: PlacedLabel) -> list[Remark]:
    """What the label does not say in full; a shortened number says so first."""
    found = one.arrangement
    remarks = [Remark(one.label.subject, f"shortened: {text}") for text in found.shortened]
    return remarks + [Remark(one.label.subject, f"left out: {text}") for text in found.left_out]


def _sheet_page(stock: Stock, title: Title, number: int, sheets: int, mark: str) -> Page:
    """An empty label sheet; its waste edge says what it is, where there is room for that."""
    page = Page(stock.sheet_width_mm, stock.sheet_height_mm, f"{title.number} labels {number}")
    if stock.top_mm >= _EDGE_ROOM_MM:
        parts = [
            title.number,
            f"revision {title.revision}" if title.revision else "",
            f"mark {mark}" if mark else "",
            f"label sheet {number} of {sheets}",
            "print at 100 %, not fitted to the page",
        ]
        width = stock.sheet_width_mm - 2 * stock.left_mm
        text = "  ·  ".join(filter(None, parts))
        page.text(stock.left_mm, stock.top_mm - EDGE_TEXT_MM, text, EDGE_TEXT_MM, box_mm=width, fill=_GREY)
    return page


def _draw(page: Page, one: PlacedLabel, stock: Stock, cut_marks: bool) -> None:
    inner = one.box.inset(stock.margin_mm)
    for line in one.arrangement.lines:
        page.text(inner.x + line.x, inner.y + line.y, line.text, line.height_mm, bold=line.bold)
    if one.symbol is not None:
        page.modules(one.symbol.x, one.symbol.y, one.symbol.module_mm, one.symbol.symbol.rows)
    if cut_marks:
        page.rect(*one.box, radius=stock.corner_mm, stroke=_GREY, stroke_mm=_CUT_LINE_MM)
