"""CSV that no spreadsheet computes and every reader gets back: texts guarded, numbers left alone."""

from __future__ import annotations

import csv
import io

import pytest

from harnessdoc.model.colours import parse_colour
from harnessdoc.schedules.csv_text import csv_bytes, safe
from harnessdoc.schedules.schedule import Row, Schedule

NBSP = "\u00a0"


def rows_back(*rows: Row) -> list[list[str]]:
    schedule = Schedule("wires", "Wires", ("text", "length (mm)"), rows)
    return list(csv.reader(io.StringIO(csv_bytes(schedule).decode("utf-8-sig"), newline="")))[1:]


@pytest.mark.parametrize(
    "text",
    [
        "=1+1",
        "+12V",
        "-1+1",
        "@SUM(A1)",
        "=cmd|' /C calc'!A0",
        '=HYPERLINK("http://x.example")',
        "＝1+1",
        "＋1",
        "－1",
        "＠a",
    ],
)
def test_a_text_that_could_run_reads_the_same_and_begins_with_a_blank(text: str) -> None:
    (cell, _), = rows_back((text, 1))  # fmt: skip
    assert cell == NBSP + text
    assert cell.strip() == text


@pytest.mark.parametrize("text", ["\t=1+1", "\r=1+1", "\n=1+1", "   =1+1", "\x00=1+1", "\u200b=1+1", "\u202e=1+1"])
def test_nothing_that_goes_before_gets_a_formula_through(text: str) -> None:
    (cell, _), = rows_back((text, 1))  # fmt: skip
    assert cell == NBSP + "=1+1"


@pytest.mark.parametrize("text", ["a;=1+1", "a; =1+1", 'a;"=1+1"', "a;'=1+1"])
def test_a_spreadsheet_that_parts_cells_at_semicolons_finds_no_formula(text: str) -> None:
    (cell, _), = rows_back((text, 1))  # fmt: skip
    for part in cell.split(";"):
        assert part.lstrip(" \"'")[:1] not in "=+-@"


@pytest.mark.parametrize("text", ["W12", "X4:3", "3..4 V", "a = b", "1-2", "red/black", "5 V; 12 V", ""])
def test_a_harmless_text_is_left_alone(text: str) -> None:
    assert safe(text) == text


def test_numbers_stay_numbers_and_the_unknown_is_said() -> None:
    assert rows_back(("a", -5), ("b", 2.5), ("c", None), ("d", 0.1 + 0.2)) == [
        ["a", "-5"], ["b", "2.5"], ["c", "unknown"], ["d", "0.3"],
    ]  # fmt: skip


def test_colours_are_codes_and_commas_quotes_and_lines_are_kept_in_one_cell() -> None:
    assert rows_back(('a, "b"\nc', parse_colour("red/black"))) == [['a, "b" c', "RD/BK"]]


def test_a_spreadsheet_is_told_that_it_is_utf_8() -> None:
    data = csv_bytes(Schedule("a", "A", ("size (mm²)",), (("🚜 الري",),)))
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.decode("utf-8-sig") == "size (mm²)\r\n🚜 الري\r\n"


def test_a_letter_that_utf_8_has_not_stops_nothing() -> None:
    assert csv_bytes(Schedule("a", "A", ("b",), (("\ud800x",),))).decode("utf-8-sig") == "b\r\nx\r\n"


def test_a_row_as_long_as_the_headings_or_none() -> None:
    with pytest.raises(ValueError, match="wires: 1 cells under 2 headings"):
        Schedule("wires", "W", ("a", "b"), (("only",),))
