"""Wire colours on paper."""

from __future__ import annotations

import io
from itertools import combinations

import pytest
from PIL import Image

from harnessdoc.sheet.inks import INKS, contrast, ink, sleeve
from harnessdoc.sheet.output import pdf_bytes, png_bytes
from harnessdoc.sheet.page import Page
from tests.sheet.measure import text_boxes


def test_every_code_has_an_ink() -> None:
    """IEC 60757 letter codes, typed from the standard's table as reference pages give it."""
    for code in ("BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"):
        assert ink(code) is not None
    assert ink("rd") == ink("RD")
    assert ink("unknown") is None


def test_inks_differ() -> None:
    """No two look the same: 60 or more apart in summed sRGB steps."""
    for (_, a), (_, b) in combinations(INKS.items(), 2):
        steps = sum(abs(int(a[at : at + 2], 16) - int(b[at : at + 2], 16)) for at in (1, 3, 5))
        assert steps >= 60


@pytest.mark.parametrize(
    ("colour", "text"), [("#000000", "#ffffff"), ("#ffffff", "#000000"), ("#f7d917", "#000000"), ("#2160c4", "#ffffff")]
)
def test_contrast(colour: str, text: str) -> None:
    """WCAG 2.1 contrast: black has (L + 0.05) / 0.05, white 1.05 / (L + 0.05); they are equal at L = 0.179."""
    assert contrast(colour) == text


def _dots(*tracers: str, base: str = "YE", angle: float = 0) -> Image.Image:
    page = Page(20, 10)
    sleeve(page, 10, 5, 12, 3, base, tracers, angle)
    return Image.open(io.BytesIO(png_bytes(page, 254))).convert("RGB")  # 10 dots a mm


def test_sleeve_shows_base_tracer_and_outline() -> None:
    """Base left and right, tracer in the middle, black all round, by the dot (beside the hatching)."""
    image = _dots("RD")
    assert image.getpixel((65, 50)) == (0xF7, 0xD9, 0x17)
    assert image.getpixel((135, 50)) == (0xF7, 0xD9, 0x17)
    assert image.getpixel((104, 50)) == (0xD3, 0x20, 0x20)
    for dot in ((40, 50), (100, 35), (100, 64), (159, 50)):
        assert max(image.getpixel(dot)) < 128


def test_two_tracers_are_both_seen() -> None:
    """A third and two thirds along, by dots beside their hatching."""
    image = _dots("RD", "BU")
    assert image.getpixel((84, 50)) == (0xD3, 0x20, 0x20)
    assert image.getpixel((120, 46)) == (0x21, 0x60, 0xC4)


def test_a_white_sleeve_still_has_an_outline() -> None:
    """White never vanishes."""
    image = _dots(base="WH")
    assert image.getpixel((100, 50)) == (255, 255, 255)
    assert max(image.getpixel((100, 35))) < 128


@pytest.mark.parametrize("angle", [0, 90, 180, -90])
def test_unknown_colour_says_so(angle: float) -> None:
    """White with a question mark, inside the band whichever way it runs."""
    page = Page(20, 20)
    sleeve(page, 10, 10, 12, 3.2, "unknown", (), angle)
    (box,) = text_boxes(pdf_bytes([page]))[0]
    assert box.text == "?"
    assert (box.x0 + box.x1) / 2 == pytest.approx(10, abs=0.3)
    assert (box.y0 + box.y1) / 2 == pytest.approx(10, abs=0.3)
    assert abs(box.angle) <= 90


def test_an_unknown_tracer_is_no_white_one() -> None:
    """An unknown tracer wears a question mark of its own; an unknown base beside a tracer keeps its own too."""
    page = Page(40, 20)
    sleeve(page, 10, 10, 12, 3, "RD", ["??"])
    sleeve(page, 30, 10, 12, 3, "??", ["??"])
    boxes = text_boxes(pdf_bytes([page]))[0]
    assert [box.text for box in boxes] == ["?"] * 3
    assert sorted(round((box.x0 + box.x1) / 2, 1) for box in boxes) == pytest.approx([10, 25.5, 30], abs=0.2)
