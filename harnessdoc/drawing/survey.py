"""Survey sheets: the pin-out sheet before the cut, blank, with boxes to tick and columns for what the meter says."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from harnessdoc.drawing.cavity import CavityStyle, draw_cavity
from harnessdoc.drawing.face_panels import Shown, TableRow, cavity_marks
from harnessdoc.drawing.face_sheet import FaceSheet, Table, draw_sheets
from harnessdoc.model import cautions
from harnessdoc.model.harness import Harness
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, Column, Grid
from harnessdoc.sheet.page import Page

KIND: Final = "survey sheet"
ROW_MM: Final = 8.5  # own choice: room to write by hand
GRID: Final = Grid(
    (
        Column("cavity", 13.0),
        Column("wire in it", 12.0),
        Column("colour: base, tracer", 24.0),
        Column("size", 13.0),
        Column("volts, key off, under load", 17.0),
        Column("volts, key on, under load", 17.0),
        Column("ohms to ground, no supply", 19.0),
        Column("drives: +, –, sensor", 15.5),
        Column("stub, mm", 12.5),
        Column("photo taken", 13.0),
        Column("label fixed", 12.0),
    )
)
_TICKED: Final = (1, 9, 10)  # columns with a box to tick
_BOX_MM: Final = 3.5
_FOOT_MM: Final = 13.0
_PAD_MM: Final = 2.0
_BLANKS: Final = (("Date", 32.0), ("By", 38.0), ("Meter", 42.0), ("Loaded with", 56.0))


def survey_sheets(harness: Harness, plug_name: str, mark: str = "", paper: str = "A4") -> list[Page]:
    """Return a plug's blank survey sheets. Raises KeyError for no such plug, layouts.LayoutError for no such paper."""
    plug = harness.plugs[plug_name]
    marks = cavity_marks(plug)

    def cavity(page: Page, name: str, shape: str, x: float, y: float, style: CavityStyle, growth: float) -> None:
        with page.group(f"cavity-{plug.name}-{name}", f"{plug.name}:{name}"):
            draw_cavity(page, x, y, marks[name], shape, style, growth=growth)

    rows = [TableRow(ROW_MM, _row(name if marks[name] == name else f"{marks[name]} {name}")) for name in plug.terminals]
    wanted = FaceSheet(
        harness,
        KIND,
        (),
        Shown(plug, plug.view, cavity),
        (),
        lambda width: TableRow(_FOOT_MM, _draw_blanks),
        lambda width, most: Table(GRID.width_mm, TableRow(GRID.head_mm, _draw_head), rows),
        mark,
        paper,
        _cautions(),
    )
    return draw_sheets(wanted)


def _cautions() -> TableRow:
    """The warnings, boxed, for the top of every survey sheet."""
    room = GRID.width_mm - 2 * _PAD_MM
    lines = [line for text in cautions.SURVEY for line in lettering.wrap(text, room, TEXT_MM, True)]
    height = 2 * _PAD_MM + STEP_MM * len(lines)

    def draw(page: Page, x: float, y: float) -> None:
        page.rect(x, y, GRID.width_mm, height, stroke_mm=0.7)
        page.lines(x + _PAD_MM, y + _PAD_MM + TEXT_MM + 0.3, lines, TEXT_MM, bold=True)

    return TableRow(height + 1, draw)


def _draw_blanks(page: Page, x: float, y: float) -> None:
    """Lines for who measured when with what."""
    for label, width in _BLANKS:
        written = page.text(x, y + 8, label, TEXT_MM)
        page.line(x + written + 1.5, y + 8.5, x + width - 3, y + 8.5, stroke_mm=0.25)
        x += width


def _draw_head(page: Page, x: float, y: float) -> None:
    page.line(x, y, x + GRID.width_mm, y, stroke_mm=0.5)
    bottom = GRID.draw_head(page, x, y)
    GRID.draw_sides(page, x, y, bottom, inner=True)


def _row(name: str) -> Callable[[Page, float, float], None]:
    def draw(page: Page, x: float, y: float) -> None:
        middle = y + ROW_MM / 2
        page.text(x + 1.5, middle + TEXT_MM / 2, name, TEXT_MM, bold=True, box_mm=GRID.columns[0].width_mm - 2.5)
        left = x
        for index, column in enumerate(GRID.columns):
            if index in _TICKED:
                box = left + (column.width_mm - _BOX_MM) / 2
                page.rect(box, middle - _BOX_MM / 2, _BOX_MM, _BOX_MM, stroke_mm=0.35)
            left += column.width_mm
        page.line(x, y + ROW_MM, x + GRID.width_mm, y + ROW_MM, stroke_mm=0.18)
        GRID.draw_sides(page, x, y, y + ROW_MM, inner=True)

    return draw
