"""The yardstick of wire rows: drawn by hand here, well and with each fault, on a page that no drawing code made."""

import pytest

from harnessdoc.model.harness import End, Harness, Title, Wire
from harnessdoc.model.points import Point
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import read_drawn
from tests.drawing.rows import WireRow, ends_not_shown, length_equals, wire_rows, wrong_lengths

WIRES = {
    "W1": Wire("W1", End(Point("G1", "+")), End(Point("F1", "2"))),
    "W2": Wire("W2", End(Point("J1")), End()),
    "A-LONG-NUMBER": Wire("A-LONG-NUMBER", End(Point("K1", "87")), End(Point("K2", "30"))),
}
HARNESS = Harness(Title("Rows", "R-1"), wires=WIRES)
LENGTHS: dict[str, float | None] = {"W1": 150.0, "W2": None, "A-LONG-NUMBER": 2437.4}
Cells = tuple[str, str, str, str]
ROWS: list[Cells] = [
    ("W1", "150 mm", "to F1:2", "+"),
    ("W1", "150 mm", "to G1:+", "2"),
    ("W2", "?", "to unknown", "J1"),
    ("A-LONG-NUMBER", "~2.437 m", "to K2:30", "87"),
    ("A-LONG-NUMBER", "~2.437 m", "to K1:87", "30"),
]


def _rows(cells: list[Cells]) -> dict[str, list[WireRow]]:
    page = Page(420, 297)
    for index, (number, length, goes, terminal) in enumerate(cells):
        x, y = 20 + index % 2 * 190, 20 + index // 2 * 6
        page.text(x, y, number, bold=True)
        page.text(x + 40, y, length)
        page.text(x + 70, y, goes)
        page.text(x + 120, y + 2.3, terminal)
    return wire_rows(read_drawn(pdf_bytes([page])), WIRES)


def test_each_wire_at_both_its_ends_with_its_length() -> None:
    rows = _rows(ROWS)
    assert {name: len(its) for name, its in rows.items()} == {"W1": 2, "W2": 1, "A-LONG-NUMBER": 2}
    assert ends_not_shown(HARNESS, rows) == []
    assert wrong_lengths(LENGTHS, rows) == []


def test_an_end_left_out() -> None:
    assert ends_not_shown(HARNESS, _rows([ROWS[0], *ROWS[2:]])) == ["W1 at F1:2"]


def test_a_row_at_another_terminal() -> None:
    assert ends_not_shown(HARNESS, _rows([("W1", "150 mm", "to F1:2", "-"), *ROWS[1:]])) == ["W1 at G1:+"]


def test_a_row_that_sends_the_reader_elsewhere() -> None:
    assert ends_not_shown(HARNESS, _rows([ROWS[0], ("W1", "150 mm", "to G1:-", "2"), *ROWS[2:]])) == ["W1 at F1:2"]


def test_one_row_for_both_ends_is_no_row_at_each() -> None:
    """A list that names both points in one row shows the wire at one place only."""
    page = Page(420, 297)
    for index, text in enumerate(("W1", "G1:+", "F1:2", "150 mm")):
        page.text(20 + 30 * index, 20, text)
    rows = wire_rows(read_drawn(pdf_bytes([page])), ["W1"])
    shown = Harness(Title("Rows", "R-1"), wires={"W1": WIRES["W1"]})
    assert ends_not_shown(shown, rows) == ["W1 is shown once for both ends"]


@pytest.mark.parametrize(("at", "length"), [(0, "155 mm"), (0, "?"), (2, "300 mm"), (3, "~2.436 m"), (4, "2.437 mm")])
def test_a_wrong_length(at: int, length: str) -> None:
    cells = list(ROWS)
    cells[at] = (cells[at][0], length, *cells[at][2:])
    assert len(wrong_lengths(LENGTHS, _rows(cells))) == 1


def test_texts_of_several_lines_and_cut_texts() -> None:
    """A long number over two lines, above or below the row's first line; a destination cut short."""
    page = Page(420, 297)
    page.lines(20, 20, ("A-LONG-", "NUMBER"), bold=True)
    page.text(60, 20, "~2.437 m")
    page.text(90, 20, "to K2…")
    page.text(140, 22, "87")
    page.lines(20, 40 - 3.75, ("A-LONG-", "NUMBER"), bold=True)
    page.text(60, 40, "~2.437 m")
    page.lines(90, 40 - 3.75, ("to", "K1:87"))
    page.text(140, 42, "30")
    rows = wire_rows(read_drawn(pdf_bytes([page])), ["A-LONG-NUMBER"])
    shown = Harness(Title("Rows", "R-1"), wires={"A-LONG-NUMBER": WIRES["A-LONG-NUMBER"]})
    assert ends_not_shown(shown, rows) == []
    assert wrong_lengths(LENGTHS, rows) == []


@pytest.mark.parametrize(
    ("text", "length_mm", "same"),
    [
        ("2.4 m", 2400.0, True),
        ("~2.4 m", 2400.4, True),
        ("2.4 m", 2401.0, False),
        ("60 mm", 60.0, True),
        ("60 mm", 60.1, False),
        ("length unknown", None, True),
        ("60 mm", None, False),
        ("?", 60.0, False),
    ],
)
def test_a_printed_length_against_the_models(text: str, length_mm: float | None, same: bool) -> None:
    assert length_equals(text, length_mm) is same
