"""What the rendered sheets look like to a stranger: nothing overlaps, nothing leaves its place, nothing is small, and
each wire is shown at both its ends with the model's length."""

from functools import cache

import pytest

from harnessdoc.drawing.faces import face_sheets
from harnessdoc.drawing.harness_drawing import harness_sheets
from harnessdoc.drawing.survey import survey_sheets
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import Drawn, crossed, read_drawn, straight_lines
from tests.drawing.samples import harness
from tests.drawing.sheet_check import spacing_faults, wire_faults
from tests.sheet.measure import overlaps, smallest_cap_height_mm, text_boxes

MARK = "0A1B-2C3D"
PLUGS = 3  # of so many plugs, the largest among them, the pin-out and survey sheets are looked at


@cache
def _drawing(name: str) -> list[Drawn]:
    shown = harness(name)
    return read_drawn(pdf_bytes(harness_sheets(shown, route_harness(shown), MARK)))


def _plug_sheets(name: str) -> list[Drawn]:
    shown = harness(name)
    plugs = sorted(shown.plugs, key=lambda plug: -len(shown.plugs[plug].terminals))[:PLUGS]
    pages: list[Page] = []
    for plug in plugs:
        pages += face_sheets(shown, plug, MARK) + survey_sheets(shown, plug, MARK)
    return read_drawn(pdf_bytes(pages)) if pages else []


# all that is asked of one harness in one test, so that its sheets are read once however the tests are dealt out


@pytest.mark.parametrize("name", ["six", "small", "awkward", "sample", "large", "big"])
def test_nothing_overlaps_or_leaves_its_place_on_the_harness_drawing(name: str) -> None:
    sheets = _drawing(name)
    assert {kind: found for kind, found in spacing_faults(sheets).items() if found} == {}
    if name in ("six", "sample", "big"):
        assert {kind: found for kind, found in wire_faults(harness(name), sheets).items() if found} == {}


@pytest.mark.parametrize("name", ["six", "small", "awkward", "sample", "large", "big"])
def test_nothing_overlaps_or_leaves_its_place_on_sheets_of_plugs(name: str) -> None:
    assert {kind: found for kind, found in spacing_faults(_plug_sheets(name)).items() if found} == {}


def test_letters_are_at_least_2_5_mm() -> None:
    assert min(smallest_cap_height_mm(drawn.texts) for drawn in _drawing("six")) >= 2.49


def test_the_same_harness_gives_the_same_bytes() -> None:
    shown = harness("sample")
    again = pdf_bytes(harness_sheets(shown, route_harness(shown), "m"))
    assert again == pdf_bytes(harness_sheets(shown, route_harness(shown), "m"))


def test_the_check_sees_a_line_through_a_text_and_two_texts_on_one_another() -> None:
    """The yardstick itself: one line through a word, one beside another, one word on another."""
    page = Page(100, 50)
    page.text(10, 10, "through")
    page.line(5, 8.8, 60, 8.8)
    page.text(10, 20, "beside")
    page.line(5, 21, 60, 21)
    page.text(10, 30, "first")
    page.text(11, 31, "second")
    pdf = pdf_bytes([page])
    boxes = text_boxes(pdf)[0]
    assert [text for text, _ in crossed(boxes, straight_lines(pdf)[0])] == ["through"]
    assert [(a.text, b.text) for a, b in overlaps(boxes)] == [("first", "second")]
