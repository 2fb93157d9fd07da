"""The table of a pin-out sheet: a row for all that is in a cavity, as wide as the sheet lets it be. Draws `pins`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import replace
from itertools import zip_longest
from typing import Final

from harnessdoc.drawing.face_panels import TableRow
from harnessdoc.drawing.face_sheet import WIDTH_MM, Table
from harnessdoc.drawing.pins import EMPTY, STUB, Pin, PinRow
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import PAD_MM, TEXT_MM, Cell, Column, Grid, Row
from harnessdoc.sheet.page import Page

COLUMNS: Final = (
    Column("cavity", 13.0),
    Column("wire", 16.4),
    Column("colour", 25.2),
    Column("size", 18.0),
    Column("function", 26.0),
    Column("goes to", 27.6),
    Column("contact", 17.2),
    Column("state", 24.6),
)
"""At the least width, WIDTH_MM; what there is more goes to what is said in words."""
NARROW_MM: Final = 100.0
"""The least width at all: from here to WIDTH_MM, one column says in words what else the others do."""
_NARROW: Final = ("cavity", "wire", "colour")
_GROWS: Final = {"wire": 0.1, "size": 0.05, "function": 0.3, "goes to": 0.3, "contact": 0.1, "state": 0.15}
_NOTHING: Final = "–"


def pin_table(
    found: Sequence[Pin], marks: Mapping[str, str], width_mm: float, most_lines: int, group: RowGroup
) -> Table:
    """Return the table for a width of NARROW_MM or more; a cell of more than `most_lines` goes on in a further row.

    `marks`: what stands in each cavity on the face; `group`: the group a row is drawn in, for its page and cavity."""
    grid = pin_grid(width_mm, most_lines)
    rows = [
        _row(grid, part, pin, row, group)
        for pin in found
        for row in pin.rows
        for part in _parts(grid, _fitting(grid, _cells(pin, row, marks[pin.cavity])))
    ]
    heading = TableRow(grid.head_mm, lambda page, x, y: _drawn(grid.draw_head(page, x, y)))
    return Table(grid.width_mm, heading, rows)


def pin_grid(width_mm: float, most_lines: int) -> Grid:
    """Return the columns for a width, NARROW_MM at least."""
    if width_mm < WIDTH_MM - 0.1:
        kept = [column for column in COLUMNS if column.title in _NARROW]
        words = Column("size, function, goes to, contact, state", width_mm - sum(c.width_mm for c in kept))
        return Grid((*kept, words), most_lines)
    more = max(width_mm - WIDTH_MM, 0.0)
    wide = tuple(replace(c, width_mm=c.width_mm + more * _GROWS.get(c.title, 0.0)) for c in COLUMNS)
    return Grid(wide, most_lines)


class RowGroup:
    """Opens the group that a row is drawn in. This one opens a plain group."""

    def __call__(self, page: Page, pin: Pin, row: PinRow) -> AbstractContextManager[None]:
        """The group on that page."""
        return page.group()


def _cells(pin: Pin, row: PinRow, mark: str) -> Row:
    name = pin.cavity if mark == pin.cavity else f"{mark} = {pin.cavity}"
    return (
        Cell(name, bold=True),
        Cell(row.wire or _NOTHING),
        Cell(_NOTHING) if pin.state == EMPTY else Cell(sleeves=(row.colour,)),
        Cell(row.size or _NOTHING),
        Cell(row.function or _NOTHING),
        Cell(row.goes_to or _NOTHING),
        Cell(row.contact or _NOTHING),
        Cell(" ".join(filter(None, (row.state, row.stub))), bold=row.state == STUB),
    )


def _fitting(grid: Grid, cells: Row) -> Row:
    """The cells as many as the columns: in a narrow table the last ones are told in one."""
    kept = len(_NARROW)
    if len(cells) == len(grid.columns):
        return cells
    size, function, goes_to, contact, state = (cell.text for cell in cells[kept:])
    goes_to, contact = (
        f"{word} {text}" if text != _NOTHING else "" for word, text in (("goes to:", goes_to), ("contact:", contact))
    )
    told = "; ".join(text for text in (size, function, goes_to, contact, state) if text not in ("", _NOTHING))
    return (*cells[:kept], Cell(told))


def _parts(grid: Grid, cells: Row) -> Iterator[Row]:
    """The row, or several where a cell has more lines than one row may have; each says which cavity it is of."""
    wrapped = [
        lettering.wrap(cell.text, column.width_mm - 2 * PAD_MM, TEXT_MM, cell.bold)
        for cell, column in zip(cells, grid.columns, strict=True)
    ]
    most = grid.most_lines
    if max(map(len, wrapped)) <= most:
        yield cells
        return
    chunks = [[lines[at : at + most] for at in range(0, len(lines), most)] for lines in wrapped]
    for number, texts in enumerate(zip_longest(*chunks, fillvalue=[])):
        parts = [replace(cell, text="\n".join(lines)) for cell, lines in zip(cells, texts, strict=True)]
        if number:
            again = parts[0].text or lettering.fit(cells[0].text, grid.columns[0].width_mm - 3 * PAD_MM, TEXT_MM, True)
            parts[0] = replace(cells[0], text=again)
            parts = [replace(part, sleeves=()) for part in parts]
        yield parts


def _row(grid: Grid, cells: Row, pin: Pin, row: PinRow, group: RowGroup) -> TableRow:
    def draw(page: Page, x: float, y: float) -> None:
        with group(page, pin, row):
            grid.draw_row(page, x, y, cells)

    return TableRow(grid.row_mm(cells), draw)


def _drawn(_: float) -> None:
    """Drop the y that a drawing function returns."""
