"""Pages as a printer's dots: whole dots stay whole, and the PNG is what other programs read."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from harnessdoc.sheet.bitmap import bitmap
from harnessdoc.sheet.page import WHITE, Page


def dots(page: Page, dpi: int) -> Image.Image:
    image = Image.open(BytesIO(bitmap(page, dpi).png()))
    assert image.mode == "1"
    return image


@pytest.mark.parametrize("dpi", [180, 203, 300, 600])
def test_a_matrix_of_whole_dots_is_exact(dpi: int) -> None:
    dot = 25.4 / dpi
    rows = [[True, False, True], [False, True, False], [True, True, False]]
    page = Page(40 * dot, 30 * dot)
    page.modules(7 * dot, 5 * dot, 4 * dot, rows)
    image = dots(page, dpi)
    assert image.size == (40, 30)
    for y in range(30):
        for x in range(40):
            row, column = (y - 5) // 4, (x - 7) // 4
            black = 0 <= row < 3 and 0 <= column < 3 and rows[row][column]
            assert (image.getpixel((x, y)) == 0) == black


def test_density_and_size_stand_in_the_file() -> None:
    """203 dpi are 203 / 0.0254 = 7992.1 dots a metre; 25.4 x 12.7 mm are 203 x 102 (101.5) dots."""
    made = bitmap(Page(25.4, 12.7), 203)
    assert (made.width, made.height) == (203, 102)
    image = Image.open(BytesIO(made.png()))
    assert image.size == (203, 102)
    assert image.info["dpi"] == pytest.approx((203, 203), abs=0.1)
    assert image.getextrema() == (255, 255)


def test_marks_are_painted_in_order_and_parted_at_half_ink() -> None:
    dot = 25.4 / 300
    page = Page(20 * dot, 20 * dot)
    page.rect(0, 0, 10 * dot, 20 * dot, fill="#000000", stroke="none")
    page.rect(2 * dot, 2 * dot, 4 * dot, 4 * dot, fill=WHITE, stroke="none")
    page.rect(10 * dot, 0, 10 * dot, 10 * dot, fill="#707070", stroke="none")
    page.rect(10 * dot, 10 * dot, 10 * dot, 10 * dot, fill="#909090", stroke="none")
    image = dots(page, 300)
    assert [image.getpixel(at) for at in ((0, 0), (3, 3), (15, 5), (15, 15))] == [0, 255, 0, 255]


def test_text_is_drawn() -> None:
    page = Page(30, 8)
    page.text(1, 6, "W12", 5.0, bold=True)
    image = dots(page, 300).convert("L").point(lambda level: 255 - level)
    box = image.getbbox()
    assert box is not None
    assert (box[3] - box[1]) * 25.4 / 300 == pytest.approx(5.0, abs=0.15)  # round letters reach 0.02 over


def test_the_same_page_the_same_bytes_and_the_page_is_left_as_it_was() -> None:
    page = Page(10, 10)
    page.text(1, 5, "A", 2.5)
    page.modules(5, 5, 0.5, [[True]])
    marks = list(page.marks)
    assert bitmap(page, 203).png() == bitmap(page, 203).png()
    assert page.marks == marks
