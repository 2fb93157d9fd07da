"""What the rendered sheets look like to a stranger: nothing overlaps, nothing leaves its sheet, nothing is small."""

from functools import cache

import pytest

from harnessdoc.drawing.faces import face_sheets
from harnessdoc.drawing.harness_drawing import harness_sheets
from harnessdoc.drawing.survey import survey_sheets
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import crossed, straight_lines
from tests.drawing.samples import harness
from tests.sheet.measure import TextBox, outside, overlaps, smallest_cap_height_mm, text_boxes

NAMES = ("small", "awkward", "sample", "large")


@cache
def _pages(name: str) -> list[Page]:
    shown = harness(name)
    pages = harness_sheets(shown, route_harness(shown), "0A1B-2C3D")
    for plug in list(shown.plugs)[:3]:
        pages += face_sheets(shown, plug, "0A1B-2C3D") + survey_sheets(shown, plug, "0A1B-2C3D")
    return pages


@cache
def _pdf(name: str) -> bytes:
    return pdf_bytes(_pages(name))


@cache
def _boxes(name: str) -> list[list[TextBox]]:
    return text_boxes(_pdf(name))


@pytest.mark.parametrize("name", NAMES)
def test_no_two_texts_overlap(name: str) -> None:
    found = [(number, a.text, b.text) for number, boxes in enumerate(_boxes(name), 1) for a, b in overlaps(boxes)]
    assert found == []


@pytest.mark.parametrize("name", NAMES)
def test_no_line_runs_through_a_text(name: str) -> None:
    found = [
        (number, *hit)
        for number, (boxes, lines) in enumerate(zip(_boxes(name), straight_lines(_pdf(name)), strict=True), 1)
        for hit in crossed(boxes, lines)
    ]
    assert found == []


@pytest.mark.parametrize("name", NAMES)
def test_no_text_is_under_2_5_mm_or_outside_the_border(name: str) -> None:
    """ISO 5457 borders: 20 mm left, 10 mm elsewhere, with a 5 mm strip for the zones."""
    for page, boxes in zip(_pages(name), _boxes(name), strict=True):
        assert smallest_cap_height_mm(boxes) >= 2.49
        assert outside(boxes, 15.0, 5.0, page.width_mm - 5.0, page.height_mm - 5.0) == []


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
