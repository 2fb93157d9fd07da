"""What is live when, circuit by circuit, and whether the operation lines hold: on paper, to be tried on the machine."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from harnessdoc.electrics.faults import Faults
from harnessdoc.electrics.operation import CircuitTable, LiveRow, Verdict, live_table, verify
from harnessdoc.electrics.study import Study
from harnessdoc.model.cautions import OPERATION
from harnessdoc.model.harness import Harness, Operation
from harnessdoc.schedules.table_sheets import Filled, Heading, Line, Tables, table_sheets, unbroken
from harnessdoc.sheet.grid import Cell, Column, Grid
from harnessdoc.sheet.page import Page

KIND: Final = "operation sheet"
LIVE: Final = Grid((Column("item", 20.0), Column("what it is", 46.0), Column("live when", 90.0), Column("tried", 12.0)))
HOLDS: Final = Grid(
    (
        Column("when", 46.0),
        Column("live", 24.0),
        Column("dead", 28.0),
        Column("fails safe", 13.0),
        Column("computed", 45.0),
        Column("tried", 12.0),
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
    return [unbroken(cube) for cube in row.cubes] or ["never"]


def _operation(study: Study, harness: Harness) -> Iterator[Line]:
    faults = Faults(study)
    for line in harness.operation:
        verdicts = verify(study, [line])
        computed = _holds(verdicts)
        if line.fails_safe and computed.startswith("holds"):
            computed += _after_faults(faults, line)
        row = (
            Cell(unbroken(line.when) or "always"), Cell(", ".join(line.live)), Cell(", ".join(line.dead)),
            Cell("yes" if line.fails_safe else ""), Cell(computed), Cell(),
        )  # fmt: skip
        yield Filled(HOLDS, row, 5)


def _holds(verdicts: tuple[Verdict, ...]) -> str:
    broken = [v for v in verdicts if v.holds is False]
    if broken:
        return f"does NOT hold: {', '.join(f'{v.name} is ' + ('dead' if v.live else 'live') for v in broken)}"
    open_ = [v for v in verdicts if v.holds is None]
    if open_:
        return f"not verified: {open_[0].name}, {open_[0].why}"
    states = max((v.states for v in verdicts), default=0)
    return f"holds in each of {states} states" if states > 1 else "holds" if states else "names nothing"


def _after_faults(faults: Faults, line: Operation) -> str:
    """What single faults do to a line that says `fails safe`."""
    found = faults.of_line(line, only_dead=True)
    unverified = next((one.unverified for one in found if one.unverified), "")
    if unverified:
        return f"; single faults not verified: {unverified}"
    named = dict.fromkeys(effect.fault.text for one in found for effect in one.effects)
    tried = max((one.tried for one in found), default=0)
    if not named:
        return f"; none of {tried} single faults changes it"
    return f"; of {tried} single faults it does not stand {' or '.join(named)}"
