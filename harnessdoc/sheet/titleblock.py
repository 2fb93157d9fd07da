"""The title block by ISO 7200: 180 mm wide, its fields labelled; what is not known stays empty for a pen.

Knows no harness and no paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page

WIDTH_MM: Final = 180.0  # ISO 7200 (Austrian textbook figure, one page)
ROW_MM: Final = 9.5  # own choice: a 2.5 mm label over 3.5 mm text in each row
ROWS: Final = 4
HEIGHT_MM: Final = ROW_MM * ROWS
_LABEL_MM: Final = lettering.SMALLEST_MM
_LINE_MM: Final = 0.35
_THICK_MM: Final = 0.7
_PADDING_MM: Final = 0.9
_DROP_MM: Final = 1.3  # base line above a cell's lower edge, room for descenders


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What a sheet says about itself. Fields by ISO 7200; an empty text is left to be written by hand."""

    title: str
    number: str
    document_type: str
    supplementary_title: str = ""
    legal_owner: str = ""
    revision: str = ""
    date: str = ""
    sheet: int = 1
    sheets: int = 1
    creator: str = ""
    approved: str = ""
    scale: str = "not to scale"
    content_mark: str = ""


@dataclass(frozen=True, slots=True)
class _Cell:
    """One field: where it lies in the block (columns of a 180 mm wide grid, rows from the top)."""

    label: str
    text: str
    left_mm: float
    width_mm: float
    row: int
    rows: int = 1
    height_mm: float = 2.5
    bold: bool = False


def draw_title_block(page: Page, block: Rect, title: TitleBlock) -> None:
    """Draw the block into a rectangle made for it (WIDTH_MM by HEIGHT_MM; narrower is squeezed)."""
    squeeze = block.width / WIDTH_MM
    for cell in _cells(title):
        box = Rect(
            block.x + cell.left_mm * squeeze,
            block.y + cell.row * ROW_MM,
            cell.width_mm * squeeze,
            cell.rows * ROW_MM,
        )
        _draw_cell(page, box, cell)
    page.rect(*block, stroke_mm=_THICK_MM)


def _cells(title: TitleBlock) -> list[_Cell]:
    return [
        _Cell("Legal owner", title.legal_owner, 0, 52, 0),
        _Cell("Created by", title.creator, 0, 52, 1),
        _Cell("Approved by", title.approved, 0, 52, 2),
        _Cell("Scale", title.scale, 0, 52, 3),
        _Cell("Content mark", title.content_mark, 52, 83, 3),
        _Cell("Document type", title.document_type, 52, 83, 0),
        _Cell("Title", title.title, 52, 83, 1, height_mm=3.5, bold=True),
        _Cell("Supplementary title", title.supplementary_title, 52, 83, 2),
        _Cell("Number", title.number, 135, 45, 0, rows=2, height_mm=5, bold=True),
        _Cell("Date of issue", title.date, 135, 27, 2),
        _Cell("Rev.", title.revision, 162, 18, 2, bold=True),
        _Cell("Sheet", f"{title.sheet} / {title.sheets}", 135, 45, 3),
    ]


def _draw_cell(page: Page, box: Rect, cell: _Cell) -> None:
    page.rect(*box, stroke_mm=_LINE_MM)
    room = box.width - 2 * _PADDING_MM
    page.text(box.x + _PADDING_MM, box.y + _PADDING_MM + _LABEL_MM, cell.label, _LABEL_MM, box_mm=room)
    page.text(
        box.x + _PADDING_MM,
        box.bottom - _DROP_MM,
        cell.text,
        _height_that_fits(cell, room),
        bold=cell.bold,
        box_mm=room,
    )


def _height_that_fits(cell: _Cell, room_mm: float) -> float:
    """The asked height, or the next smaller of ISO 3098 (2.5 mm at least) at which the text fits whole."""
    smaller = [height for height in reversed(lettering.HEIGHTS_MM) if 2.5 <= height <= cell.height_mm]
    for height in smaller:
        if lettering.text_width_mm(cell.text, height, cell.bold) <= room_mm:
            return height
    return smaller[-1]
