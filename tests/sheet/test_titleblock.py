"""The title block: 180 mm wide, texts as large as their field allows."""

from __future__ import annotations

import pytest

from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titleblock import HEIGHT_MM, WIDTH_MM, TitleBlock, block_size_mm, draw_title_block
from tests.sheet.measure import TextBox, outside, overlaps, smallest_cap_height_mm, text_boxes


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
        "1 of 1",
    }


LONG_NUMBER = "ORCHARD-SPRAYER/OS-01-DRAWING-42.0007-REV.B-CONTROL-LOOM-LEFT-AND-RIGHT"


@pytest.mark.parametrize("room", [116, 150, 180, 185.9])
def test_a_number_longer_than_its_field_goes_on_below(room: float) -> None:
    """71 characters are all there, in lines that break after a hyphen, a slash or a point, the block grown for them."""
    title = TitleBlock("Loom " * 30, LONG_NUMBER, "d", legal_owner="Orchard and Nursery Cooperative of the Valley Ltd.")
    width, height = block_size_mm(title, room, 150)
    assert width == min(room, 180)
    page = Page(200, 200)
    draw_title_block(page, Rect(10, 10, width, height), title)
    (boxes,) = text_boxes(pdf_bytes([page]))
    assert outside(boxes, 10, 10, 10 + width, 10 + height) == []
    assert overlaps(boxes, 0.0) == []
    lines = [box.text for box in boxes if box.text in LONG_NUMBER and len(box.text) > 9]
    assert "".join(lines) == LONG_NUMBER
    assert all(line[-1] in "-/." for line in lines[:-1])
    assert smallest_cap_height_mm(boxes) >= 2.499


def test_what_has_no_room_at_all_ends_with_dots() -> None:
    """A title without end is shortened visibly once the block has all the height that it may take."""
    width, height = block_size_mm(TitleBlock("Gj" * 999, "N" * 999, "d"), 180, 60)
    assert (width, height <= 60) == (180, True)
    page = Page(200, 100)
    draw_title_block(page, Rect(10, 10, width, height), TitleBlock("Gj" * 999, "N" * 999, "d"))
    assert sum(box.text.endswith("…") for box in text_boxes(pdf_bytes([page]))[0]) == 2


def test_no_block_without_room() -> None:
    """Said with the figures."""
    with pytest.raises(ValueError, match=r"116 mm at least, and there are 100\.0"):
        block_size_mm(TitleBlock("t", "n", "d"), 100, 100)
    with pytest.raises(ValueError, match=r"38\.0 mm of height, and there are 30\.0"):
        block_size_mm(TitleBlock("t", "n", "d"), 180, 30)
