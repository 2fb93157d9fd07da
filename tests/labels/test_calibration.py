"""The calibration page, rendered and measured: rulers of 100 mm, outlines where the stock has its labels."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from harnessdoc.labels.calibration import calibration_page
from harnessdoc.labels.stock import names, read_stock
from harnessdoc.sheet.output import pdf_bytes, png_bytes
from tests.sheet.measure import overlaps, text_boxes

DPI = 600
DOT = 25.4 / DPI


def rendered(name: str, offset: tuple[float, float] = (0.0, 0.0)) -> Image.Image:
    return Image.open(BytesIO(png_bytes(calibration_page(read_stock(name), offset), DPI))).convert("L")


def dark(image: Image.Image, box: tuple[float, float, float, float]) -> Image.Image:
    """A part of the picture in mm, ink white on black, so that its bounding box is that of the ink."""
    return image.crop(tuple(round(one / DOT) for one in box)).point(lambda level: 255 if level < 128 else 0)


@pytest.mark.parametrize("offset", [(0.0, 0.0), (0.7, -0.4)])
def test_rulers_are_100_mm_long_both_ways(offset: tuple[float, float]) -> None:
    """Panel of 150 x 166 mm in the middle of A4; its ruler begins 28 mm from the panel's left edge."""
    image = rendered("a4-65-38x21", offset)
    left = (210 - 150) / 2 + 28 + offset[0]
    column = dark(image, (left - 0.05, 60, left + 0.05, 260))
    ink = [column.getpixel((1, y)) > 0 for y in range(column.height)]
    runs = [len(run) for run in "".join("#" if one else " " for one in ink).split()]
    assert max(runs) * DOT == pytest.approx(100, abs=0.3)  # first and last tick are 0.2 mm thick
    top = 60 + "".join("#" if one else " " for one in ink).index("#" * max(runs)) * DOT
    across = dark(image, (left - 2, top + 0.05, left + 110, top + 0.15)).getbbox()
    assert across is not None
    assert (across[2] - across[0]) * DOT == pytest.approx(100, abs=0.3)
    assert left - 2 + across[0] * DOT == pytest.approx(left, abs=0.2)


@pytest.mark.parametrize("offset", [(0.0, 0.0), (0.7, -0.4)])
def test_outlines_lie_where_the_stock_has_its_labels(offset: tuple[float, float]) -> None:
    """38.1 x 21.2 mm, first at 4.75, 10.7, pitch 40.6 and 21.2 mm, 5 x 13, by hand; within 0.1 mm."""
    image = rendered("a4-65-38x21", offset)
    for column, row in ((0, 0), (4, 12), (0, 12), (4, 0)):
        x, y = 4.75 + 40.6 * column + offset[0], 10.7 + 21.2 * row + offset[1]
        middle = y + 10.6
        edge = dark(image, (x - 1, middle - 0.5, x + 1, middle + 0.5)).getbbox()
        assert edge is not None
        assert x - 1 + (edge[0] + edge[2]) / 2 * DOT == pytest.approx(x, abs=0.1)
        across = dark(image, (x + 18, y - 1, x + 19, y + 1)).getbbox()
        assert across is not None
        assert y - 1 + (across[1] + across[3]) / 2 * DOT == pytest.approx(y, abs=0.1)


@pytest.mark.parametrize("name", names())
def test_every_stock_but_sleeves_has_a_sound_page(name: str) -> None:
    stock = read_stock(name)
    if stock.form == "sleeve":
        with pytest.raises(ValueError, match="print one piece"):
            calibration_page(stock)
        return
    page = calibration_page(stock)
    (boxes,) = text_boxes(pdf_bytes([page]))
    assert not overlaps(boxes)
    assert {"0", "50", "100"} <= {box.text for box in boxes}
    for box in boxes:
        assert box.x0 >= 0
        assert box.x1 <= page.width_mm
        assert box.y0 >= 0
        assert box.y1 <= page.height_mm
        assert box.cap_mm >= (1.79 if stock.form == "tape" else 2.49)


def test_an_offset_beyond_calibration_is_refused() -> None:
    for offset in ((10.1, 0.0), (0.0, -11.0), (float("nan"), 0.0)):
        with pytest.raises(ValueError, match="at most 10 mm"):
            calibration_page(read_stock("a4-65-38x21"), offset)
