"""A list on paper, lying or upright, whichever takes fewer sheets; each column as wide as what stands in it, its notes
on top. Knows no list of its own; takes any `Schedule`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from harnessdoc.model.cautions import TRADES
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import Harness
from harnessdoc.schedules.columns import Words, least_mm, share_out, words_of
from harnessdoc.schedules.schedule import Row, Schedule, shown
from harnessdoc.schedules.table_sheets import INSET_MM, Filled, Heading, Line, Tables, sheets_needed, table_sheets
from harnessdoc.sheet.frame import frame_of
from harnessdoc.sheet.grid import Cell, Column, Grid
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation, read_paper

CAUTIONS: Final = (
    "Isolate the battery before you cut, strip, crimp or join. A list shows what was described, not what is there: "
    "measure before you trust it.",
    TRADES,
)
MOST_LINES: Final = 14  # own choice: of one cell; what is left out is marked with …
_TURNS: Final[tuple[Orientation, ...]] = ("portrait", "landscape")


def schedule_sheets(harness: Harness, schedule: Schedule, mark: str, paper: str = "A4") -> list[Page]:
    """The list's sheets, as many as it takes; none for a list without rows.

    Raises layouts.LayoutError for an unknown paper."""
    if not schedule.rows:
        return []
    schedule = said_only(schedule)
    columns = _measured(schedule)
    least = sum(map(least_mm, columns))
    fitting = [turn for turn in _TURNS if least <= _room_mm(paper, turn)]
    tried = [_tables(harness, schedule, mark, columns, paper, turn) for turn in fitting or _TURNS[-1:]]
    return table_sheets(min(tried, key=sheets_needed) if len(tried) > 1 else tried[0])


def said_only(schedule: Schedule) -> Schedule:
    """The list without columns in which nothing stands: paper has no room for them."""
    kept = [i for i in range(len(schedule.headings)) if any(row[i] != "" for row in schedule.rows)]
    rows = tuple(tuple(row[i] for i in kept) for row in schedule.rows)
    return replace(schedule, headings=tuple(schedule.headings[i] for i in kept), rows=rows)


def _measured(schedule: Schedule) -> list[list[Words]]:
    """Each column's heading and cells, measured; what comes often is measured once."""
    columns = []
    for index, heading in enumerate(schedule.headings):
        values = [row[index] for row in schedule.rows]
        banded = any(isinstance(value, Colour) for value in values)
        texts = [(shown(value), banded and (value is None or isinstance(value, Colour))) for value in values]
        words = {text: words_of(*text, bold=index == 0) for text in set(texts)}
        columns.append([words_of(heading, bold=True), *(words[text] for text in texts)])
    return columns


def _room_mm(paper: str, turn: Orientation) -> float:
    """The width of a table: the frame's, clear of its centring marks."""
    return frame_of(read_paper(paper, turn)).width - 2 * INSET_MM


def _tables(
    harness: Harness, schedule: Schedule, mark: str, columns: Sequence[Sequence[Words]], paper: str, turn: Orientation
) -> Tables:
    widths = share_out(columns, _room_mm(paper, turn))
    titled = zip(schedule.headings, widths, strict=True)
    grid = Grid(tuple(Column(heading, width) for heading, width in titled), MOST_LINES)
    coloured = [any(isinstance(row[i], Colour) for row in schedule.rows) for i in range(len(widths))]
    lines: list[Line] = [Heading(schedule.title)]
    notes = Grid((Column("to this list", grid.width_mm),), MOST_LINES)
    lines += [Filled(notes, (Cell(note),)) for note in schedule.notes]
    lines += [Filled(grid, _cells(row, coloured)) for row in schedule.rows]
    return Tables(harness, schedule.title, mark, CAUTIONS, lines, grid.width_mm, paper=paper, orientation=turn)


def _cells(row: Row, coloured: Sequence[bool]) -> tuple[Cell, ...]:
    """The first cell of a row is bold, it names the row; a colour that nobody knows is an empty band."""
    return tuple(
        Cell(sleeves=(value,))
        if banded and (value is None or isinstance(value, Colour))
        else Cell(shown(value), bold=index == 0)
        for index, (value, banded) in enumerate(zip(row, coloured, strict=True))
    )
