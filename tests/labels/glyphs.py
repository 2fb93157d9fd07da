"""Digits of the carried typeface as squares of dots, their ink stretched to the square."""

from __future__ import annotations

from PIL import Image, ImageDraw, ImageFont

from tests.labels.ink import FONTS

SIDE = 40


def digit_dots(digit: str) -> list[list[bool]]:
    """Ink of a digit, cut out and scaled to SIDE x SIDE dots."""
    font = ImageFont.truetype(str(FONTS / "DejaVuSansCondensed-Bold.ttf"), 120)
    image = Image.new("L", (200, 200), 0)
    ImageDraw.Draw(image).text((40, 20), digit, font=font, fill=255)
    box = image.getbbox()
    assert box is not None
    small = image.crop(box).resize((SIDE, SIDE))
    return [[small.getpixel((x, y)) > 128 for x in range(SIDE)] for y in range(SIDE)]
