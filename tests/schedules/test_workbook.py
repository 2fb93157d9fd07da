"""The workbook as a stranger reads it: texts are texts, numbers numbers, and no clock is in its bytes."""

from __future__ import annotations

import io
import time
import zipfile
from typing import Any

import openpyxl
import pytest

from harnessdoc.model.colours import parse_colour
from harnessdoc.schedules.schedule import Schedule
from harnessdoc.schedules.workbook import workbook_bytes

RISKY = (
    "=1+1",
    "+12V",
    "-1+1",
    "@SUM(A1)",
    "\t=1+1",
    "\r=1+1",
    " =1+1",
    "#N/A",
    "08",
    "1e3",
    "1-2",
    "87:30",
    "NO",
    "TRUE",
)


def book(*rows: tuple[Any, ...], notes: tuple[str, ...] = ()) -> Any:
    schedule = Schedule("wires", "Wires", ("text", "length (mm)"), tuple(rows), notes)
    return openpyxl.load_workbook(io.BytesIO(workbook_bytes([schedule], "OS-01")))


@pytest.mark.parametrize("text", RISKY)
def test_every_text_is_a_text(text: str) -> None:
    cell = book((text, 1))["wires"]["A2"]
    assert cell.data_type == "s"
    assert cell.value == text.strip()
    assert cell.quotePrefix == (text.strip()[0] in "=+-@")


def test_no_formula_is_in_the_file_itself() -> None:
    data = workbook_bytes([Schedule("a", "A", ("=head",), tuple((text,) for text in RISKY))])
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            assert b"<f>" not in archive.read(name), name
            assert b"<f " not in archive.read(name), name


def test_numbers_are_numbers_the_unknown_is_said_and_colours_are_codes() -> None:
    sheet = book(("a", 2.5), ("b", None), ("c", parse_colour("yellow/green")))["wires"]
    assert [sheet.cell(row, 2).value for row in (2, 3, 4)] == [2.5, "unknown", "YE/GN"]
    assert sheet["B2"].data_type == "n"


def test_notes_of_all_lists_are_on_the_last_sheet() -> None:
    found = book(("a", 1), notes=("=an assumed figure",))
    assert found.sheetnames == ["wires", "notes"]
    assert [cell.value for cell in found["notes"][2]] == ["wires", "=an assumed figure"]
    assert found["notes"]["B2"].data_type == "s"


def test_the_same_lists_give_the_same_bytes_at_another_time() -> None:
    schedule = Schedule("a", "A", ("b",), (("c",),))
    first = workbook_bytes([schedule], "t")
    time.sleep(2.1)  # a ZIP counts in steps of two seconds
    assert workbook_bytes([schedule], "t") == first
    with zipfile.ZipFile(io.BytesIO(first)) as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_a_cell_that_is_too_long_is_cut_to_what_a_cell_holds() -> None:
    assert len(book(("x" * 40_000, 1))["wires"]["A2"].value) == 32767


def test_control_characters_stop_nothing() -> None:
    assert book(("a\x00b\x1f\ud800\ufffe", 1))["wires"]["A2"].value == "ab"


def test_no_lists_make_no_workbook() -> None:
    with pytest.raises(ValueError, match="at least one list"):
        workbook_bytes([])
