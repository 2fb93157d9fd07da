"""Tables: rows as tall as their fullest cell, codes never shortened, long texts cut with an ellipsis."""

from harnessdoc.model.colours import Colour
from harnessdoc.sheet.grid import MOST_LINES, STEP_MM, Cell, Column, Grid, code_of, shortened
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.sheet.measure import text_boxes

GRID = Grid((Column("wire", 20.0), Column("colour", 25.0)))


def _texts(row: list[Cell]) -> list[str]:
    page = Page(100, 100)
    GRID.draw_row(page, 10, 10, row)
    return [box.text for box in text_boxes(pdf_bytes([page]))[0]]


def test_a_row_grows_with_its_lines() -> None:
    one = GRID.row_mm([Cell("W1"), Cell("x")])
    two = GRID.row_mm([Cell("W1\nW2"), Cell("x")])
    assert abs(two - one - STEP_MM) < 1e-9
    assert GRID.row_mm([Cell("W1"), Cell(sleeves=(Colour("RD"), None))]) == two


def test_a_long_code_goes_on_under_itself() -> None:
    """BEIGE/TAN/RD is wider than 14 mm at 2.5 mm; it breaks after a slash and keeps every letter."""
    texts = _texts([Cell("W1"), Cell(sleeves=(Colour("BEIGE", ("TAN", "RD")),))])
    assert "".join(text for text in texts if text not in ("W1", "?")) == "BEIGE/TAN/RD"


def test_an_unknown_colour_is_a_question_mark_and_the_word() -> None:
    assert code_of(None) == "unknown"
    assert sorted(_texts([Cell("W1"), Cell(sleeves=(None,))])) == ["?", "W1", "unknown"]


def test_a_text_without_end_is_cut() -> None:
    lines = shortened("word " * 200, 18.0)
    assert len(lines) == MOST_LINES
    assert lines[-1].endswith("…")
    assert shortened("short", 18.0) == ["short"]
