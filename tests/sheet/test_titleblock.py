"""The title block: 180 mm wide, texts as large as their field allows."""

from __future__ import annotations

import pytest

from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titleblock import HEIGHT_MM, WIDTH_MM, TitleBlock, draw_title_block
from tests.sheet.measure import TextBox, outside, text_boxes


def _drawn(title: TitleBlock) -> list[TextBox]:
    page = Page(200, 60)
    draw_title_block(page, Rect(10, 10, WIDTH_MM, HEIGHT_MM), title)
    boxes = text_boxes(pdf_bytes([page]))[0]
    assert outside(boxes, 10, 10, 10 + 180, 10 + HEIGHT_MM) == []
    return boxes


def test_width() -> None:
    """ISO 7200: 180 mm (Austrian textbook figure), which fits the A4 drawing space."""
    assert WIDTH_MM == 180


@pytest.mark.parametrize(("number", "height"), [("OS-01", 5), ("OS-01-DRW-42", 3.5), ("OS-01-DRAWING-42", 2.5)])
def test_a_long_number_is_set_smaller_before_it_is_cut(number: str, height: float) -> None:
    """The whole number stays readable (16 characters, as ISO 7200 allows), down the ISO 3098 series."""
    (box,) = [box for box in _drawn(TitleBlock("t", number, "d")) if box.text == number]
    assert box.cap_mm == pytest.approx(height, rel=0.01)


def test_empty_fields_are_left_for_a_pen() -> None:
    """Only labels and "not to scale" stand in a block that knows nothing else."""
    texts = {box.text for box in _drawn(TitleBlock("", "", ""))}
    assert texts == {
        "Legal owner",
        "Created by",
        "Approved by",
        "Scale",
        "not to scale",
        "Content mark",
        "Document type",
        "Title",
        "Supplementary title",
        "Number",
        "Date of issue",
        "Rev.",
        "Sheet",
        "1 / 1",
    }
