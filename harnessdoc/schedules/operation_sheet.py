"""What is live when, circuit by circuit, and whether the operation lines hold: on paper, to be tried on the machine."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from harnessdoc.electrics.operation import CircuitTable, LiveRow, Verdict, live_table, told, verify
from harnessdoc.electrics.study import Study
from harnessdoc.model.cautions import OPERATION
from harnessdoc.model.harness import Harness, Operation
from harnessdoc.schedules.table_sheets import Filled, Heading, Line, Tables, table_sheets
from harnessdoc.sheet.grid import Cell, Column, Grid
from harnessdoc.sheet.page import Page

KIND: Final = "operation sheet"
LIVE: Final = Grid((Column("item", 20.0), Column("what it is", 46.0), Column("live when", 94.0), Column("tried", 10.0)))
HOLDS: Final = Grid(
    (
        Column("when", 50.0),
        Column("live", 24.0),
        Column("dead", 30.0),
        Column("fails safe", 13.0),
        Column("computed", 43.0),
        Column("tried", 10.0),
    )
)


def operation_sheets(harness: Harness, study: Study, mark: str) -> list[Page]:
    """A4 sheets, as many as it takes; none for a harness with nothing that can be live."""
    lines = [line for table in live_table(study) for line in _circuit(harness, table)]
    if harness.operation:
        lines += [Heading("Operation lines"), *_operation(study, harness)]
    return table_sheets(Tables(harness, KIND, mark, OPERATION, lines, LIVE.width_mm))


def _circuit(harness: Harness, table: CircuitTable) -> Iterator[Line]:
    yield Heading(harness.circuit(table.circuit).title or table.circuit or "In no circuit")
    for row in table.rows:
        title = harness.title_of(row.name)
        for at, text in enumerate(_whens(row)):
            first = (Cell(row.name, bold=True), Cell(title)) if at == 0 else (Cell(), Cell("or"))
            yield Filled(LIVE, (*first, Cell(text), Cell()), 3)


def _whens(row: LiveRow) -> list[str]:
    """When an item is live, a line a way; in words where it always or never is, or where nobody can tell."""
    if row.unknown:
        return [f"not verified: {row.unknown}"]
    if row.always:
        return ["always"]
    return [told(cube) for cube in row.cubes] or ["never"]


def _operation(study: Study, harness: Harness) -> Iterator[Line]:
    for line in harness.operation:
        verdicts = verify(study, [line])
        row = (
            Cell(told(line.when) or "always"), Cell(", ".join(line.live)), Cell(", ".join(line.dead)),
            Cell("yes" if line.fails_safe else ""), Cell(_holds(line, verdicts)), Cell(),
        )  # fmt: skip
        yield Filled(HOLDS, row, 5)


def _holds(line: Operation, verdicts: tuple[Verdict, ...]) -> str:
    broken = [v for v in verdicts if v.holds is False]
    if broken:
        return f"does NOT hold: {', '.join(f'{v.name} is ' + ('dead' if v.live else 'live') for v in broken)}"
    open_ = [v for v in verdicts if v.holds is None]
    if open_:
        return f"not verified: {open_[0].name}, {open_[0].why}"
    states = max((v.states for v in verdicts), default=0)
    return f"holds in all {states} states" if states > 1 else "holds" if states else "names nothing"
