"""The lists as files: which there are, the same each time, safe whatever the file says, and readable on paper."""

from __future__ import annotations

import csv
import io

import openpyxl
import pytest

from harnessdoc.checks.rule import case_of
from harnessdoc.layouts import LayoutError
from harnessdoc.schedules.files import schedule_files, schedules
from harnessdoc.schedules.lists import LISTS
from harnessdoc.schedules.printed import schedule_sheets
from harnessdoc.sheet.output import pdf_bytes, svg_text
from tests.electrics.written import harness_of
from tests.schedules.written import sample
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes

HOSTILE = """harness: {title: "=1+1", number: "+N"}
items:
  S1: {is: switch, contacts: {"1-2": on}, remarks: "=cmd|' /C calc'!A0", title: "<script>alert(1)</script>"}
wires:
  W1: {from: S1:1, to: J1, colour: red, size: 1 mm2, length: 1 m, remarks: "=1+1"}
  "=2+2": {from: S1:2, to: J1, remarks: "@SUM(1)\\u202e"}
splices: {J1: {remarks: "-1+1", cover: "+12V"}}
"""


def test_the_files_of_a_harness() -> None:
    files = schedule_files(sample(), "ABCDEFGH", only=["wires", "stubs"])
    assert list(files) == [
        "schedules.pdf", "schedules.xlsx", "schedules/wires.csv", "schedules/stubs.csv", "schedules/notes.csv",
    ]  # fmt: skip
    assert openpyxl.load_workbook(io.BytesIO(files["schedules.xlsx"])).sheetnames == ["wires", "stubs", "notes"]


def test_the_same_harness_gives_the_same_bytes() -> None:
    first, second = (schedule_files(case_of(harness_of(HOSTILE)), "M") for _ in range(2))
    assert first == second


def test_no_file_where_there_is_nothing_to_list() -> None:
    assert schedule_files(case_of(harness_of("items: {}\n")), "M") == {}


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(LayoutError):
        schedule_files(sample(), "M", ["pdf"], ["tools"], paper="A9")


def test_nothing_that_the_file_says_runs_anywhere() -> None:
    case = case_of(harness_of(HOSTILE))
    files = schedule_files(case, "M")
    for path, content in files.items():
        if path.endswith(".csv"):
            for row in csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")):
                for cell in row:
                    try:
                        float(cell)
                    except ValueError:
                        assert cell[:1] not in ("=", "+", "-", "@", "\t", "\r"), (path, cell)
    for sheet in openpyxl.load_workbook(io.BytesIO(files["schedules.xlsx"])):
        assert {cell.data_type for row in sheet for cell in row} <= {"s", "n"}
    drawn = [svg_text(page) for one in schedules(case) for page in schedule_sheets(case.harness, one, "M")]
    assert drawn
    assert not any("<script>" in text for text in drawn)


PLACE = "a place with a very long name indeed, and then some more of it"
LONG = f"""
places: {{"{PLACE}": {{about: {"x" * 300}}}}}
items:
  S1: {{is: switch, contacts: {{"1-2": on}}, title: {"many words " * 40}, place: "{PLACE}"}}
wires:
  WireWithAnUnbrokenNameOfFiftyLettersAndMoreInIt1234: {{from: S1:1, to: unknown, remarks: {"words " * 400}}}
"""


@pytest.mark.parametrize("name", LISTS)
def test_texts_keep_to_their_place_on_paper(name: str) -> None:
    for case in (sample(), case_of(harness_of(LONG))):
        for schedule in schedules(case, only=[name]):
            pages = schedule_sheets(case.harness, schedule, "ABCDEFGH")
            for page, boxes in zip(pages, text_boxes(pdf_bytes(pages)), strict=True):
                assert smallest_cap_height_mm(boxes) > 2.49
                assert overlaps(boxes) == []
                assert outside(boxes, 15, 5, page.width_mm - 5, page.height_mm - 5) == []


def test_columns_in_which_nothing_stands_take_no_room() -> None:
    case = case_of(harness_of("items: {F1: {is: fuse, rating: 5 A}}\n"))
    (schedule,) = schedules(case, only=["fuses"])
    (boxes,) = text_boxes(pdf_bytes(schedule_sheets(case.harness, schedule, "M")))
    said = " ".join(box.text for box in boxes)
    assert "remarks" in schedule.headings
    assert "remarks" not in said
    assert "rating" in said
