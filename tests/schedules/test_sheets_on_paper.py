"""Meter and operation sheets on the rendered page: nothing small, nothing overlapping, nothing outside its frame."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness
from harnessdoc.schedules.meter_sheet import meter_sheets
from harnessdoc.schedules.operation_sheet import operation_sheets
from harnessdoc.sheet.output import pdf_bytes, svg_text
from harnessdoc.sheet.page import Page
from tests.electrics.written import SAMPLE, SMALL, TO_STOP, harness_of, study_of
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes

Sheets = Callable[[Harness, Study, str], list[Page]]
KINDS = pytest.mark.parametrize("sheets", [meter_sheets, operation_sheets], ids=["meter", "operation"])
LONG = TO_STOP.replace("S1", "S1 with a long name").replace("M1", "MotorOfTheBigPump").replace(
    "splices:", "circuits: {c: {title: " + "many words " * 20 + ", items: [MotorOfTheBigPump]}}\nsplices:"
)  # fmt: skip


@KINDS
@pytest.mark.parametrize("which", ["sample", "small", "long"])
def test_texts_keep_to_their_place(sheets: Sheets, which: str) -> None:
    harness = harness_of(LONG) if which == "long" else read_harness(SAMPLE if which == "sample" else SMALL)
    pages = sheets(harness, study_of(harness), "ABCDEFGH")
    assert pages
    for boxes in text_boxes(pdf_bytes(pages)):
        assert smallest_cap_height_mm(boxes) > 2.49
        assert overlaps(boxes) == []
        assert outside(boxes, 15, 5, 205, 292) == []


@KINDS
def test_the_same_harness_gives_the_same_sheet(sheets: Sheets) -> None:
    first, second = (
        [svg_text(page) for page in sheets(harness, study_of(harness), "M")]
        for harness in map(read_harness, [SMALL] * 2)
    )
    assert first == second


@KINDS
def test_nothing_to_say_is_no_sheet(sheets: Sheets) -> None:
    harness = harness_of("items: {X1: {is: terminal strip}}\n")
    assert sheets(harness, study_of(harness), "M") == []


@KINDS
def test_what_the_file_says_is_escaped(sheets: Sheets) -> None:
    harness = harness_of(TO_STOP.replace("splices:", "circuits: {c: {title: '<b>&', items: [M1]}}\nsplices:"))
    text = "".join(svg_text(page) for page in sheets(harness, study_of(harness), "M"))
    assert "<b>" not in text


def texts(pages: list[Page]) -> str:
    return " ".join(box.text for boxes in text_boxes(pdf_bytes(pages)) for box in boxes).replace(
        "\N{NO-BREAK SPACE}", " "
    )


def test_tests_are_numbered_through_and_say_what_to_expect() -> None:
    harness = read_harness(SMALL)
    said = texts(meter_sheets(harness, study_of(harness), "M"))
    assert all(f" {number} " in said for number in range(1, 10))
    assert "12.3 V ± 0.9 V" in said
    assert "First power, through a 1 to 3 A fuse, modules unplugged" in said


def test_a_line_that_does_not_hold_and_one_that_is_not_safe() -> None:
    harness = harness_of(TO_STOP.replace("dead: [K1]}", "dead: [M1]}"))
    said = texts(operation_sheets(harness, study_of(harness), "M"))
    assert "does NOT hold: M1 is live" in said
    assert "single faults" in said
