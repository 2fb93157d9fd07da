"""Pin-out sheets: a plug's face as it is looked at, each cavity with its colours, and what is known of it beside.

Draws what `pins` gathers; gives no verdict.
"""

from __future__ import annotations

from typing import Final

from harnessdoc.drawing.cavity import CavityStyle, draw_cavity
from harnessdoc.drawing.face_sheet import WIDTH_MM, FaceSheet, TableRow, draw_sheets
from harnessdoc.drawing.pins import EMPTY, STUB, Pin, PinRow, pins
from harnessdoc.model import cautions
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import Harness
from harnessdoc.sheet.grid import TEXT_MM, Cell, Column, Grid, Row, code_of
from harnessdoc.sheet.page import Page

KIND: Final = "pin-out sheet"
GRID: Final = Grid(
    (
        Column("cavity", 13.0),
        Column("wire", 20.0),
        Column("colour", 25.2),
        Column("size", 19.0),
        Column("function", 28.0),
        Column("goes to", 27.0),
        Column("stub", 19.6),
        Column("state", 16.2),
    )
)
_FOOT_MM: Final = 12.0
_NOTHING: Final = "–"
_SAMPLES: Final = (
    ("not cut", False, False, (Colour("RD", ("BK",)),)),
    ("stub left in it", True, False, (Colour("RD"),)),
    ("empty", False, True, ()),
    ("nobody knows yet", False, False, (None,)),
)


def face_sheets(harness: Harness, plug_name: str, mark: str = "") -> list[Page]:
    """Return a plug's pin-out sheets, A4 upright (A3 for a face too large). Raises KeyError for no such plug."""
    plug = harness.plugs[plug_name]
    found = pins(harness, plug)
    by_name = {pin.cavity: pin for pin in found}

    def cavity(page: Page, name: str, shape: str, x: float, y: float, style: CavityStyle) -> None:
        pin = by_name[name]
        draw_cavity(
            page,
            x,
            y,
            name,
            shape,
            style,
            colours=pin.colours,
            stub=pin.state == STUB,
            empty=pin.state == EMPTY,
            code=_code(pin),
        )

    wanted = FaceSheet(
        harness,
        plug,
        KIND,
        cautions.FACE,
        [_code(pin) for pin in found],
        cavity,
        TableRow(_FOOT_MM, _draw_key),
        TableRow(GRID.head_mm, lambda page, x, y: _drawn(GRID.draw_head(page, x, y))),
        [_row(_cells(pin, row)) for pin in found for row in pin.rows],
        mark,
    )
    return draw_sheets(wanted)


def _code(pin: Pin) -> str:
    """What is written under a cavity: the code of its wire, or how many there are in it."""
    if len(pin.colours) > 1:
        return f"{len(pin.colours)} wires"
    return "".join(code_of(colour) if colour else "?" for colour in pin.colours)


def _cells(pin: Pin, row: PinRow) -> Row:
    return (
        Cell(pin.cavity, bold=True),
        Cell(row.wire or _NOTHING),
        Cell(_NOTHING) if pin.state == EMPTY else Cell(sleeves=(row.colour,)),
        Cell(row.size or _NOTHING),
        Cell(row.function or _NOTHING),
        Cell(row.goes_to or _NOTHING),
        Cell(row.stub or _NOTHING),
        Cell(row.state, bold=row.state == STUB),
    )


def _row(cells: Row) -> TableRow:
    return TableRow(GRID.row_mm(cells), lambda page, x, y: _drawn(GRID.draw_row(page, x, y, cells)))


def _draw_key(page: Page, x: float, y: float) -> None:
    """What the cavities' marks mean."""
    style = CavityStyle(8.0, 2.5, False)
    for index, (words, stub, empty, colours) in enumerate(_SAMPLES):
        left = x + index * WIDTH_MM / len(_SAMPLES)
        draw_cavity(page, left + 4.5, y + 5, "8", "round", style, colours=colours, stub=stub, empty=empty)
        page.text(left + 10.5, y + 5 + TEXT_MM / 2, words, TEXT_MM)


def _drawn(_: float) -> None:
    """Drop the y that a drawing function returns."""
