"""The title block by ISO 7200: 180 mm wide, its fields labelled; what is not known stays empty for a pen.

A text too long for its field is set smaller, then goes on in more lines, and its row grows: nothing is cut before
the block has taken all the height it may. Knows no harness and no paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page

WIDTH_MM: Final = 180.0  # ISO 7200 (Austrian textbook figure, one page)
NARROW_MM: Final = 116.0  # own choice: the least width, its fields in six rows; A5 upright has 118 mm
ROW_MM: Final = 9.5  # own choice: a 2.5 mm label over 3.5 mm text in each row
HEIGHT_MM: Final = ROW_MM * 4
MOST_LINES: Final = 8  # own choice: lines of one field
_LABEL_MM: Final = lettering.SMALLEST_MM
_LINE_MM: Final = 0.35
_THICK_MM: Final = 0.7
_PADDING_MM: Final = 0.9
_DROP_MM: Final = 1.3  # base line above a cell's lower edge, room for descenders
_BREAKS: Final = "-/._:+"  # a long number may go on in the next line after one of these


@dataclass(frozen=True, slots=True)
class RevisionLine:
    """One line of the revision list as printed."""

    mark: str
    date: str
    what: str


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What a sheet says about itself. Fields by ISO 7200; an empty text is left to be written by hand.

    `revisions`, the newest first, are drawn by `frame` as a list of their own."""

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
    revisions: tuple[RevisionLine, ...] = ()

    @property
    def sheet_of(self) -> str:
        """ "2 of 4"."""
        return f"{self.sheet} of {self.sheets}"


@dataclass(frozen=True, slots=True)
class _Cell:
    """One field: where it lies in the block (columns of a grid as wide as the block, rows from the top)."""

    label: str
    text: str
    left_mm: float
    width_mm: float
    row: int
    rows: int = 1
    height_mm: float = 2.5
    bold: bool = False


@dataclass(frozen=True, slots=True)
class _Set:
    """A cell's text as it is set: lines, and how tall their capitals are."""

    lines: tuple[str, ...]
    height_mm: float

    @property
    def needs_mm(self) -> float:
        """The height of a cell with these lines under its label."""
        step = self.height_mm * lettering.LINE_SPACING
        return _PADDING_MM + 1.5 * _LABEL_MM + self.height_mm + step * (len(self.lines) - 1) + _DROP_MM


def block_size_mm(title: TitleBlock, room_mm: float, most_mm: float) -> tuple[float, float]:
    """Return the width and height of the block where `room_mm` lie free across, no taller than `most_mm`.

    Raises ValueError where it can't be had, however much is shortened.
    """
    if room_mm < NARROW_MM:
        raise ValueError(f"a title block takes {NARROW_MM:.0f} mm at least, and there are {room_mm:.1f} mm across")
    width = WIDTH_MM if room_mm >= WIDTH_MM else room_mm
    _, heights = _arranged(title, width, most_mm)
    if sum(heights) > most_mm + 1e-6:
        raise ValueError(f"a title block takes {sum(heights):.1f} mm of height, and there are {most_mm:.1f} mm for it")
    return width, sum(heights)


def draw_title_block(page: Page, block: Rect, title: TitleBlock) -> None:
    """Draw the block into a rectangle made for it (`block_size_mm`)."""
    cells, heights = _arranged(title, block.width, block.height)
    for cell, text in cells:
        top = block.y + sum(heights[: cell.row])
        box = Rect(block.x + cell.left_mm, top, cell.width_mm, sum(heights[cell.row : cell.row + cell.rows]))
        _draw_cell(page, box, cell, text)
    page.rect(*block, stroke_mm=_THICK_MM)


def _arranged(title: TitleBlock, width_mm: float, most_mm: float) -> tuple[list[tuple[_Cell, _Set]], list[float]]:
    """The fields with their texts set, and the heights of the rows: as many lines a field as the height allows."""
    cells = _wide(title) if width_mm >= WIDTH_MM else _narrow(title, width_mm)
    for most_lines in range(MOST_LINES, 0, -1):
        set_cells = [(cell, _set(cell, most_lines)) for cell in cells]
        heights = _row_heights(set_cells)
        if sum(heights) <= most_mm + 1e-6:
            break
    return set_cells, heights


def _row_heights(cells: Sequence[tuple[_Cell, _Set]]) -> list[float]:
    heights = [ROW_MM] * (1 + max(cell.row + cell.rows - 1 for cell, _ in cells))
    for cell, text in sorted(cells, key=lambda found: found[0].rows):
        last = cell.row + cell.rows - 1
        heights[last] += max(0.0, text.needs_mm - sum(heights[cell.row : last + 1]))
    return heights


def _wide(title: TitleBlock) -> list[_Cell]:
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
        _Cell("Sheet", title.sheet_of, 135, 45, 3),
    ]


def _narrow(title: TitleBlock, width_mm: float) -> list[_Cell]:
    """For paper that has no room for 180 mm: the same fields in six rows over the whole width."""
    right, third = width_mm - 45, width_mm / 3
    return [
        _Cell("Title", title.title, 0, width_mm, 0, height_mm=3.5, bold=True),
        _Cell("Document type", title.document_type, 0, right, 1),
        _Cell("Supplementary title", title.supplementary_title, 0, right, 2),
        _Cell("Number", title.number, right, 45, 1, rows=2, height_mm=5, bold=True),
        _Cell("Legal owner", title.legal_owner, 0, third, 3),
        _Cell("Created by", title.creator, third, third, 3),
        _Cell("Approved by", title.approved, 2 * third, third, 3),
        _Cell("Scale", title.scale, 0, third, 4),
        _Cell("Content mark", title.content_mark, third, 2 * third, 4),
        _Cell("Date of issue", title.date, 0, third, 5),
        _Cell("Rev.", title.revision, third, third, 5, bold=True),
        _Cell("Sheet", title.sheet_of, 2 * third, third, 5),
    ]


def _draw_cell(page: Page, box: Rect, cell: _Cell, text: _Set) -> None:
    page.rect(*box, stroke_mm=_LINE_MM)
    left = box.x + _PADDING_MM
    page.text(left, box.y + _PADDING_MM + _LABEL_MM, cell.label, _LABEL_MM, box_mm=box.width - 2 * _PADDING_MM)
    first = box.bottom - _DROP_MM - text.height_mm * lettering.LINE_SPACING * (len(text.lines) - 1)
    page.lines(left, first, text.lines, text.height_mm, bold=cell.bold)


def _set(cell: _Cell, most_lines: int) -> _Set:
    """The text on one line as tall as asked or smaller by ISO 3098, down to 2.5 mm; else on more lines.

    On more lines it is as tall as the cell's own rows allow; what needs more than `most_lines` ends with …
    """
    room = cell.width_mm - 2 * _PADDING_MM
    heights = [h for h in reversed(lettering.HEIGHTS_MM) if lettering.SMALLEST_MM <= h <= cell.height_mm]
    for height in heights:
        if lettering.text_width_mm(cell.text, height, cell.bold) <= room:
            return _Set((lettering.clean(cell.text),), height)
    for height in heights:
        found = _Set(tuple(lettering.wrap(cell.text, room, height, cell.bold, _BREAKS)), height)
        if len(found.lines) <= most_lines and found.needs_mm <= cell.rows * ROW_MM:
            return found
    if len(found.lines) <= most_lines:
        return found
    *kept, last = found.lines[:most_lines]
    last = lettering.fit(last + 3 * lettering.ELLIPSIS, room, heights[-1], cell.bold)
    return _Set((*kept, last), heights[-1])
