"""The meter sheet: numbered tests with what the meter should show, boxes to tick, and room for what it did show.

Tests come from the electrics room; here they are only put on paper."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from harnessdoc.electrics.meter_tests import STAGES, MeterGroup, MeterTest, meter_tests
from harnessdoc.electrics.study import Study
from harnessdoc.model.cautions import METER
from harnessdoc.model.harness import Harness
from harnessdoc.schedules.table_sheets import Filled, Heading, Line, Tables, table_sheets, unbroken
from harnessdoc.sheet.grid import TEXT_MM, Cell, Column, Grid
from harnessdoc.sheet.page import Page

KIND: Final = "meter sheet"
ROW_MM: Final = 7.5  # own choice: room to write by hand
GRID: Final = Grid(
    (
        Column("no.", 10.0),
        Column("red lead", 20.0),
        Column("black lead", 19.0),
        Column("positions", 35.0),
        Column("expected", 28.0),
        Column("engine, load, note", 29.0),
        Column("reading", 18.0),
        Column("ok", 9.0),
    )
)
_TICKED: Final = 7
_FOOT_MM: Final = 12.0
_BLANKS: Final = (("Date", 27.0), ("By", 30.0), ("Meter", 38.0), ("Leads read, ohm", 38.0), ("Battery, V", 37.0))


def meter_sheets(harness: Harness, study: Study, mark: str) -> list[Page]:
    """A4 sheets, as many as it takes; none for a harness that has nothing to measure."""
    lines = list(_lines(harness, meter_tests(study)))
    return table_sheets(Tables(harness, KIND, mark, METER, lines, GRID.width_mm, _draw_blanks, _FOOT_MM))


def _lines(harness: Harness, groups: tuple[MeterGroup, ...]) -> Iterator[Line]:
    number = 0
    for group in groups:
        yield Heading(_title(harness, group))
        stage = ""
        for test in group.tests:
            if test.stage != stage:
                stage = test.stage
                yield Heading(STAGES[test.stage], 2)
            number += 1
            yield Filled(GRID, _row(number, test), _TICKED, ROW_MM)


def _title(harness: Harness, group: MeterGroup) -> str:
    if group.plug:
        title = harness.plugs[group.name].title
        return f"Plug {group.name}{f', {title}' if title else ''}: before it is cut"
    return harness.circuit(group.name).title or group.name or "In no circuit"


def _row(number: int, test: MeterTest) -> tuple[Cell, ...]:
    stands = unbroken(test.state)
    engine = "engine off" if test.unit == "V" else ""
    more = "; ".join(filter(None, (engine, test.load, test.note)))
    return (
        Cell(str(number), bold=True), Cell(str(test.a)), Cell(str(test.b)), Cell(stands or "all at rest"),
        Cell(test.expected, bold=True), Cell(more), Cell(), Cell(),
    )  # fmt: skip


def _draw_blanks(page: Page, x: float, y: float) -> None:
    """Lines for who measured when with what; and what a position not named means."""
    for label, width in _BLANKS:
        written = page.text(x, y + 5, label, TEXT_MM)
        page.line(x + written + 1.5, y + 5.5, x + width - 2, y + 5.5, stroke_mm=0.25)
        x += width
    left = x - sum(width for _, width in _BLANKS)
    page.text(
        left,
        y + 10,
        "What a line does not name is at rest: a switch off, a sensor in the first condition that the file names.",
    )
