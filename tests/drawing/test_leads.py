"""The yardstick of wire lines: drawn by hand here, ending on a terminal, beside it, at another, on nothing."""

import pytest

from harnessdoc.model.harness import End, Harness, Item, Splice, Title, Wire
from harnessdoc.model.kinds.loads import Lamp
from harnessdoc.model.points import Point
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.leads import Followed
from tests.drawing.paper import read_drawn
from tests.drawing.rows import ends_not_shown, wire_rows

HARNESS = Harness(
    Title("Leads", "L-1"),
    items={name: Item(name, Lamp()) for name in ("E1", "E2")},
    wires={"W1": Wire("W1", End(Point("J1")), End(Point("E1", "1")))},
    splices={"J1": Splice("J1")},
)


def _page(
    end_x: float = 100.0, terminal: str = "1", title: str = "E1", dot_x: float = 110.0, line: bool = True
) -> Page:
    """W1 from a bundle at x 20 to terminal 1 of E1, drawn from x 100 on, and below it to the dot of J1."""
    page = Page(200, 100)
    page.line(20, 5, 20, 80, stroke_mm=2.2)
    for y, goes in ((20, "to J1"), (40, "to E1:1")):
        page.text(25, y, "W1", bold=True)
        page.text(60, y, goes)
    if line:
        page.polyline([(21, 19.4), (22.8, 21.2), (40, 21.2)], stroke_mm=0.35)
        page.rect(40, 19.8, 7, 2.8)  # a sleeve: the line goes on behind it
        page.line(47, 21.2, end_x, 21.2, stroke_mm=0.35)
    page.rect(100, 16, 12, 10, stroke_mm=0.5)
    page.rect(97, 20.6, 2.5, 1.2, fill="#ffffff")  # what sits on the wire's end is nothing to end on
    page.text(101.4, 20.3, terminal)
    page.text(114, 20, title, 3.5, bold=True)
    page.polyline([(21, 39.4), (22.8, 41.2), (100, 41.2), (dot_x, 46)], stroke_mm=0.35)
    page.circle(110, 46, 0.8, fill="#000000", stroke="none")
    page.text(114, 40, "J1", 3.5, bold=True)
    return page


def _faults(page: Page) -> tuple[list[str], list[str]]:
    sheets = read_drawn(pdf_bytes([page]))
    rows, followed = wire_rows(sheets, HARNESS.wires), Followed(HARNESS, sheets)
    return followed.astray(rows), ends_not_shown(HARNESS, rows, followed.stands_for)


def test_lines_that_end_on_what_they_name() -> None:
    assert _faults(_page()) == ([], [])


@pytest.mark.parametrize("end_x", [99.0, 100.5])
def test_a_line_that_stops_short_or_runs_in(end_x: float) -> None:
    assert _faults(_page(end_x=end_x))[0] == [f"W1 on sheet 1: its line ends on nothing at {end_x}, 21.2"]


def test_a_line_that_misses_its_dot() -> None:
    assert _faults(_page(dot_x=108.0))[0] == ["W1 on sheet 1: its line ends on nothing at 108.0, 46.0"]


def test_a_line_to_another_terminal() -> None:
    assert _faults(_page(terminal="2")) == (["W1 on sheet 1: its line ends not at E1:1"], ["W1 at E1:1"])


def test_a_line_to_another_item() -> None:
    assert _faults(_page(title="E2")) == (["W1 on sheet 1: its line ends not at E1:1"], ["W1 at E1:1"])


def test_a_number_without_a_line() -> None:
    assert _faults(_page(line=False))[0] == ["W1 on sheet 1: no line under its number"]
