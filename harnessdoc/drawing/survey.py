"""Survey sheets: the pin-out sheet before the cut, with boxes to tick and room for what hand and meter find; what is
known already is printed in. Cavities come in the order of the labels."""

from __future__ import annotations

from typing import Final

from harnessdoc.drawing.cavity import CavityStyle, draw_cavity
from harnessdoc.drawing.face_panels import Shown, TableRow, cavity_marks
from harnessdoc.drawing.face_sheet import FaceSheet, Table, draw_sheets
from harnessdoc.drawing.survey_known import Known, known_of
from harnessdoc.model import cautions
from harnessdoc.model.harness import Harness
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, Cell, Column, Grid, Row
from harnessdoc.sheet.page import Page

KIND: Final = "survey sheet"
TIER_MM: Final = 8.5  # own choice: room to write by hand
_MOST_LINES: Final = 4
_CAVITY_MM: Final = 15.0
READ: Final = Grid(
    (
        Column("cavity", _CAVITY_MM),
        Column("wire", 13.0),
        Column("legend on housing", 17.0),
        Column("colour: base, tracer", 25.5),
        Column("size", 17.0),
        Column("volts, key off, under load", 20.0),
        Column("volts, key on, under load", 20.0),
        Column("ohms to ground, no supply", 20.0),
        Column("ohms to supply +, supply off", 20.5),
    ),
    _MOST_LINES,
)
"""The upper half of a cavity's row: what is looked at and measured."""
DONE: Final = Grid(
    (
        Column("wire in it", _CAVITY_MM),
        Column("what the machine does when this is worked from its own control (never by supply put on it)", 55.0),
        Column("which side drives", 22.0),
        Column("stub to leave", 14.0),
        Column("stagger, mm", 18.0),
        Column("photo taken", 14.0),
        Column("label, plug side", 15.0),
        Column("label, loom side", 15.0),
    ),
    _MOST_LINES,
)
"""The lower half: what it does, how it will be cut, what is done."""
_TICKED: Final = (0, 5, 6, 7)  # columns of DONE with a box to tick
_GAP: Final = "\N{NO-BREAK SPACE}"
_SIDES: Final = f"☐{_GAP}+{_GAP * 3}☐{_GAP}–\n☐{_GAP}sensor"
_BOX_MM: Final = 3.5
_FOOT_MM: Final = 13.0
_PAD_MM: Final = 2.0
_BLANKS: Final = (("Date", 32.0), ("By", 38.0), ("Meter", 42.0), ("Loaded with", 56.0))


def survey_sheets(harness: Harness, plug_name: str, mark: str = "", paper: str = "A4") -> list[Page]:
    """Return a plug's survey sheets. Raises KeyError for no such plug, layouts.LayoutError for no such paper."""
    plug = harness.plugs[plug_name]
    marks = cavity_marks(plug)

    def cavity(page: Page, name: str, shape: str, x: float, y: float, style: CavityStyle, growth: float) -> None:
        with page.group(f"cavity-{plug.name}-{name}", f"{plug.name}:{name}"):
            draw_cavity(page, x, y, marks[name], shape, style, growth=growth)

    rows = [_row(known, marks[known.cavity]) for known in known_of(harness, plug)]
    heading = TableRow(READ.head_mm + DONE.head_mm, _draw_head)
    wanted = FaceSheet(
        harness,
        KIND,
        (),
        Shown(plug, plug.view, cavity),
        (),
        lambda width: TableRow(_FOOT_MM, _draw_blanks),
        lambda width, most: Table(READ.width_mm, heading, rows),
        mark,
        paper,
        _cautions(),
    )
    return draw_sheets(wanted)


def _cautions() -> TableRow:
    """The warnings, boxed, for the top of every survey sheet."""
    room = READ.width_mm - 2 * _PAD_MM
    lines = [line for text in cautions.SURVEY for line in lettering.wrap(text, room, TEXT_MM, True)]
    height = 2 * _PAD_MM + STEP_MM * len(lines)

    def draw(page: Page, x: float, y: float) -> None:
        page.rect(x, y, READ.width_mm, height, stroke_mm=0.7)
        page.lines(x + _PAD_MM, y + _PAD_MM + TEXT_MM + 0.3, lines, TEXT_MM, bold=True)

    return TableRow(height + 1, draw)


def _draw_blanks(page: Page, x: float, y: float) -> None:
    """Lines for who measured when with what."""
    for label, width in _BLANKS:
        written = page.text(x, y + 8, label, TEXT_MM)
        page.line(x + written + 1.5, y + 8.5, x + width - 3, y + 8.5, stroke_mm=0.25)
        x += width


def _draw_head(page: Page, x: float, y: float) -> None:
    """Both halves of the heading, one under the other as in the rows."""
    page.line(x, y, x + READ.width_mm, y, stroke_mm=0.5)
    middle = READ.draw_head(page, x, y)
    READ.draw_sides(page, x, y, middle, inner=True)
    DONE.draw_sides(page, x, middle, DONE.draw_head(page, x, middle), inner=True)


def _row(known: Known, mark: str) -> TableRow:
    name = mark if mark == known.cavity else f"{mark} {known.cavity}"
    size = known.size if known.size or not known.empty else "–"
    read = (
        Cell(name, bold=True), Cell(known.wire), Cell(known.legend), Cell(sleeves=known.colours), Cell(size),
        Cell(known.off_v), Cell(known.on_v), Cell(known.ground_ohm), Cell(known.supply_ohm),
    )  # fmt: skip
    done = (
        Cell(),
        Cell(known.does),
        Cell(known.drives or ("" if known.empty else _SIDES)),
        Cell(known.stub),
        *[Cell()] * 4,
    )
    upper, lower = (max(grid.row_mm(cells), TIER_MM) for grid, cells in ((READ, read), (DONE, done)))

    def draw(page: Page, x: float, y: float) -> None:
        _draw_tier(page, x, y, READ, read, upper)
        page.line(x + _CAVITY_MM, y + upper, x + READ.width_mm, y + upper, stroke_mm=0.18)
        _draw_tier(page, x, y + upper, DONE, done, lower)
        if not known.empty:
            _draw_boxes(page, x, y + upper + lower / 2)
        bottom = y + upper + lower
        page.line(x, bottom, x + READ.width_mm, bottom, stroke_mm=0.35)

    return TableRow(upper + lower, draw)


def _draw_tier(page: Page, x: float, y: float, grid: Grid, cells: Row, height: float) -> None:
    grid.draw_row(page, x, y, cells, rule=False)
    grid.draw_sides(page, x, y, y + height, inner=True)


def _draw_boxes(page: Page, x: float, middle: float) -> None:
    """The boxes to tick in the lower half."""
    for index, column in enumerate(DONE.columns):
        if index in _TICKED:
            page.rect(x + (column.width_mm - _BOX_MM) / 2, middle - _BOX_MM / 2, _BOX_MM, _BOX_MM, stroke_mm=0.35)
        x += column.width_mm
