"""Where the ink of a text lies, from the outlines in the carried font file: independent of the package's measuring."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

FONTS = Path(__file__).resolve().parents[2] / "harnessdoc" / "sheet" / "fonts"


class Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box, slack: float = 1e-6) -> bool:
        return (
            self.left < other.right - slack
            and other.left < self.right - slack
            and self.top < other.bottom - slack
            and other.top < self.bottom - slack
        )

    def inside(self, width: float, height: float, slack: float = 1e-6) -> bool:
        return (
            self.left >= -slack and self.top >= -slack and self.right <= width + slack and self.bottom <= height + slack
        )


@cache
def _font(bold: bool) -> tuple[Any, dict[int, str], float]:
    font = TTFont(FONTS / ("DejaVuSansCondensed-Bold.ttf" if bold else "DejaVuSansCondensed.ttf"))
    glyphs = font.getGlyphSet()
    pen = BoundsPen(glyphs)
    glyphs["H"].draw(pen)
    return glyphs, font.getBestCmap(), pen.bounds[3]


@cache
def _glyph(sign: str, bold: bool) -> tuple[float, tuple[float, float, float, float] | None]:
    glyphs, names, capital = _font(bold)
    name = names.get(ord(sign), ".notdef")
    pen = BoundsPen(glyphs)
    glyphs[name].draw(pen)
    bounds = None if pen.bounds is None else tuple(one / capital for one in pen.bounds)
    return glyphs[name].width / capital, bounds


def ink(x: float, y: float, text: str, height_mm: float, bold: bool) -> Box:
    """The smallest box round the ink of a text that starts at x on the base line y, mm."""
    at, boxes = 0.0, []
    for sign in text:
        wide, bounds = _glyph(sign, bold)
        if bounds is not None:
            boxes.append((at + bounds[0], bounds[1], at + bounds[2], bounds[3]))
        at += wide
    if not boxes:
        return Box(x, y, x, y)
    return Box(
        x + min(one[0] for one in boxes) * height_mm,
        y - max(one[3] for one in boxes) * height_mm,
        x + max(one[2] for one in boxes) * height_mm,
        y - min(one[1] for one in boxes) * height_mm,
    )
