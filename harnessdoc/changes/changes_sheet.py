"""The changes sheet: what changed, which papers to print, what to measure again, each with a box to tick.

What it says comes from the comparison; here it is only put on paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import Final

from harnessdoc.changes.change import SECTIONS, Change
from harnessdoc.changes.compare import Changes
from harnessdoc.changes.reprint import LabelChange, PaperChange
from harnessdoc.changes.retest import Retest
from harnessdoc.changes.told import NO_CIRCUIT, place_of, states, why_words
from harnessdoc.electrics.meter_tests import STAGES
from harnessdoc.model.cautions import METER
from harnessdoc.model.harness import Harness
from harnessdoc.schedules.table_sheets import Filled, Heading, Line, Tables, table_sheets, unbroken
from harnessdoc.sheet.grid import TEXT_MM, Cell, Column, Grid
from harnessdoc.sheet.lettering import fit
from harnessdoc.sheet.page import Page

KIND: Final = "changes sheet"
CAUTIONS: Final = (
    "What changed on the vehicle without being written down does not stand here.",
    "Isolate the battery before you touch a wire, and wait for modules to sleep.",
    *METER,
)
ROW_MM: Final = 7.5  # own choice: room to write by hand, as on the meter sheet
_CHANGES: Final = Grid(
    (
        Column("part", 25.0),
        Column("what", 27.0),
        Column("was", 49.0),
        Column("is now", 49.0),
        Column("seen", 18.0),
    )
)
_LABELS: Final = Grid(
    (Column("on", 32.0), Column("says", 65.0), Column("takes the place of", 58.0), Column("done", 13.0))
)
_OFF: Final = Grid((Column("on", 32.0), Column("says", 123.0), Column("off", 13.0)))
_PAPERS: Final = Grid((Column("paper", 55.0), Column("what changed on it", 100.0), Column("done", 13.0)))
_WIRES: Final = Grid(
    (
        Column("wire", 24.0),
        Column("from", 28.0),
        Column("to", 28.0),
        Column("end to end", 26.0),
        Column("why", 35.0),
        Column("reading", 18.0),
        Column("ok", 9.0),
    )
)
_TESTS: Final = Grid(
    (
        Column("no.", 9.0),
        Column("red lead", 19.0),
        Column("black lead", 21.0),
        Column("positions", 25.0),
        Column("expected", 29.0),
        Column("why; load, note", 38.0),
        Column("reading", 18.0),
        Column("ok", 9.0),
    )
)
WIDTH_MM: Final = 168.0
_IMPLIED: Final = {
    "renamed": ("name",),
    "recoloured": ("colour",),
    "resized": ("size",),
    "re-lengthened": ("length",),
    "circuit": ("circuit",),
    "cut": ("cut",),
    "used": ("joined at",),
    "free": ("joined at",),
    "address": ("record",),
    "added": ("",),
    "gone": ("",),
}
"""What happened to the keys that it goes without saying of."""
_FOOT_MM: Final = 22.0
_BLANKS: Final = (("Date", 27.0), ("By", 42.0), ("Meter", 45.0), ("Leads read, ohm", 54.0))


def changes_sheets(changes: Changes) -> list[Page]:
    """A4 sheets, as many as it takes; none where nothing changed. They bear the new state's content mark."""
    lines = list(_lines(changes))
    old, new = states(changes)
    foot = _Foot(f"Old: {old}", f"New: {new}")
    return table_sheets(Tables(changes.new, KIND, changes.marks[1], CAUTIONS, lines, WIDTH_MM, foot.draw, _FOOT_MM))


class _Foot:
    """Which two states were compared, and lines for who worked when."""

    def __init__(self, *states: str) -> None:
        self.states = states

    def draw(self, page: Page, x: float, y: float) -> None:
        """Under the cautions, with the top left corner at (x, y)."""
        for at, text in enumerate(self.states):
            page.text(x, y + 5 + at * 5, fit(text, WIDTH_MM, TEXT_MM, True), TEXT_MM, bold=True)
        left = x
        for label, width in _BLANKS:
            written = page.text(left, y + 18, label, TEXT_MM)
            page.line(left + written + 1.5, y + 18.5, left + width - 2, y + 18.5, stroke_mm=0.25)
            left += width


