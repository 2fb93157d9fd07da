"""The work sheet of a cut: go or no-go and why, the order of work, then cavity by cavity with boxes to tick.

Verdict and labels' words come from outside; here they are only put on paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from harnessdoc.model.cautions import CUT
from harnessdoc.model.gate import CutCavity, Gate, GatePoint, Standing
from harnessdoc.model.harness import Harness, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_length
from harnessdoc.schedules.table_sheets import Filled, Heading, Line, Tables, table_sheets
from harnessdoc.sheet.grid import TEXT_MM, Cell, Column, Grid
from harnessdoc.sheet.page import Page

KIND: Final = "work sheet before a cut"
STAGGER_MM: Final = (0, 40, 80)  # common practice, no source: a joint with its sleeve is less than 40 mm long
ROW_MM: Final = 8.0  # own choice: room to tick and to write
WIDTH_MM: Final = 168.0
POINTS: Final = Grid((Column("stands", 23.0), Column("what, and what to do", 131.0), Column("done", 14.0)))
STEPS: Final = Grid((Column("no.", 10.0), Column("in this order", 144.0), Column("done", 14.0)))
CUTS: Final = Grid(
    (
        Column("cavity", 13.5),
        Column("wire, goes to", 20.0),
        Column("colour", 25.5),
        Column("label, plug side", 26.25),
        Column("label, loom side", 26.25),
        Column("stub, stagger", 17.0),
        Column("0 V", 8.0),
        Column("labels", 12.5),
        Column("cut", 8.0),
        Column("caps", 11.0),
    ),
    12,
)
_BOX: Final = Cell("☐", bold=True)
_BOXES: Final = 4
_TICKED: Final = 2
_BLANKS: Final = (("Date", 32.0), ("By", 42.0), ("Isolated at", 50.0), ("Meter", 44.0))
_BLANKS_MM: Final = 9.0

# common practice, no source
_SURVEY: Final = (
    "Survey live: plug in place, work each function from its own control; note volts under load and what moves. "
    "Never put supply on an unknown wire."
)
_REST: Final = (
    "Measure 0 V at every cavity against the chassis, then try the meter on the battery: it must still read.",
    "Label both sides of every cut, plug side and loom side, before the first cut. Photograph the plug.",
    "Passage: bundle, sleeves and grommet through every hole, before any terminal is on.",
    "Cut one wire, cap both its ends, tick its line; only then the next. Never two wires in one cut.",
    "Stagger the cuts as printed: the joints then lie one behind the other, not side by side.",
    "Joining: sleeve and grommet onto the wire first, then the terminal or joint.",
    "At the end: no bare end left, plug photographed; write cut: and stubs: into the file.",
    "Supply back through a 1 to 3 A fuse first; try each function that must still work.",
)


def gate_sheets(
    harness: Harness, gate: Gate, sides: Mapping[tuple[Point, str], str], mark: str = "", paper: str = "A4"
) -> list[Page]:
    """The work sheets of one plug. `sides`: what the labels say, as `labels.cut_sides` has it. `paper`: A4, letter."""
    lines = list(_lines(harness, gate, sides))
    return table_sheets(Tables(harness, KIND, mark, CUT, lines, WIDTH_MM, _draw_blanks, _BLANKS_MM, paper))


def _lines(harness: Harness, gate: Gate, sides: Mapping[tuple[Point, str], str]) -> Iterator[Line]:
    title = harness.plugs[gate.plug].title
    verdict = "GO" if gate.go else "NO GO"
    yield Heading(f"{verdict}: plug {' '.join(filter(None, (gate.plug, title)))}")
    for point in gate.points:
        yield from _point(point)
    if not gate.cavities:
        return
    yield Heading("In this order")
    for number, text in enumerate(_steps(gate), 1):
        yield Filled(STEPS, (Cell(str(number), bold=True), Cell(text), Cell()), _TICKED, ROW_MM)
    yield Heading(f"Cavity by cavity, in the order of the labels: {gate.plug}")
    even = len({one.stub_mm for one in gate.cavities}) == 1
    for index, one in enumerate(gate.cavities):
        for wire in one.wires:
            stagger = STAGGER_MM[index % len(STAGGER_MM)] if even else None
            yield Filled(CUTS, _cut(one, wire, stagger, sides), -1, ROW_MM)


def _point(point: GatePoint) -> Iterator[Line]:
    met = point.standing is Standing.MET
    text = point.text if met else f"{point.text}\nDo: {point.todo}"
    yield Filled(POINTS, (Cell(point.standing.value, bold=not met), Cell(_plain(text)), Cell()), -1 if met else _TICKED)
    for note in point.notes:
        yield Filled(POINTS, (Cell(), Cell(_plain(note)), Cell()))


def _plain(text: str) -> str:
    """Without the marks that show in a terminal what is to be typed."""
    return text.replace("`", "")


def _steps(gate: Gate) -> Iterator[str]:
    """The steps; how to isolate is said as the gate says it."""
    yield _SURVEY
    how = next((point.todo for point in gate.points if point.key == "isolated"), "")
    yield f"Isolate: {how}." if how else "Isolate: negative off the battery, wait for modules to sleep."
    yield from _REST


def _cut(one: CutCavity, wire: Wire, stagger: int | None, sides: Mapping[tuple[Point, str], str]) -> tuple[Cell, ...]:
    name = f"{one.point.terminal} {one.legend}".strip()
    goes = " and ".join(end.text for end in wire.ends if end.point != one.point) or "itself"
    size = wire.size.written if wire.size else "size ?"
    return (
        Cell(name, bold=True),
        Cell(f"{wire.name} → {goes}\n{size}"),
        Cell(sleeves=(wire.colour,)),
        Cell(sides.get((one.point, ""), "none made")),
        Cell(sides.get((one.point, wire.name), "none made")),
        Cell(_stub(one.stub_mm, stagger), bold=True),
        *[_BOX] * _BOXES,
    )


def _stub(stub_mm: float | None, stagger: int | None) -> str:
    length = format_length(stub_mm) if stub_mm is not None else "...... mm"
    return f"{length}\n+{stagger} mm" if stagger else length


def _draw_blanks(page: Page, x: float, y: float) -> None:
    """Lines for who cut it when, isolated where."""
    for label, width in _BLANKS:
        written = page.text(x, y + 5, label, TEXT_MM)
        page.line(x + written + 1.5, y + 5.5, x + width - 3, y + 5.5, stroke_mm=0.25)
        x += width