def _lines(changes: Changes) -> Iterator[Line]:
    for section, group in groupby(changes.lines, key=lambda line: line.section):
        yield Heading(f"Changed: {SECTIONS[section]}")
        yield from (_ticked(_CHANGES, *_change_cells(line)) for line in group)
    again = changes.reprint
    yield from _table("Labels to print", (_ticked(_LABELS, *_label_cells(label)) for label in again.labels))
    off = (_ticked(_OFF, Cell(label.subject, bold=True), Cell(label.says)) for label in again.labels_off)
    yield from _table("Labels to take off", off)
    yield from _table("Papers to print", map(_paper, _papers(again.plugs, again.records, again.sheets)))
    yield from _table("Papers to throw away", map(_paper, _papers(again.plugs_off, again.records_off, ())))
    yield from _meter(changes)


def _table(title: str, rows: Iterable[Line]) -> Iterator[Line]:
    found = list(rows)
    if found:
        yield Heading(title)
        yield from found


def _ticked(grid: Grid, *cells: Cell, empty: int = 0) -> Filled:
    """A row whose last column is a box; before it so many columns are left free to write in."""
    row = (*cells, *(Cell() for _ in range(empty + 1)))
    return Filled(grid, row, len(row) - 1, ROW_MM if empty else 0.0)


def _change_cells(line: Change) -> tuple[Cell, ...]:
    what = line.what if line.key in _IMPLIED.get(line.what, ("",)) else f"{line.what}: {line.key}"
    new = f"{line.new} ({line.note})" if line.note and line.new else line.new
    old = f"{line.old} ({line.note})" if line.note and not line.new else line.old
    return Cell(line.name, bold=True), Cell(what), Cell(old), Cell(new, bold=True)


def _label_cells(label: LabelChange) -> tuple[Cell, ...]:
    return Cell(label.subject, bold=True), Cell(label.says), Cell(_place_of(label))


def _place_of(label: LabelChange) -> str:
    if label.was and label.was == label.says:
        return place_of(label)
    return label.was or "nothing: new here"


def _papers(
    plugs: Iterable[PaperChange], records: Iterable[PaperChange], sheets: Iterable[PaperChange]
) -> Iterator[tuple[str, str]]:
    yield from ((f"pin-out sheet {paper.name}", paper.why) for paper in plugs)
    yield from ((f"record {paper.key}, {paper.name}", paper.why) for paper in records)
    yield from ((paper.name, paper.why) for paper in sheets)


def _paper(told: tuple[str, str]) -> Filled:
    return _ticked(_PAPERS, Cell(told[0], bold=True), Cell(told[1]))


def _meter(changes: Changes) -> Iterator[Line]:
    meter = changes.retests
    wires = (
        _ticked(
            _WIRES,
            Cell(one.wire, bold=True), Cell(one.a), Cell(one.b),
            Cell(one.expected or "an end is not known", bold=True), Cell(one.why),
            empty=1,
        )
        for one in meter.wires
    )  # fmt: skip
    yield from _table("Wires worked on: tug, then read end to end, supply off", wires)
    if meter.not_compared:
        circuits = ", ".join(name or NO_CIRCUIT for name in meter.circuits) or "none"
        row = _ticked(_PAPERS, Cell("meter sheet, all of", bold=True), Cell(f"{circuits} ({meter.not_compared})"))
        yield from _table("Readings to take: not compared", [row])
    for number, (at, tests) in enumerate(_grouped(changes.new, meter.tests)):
        yield Heading(f"Readings to take: {at}" if number == 0 else at)
        stage = ""
        for count, one in tests:
            if one.test.stage != stage:
                stage = one.test.stage
                yield Heading(STAGES[one.test.stage], 2)
            yield _ticked(_TESTS, *_test_cells(count, one), empty=1)


def _grouped(harness: Harness, tests: Iterable[Retest]) -> Iterator[tuple[str, list[tuple[int, Retest]]]]:
    """Tests by plug or circuit, numbered through."""
    for (plug, name), group in groupby(enumerate(tests, 1), key=lambda pair: (pair[1].plug, pair[1].group)):
        yield f"plug {name}" if plug else harness.circuit(name).title or name or NO_CIRCUIT, list(group)


def _kept(text: str) -> str:
    """A text in which no unit stands on a line of its own."""
    for unit in ("Ω", "kΩ", "V", "A"):
        text = text.replace(f" {unit}", f"\N{NO-BREAK SPACE}{unit}")
    return text


def _test_cells(number: int, one: Retest) -> tuple[Cell, ...]:
    test = one.test
    why = "; ".join(filter(None, (why_words(one), "engine off" if test.unit == "V" else "", test.load, test.note)))
    return (
        Cell(str(number), bold=True), Cell(str(test.a)), Cell(str(test.b)),
        Cell(unbroken(test.state) or "all at rest"), Cell(_kept(test.expected), bold=True), Cell(_kept(why)),
    )  # fmt: skip
