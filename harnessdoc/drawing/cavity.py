"""One cavity on a pin-out sheet: its number, its wire's colours as a filled segment, its code beneath.

Knows colours and outlines, no harness.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.face_picture import EMPTY_DASH, STUB_GREY
from harnessdoc.model.colours import Colour
from harnessdoc.sheet import inks, lettering
from harnessdoc.sheet.grid import TEXT_MM
from harnessdoc.sheet.page import WHITE, Page

_LINE_MM: Final = 0.35
_THIN_MM: Final = 0.18
_SPLIT: Final = 0.12  # where the colour segment begins, in diameters under the middle
_CODE_MM: Final = TEXT_MM + 1.0  # room for a code under a cavity
_BETWEEN_MM: Final = 1.2
_STEPS: Final = 8


@dataclass(frozen=True, slots=True)
class CavityStyle:
    """Diameter of all cavities of a face on paper, height of their numbers, and whether codes fit under them."""

    across_mm: float
    number_mm: float
    coded: bool


def style_for(pitch_mm: float, names: Sequence[str], codes: Sequence[str]) -> CavityStyle | None:
    """Return how cavities `pitch_mm` apart are drawn; None if not even their numbers have room at 2.5 mm."""
    widest = max((lettering.text_width_mm(code, TEXT_MM) for code in codes), default=0.0)
    with_codes = pitch_mm - _CODE_MM - _BETWEEN_MM
    if codes and widest + 0.8 <= pitch_mm and (style := _numbered(with_codes, names, True)):
        return style
    return _numbered(pitch_mm - _BETWEEN_MM, names, False)


def _numbered(across: float, names: Sequence[str], coded: bool) -> CavityStyle | None:
    for height in (3.5, 2.5):
        widest = max(lettering.text_width_mm(name, height, True) for name in names)
        if across > 0 and _fits(across, widest, height):
            return CavityStyle(across, height, coded)
    return None


def _fits(across: float, width: float, height: float) -> bool:
    """Whether a number stands above the segment, inside the circle: its upper corners decide."""
    top = height - _SPLIT * across + 0.5
    return top > 0 and math.hypot(width / 2 + 0.3, top) <= across / 2 - _LINE_MM / 2 and across >= 6.0


def draw_cavity(
    page: Page,
    x: float,
    y: float,
    name: str,
    shape: str,
    style: CavityStyle,
    *,
    colours: Sequence[Colour | None] = (),
    stub: bool = False,
    empty: bool = False,
    code: str = "",
) -> None:
    """Draw a cavity round (x, y). A stub's upper part is grey, an empty one dashed, an unknown colour a ?."""
    half = style.across_mm / 2
    fill, dash = (STUB_GREY if stub else WHITE), (EMPTY_DASH if empty else ())
    if shape == "round":
        page.circle(x, y, half, fill=fill, stroke="none")
    else:
        page.rect(x - half, y - half, 2 * half, 2 * half, fill=fill, stroke="none")
    if colours:
        _draw_segment(page, x, y, shape, style, colours)
    if shape == "round":
        page.circle(x, y, half, stroke_mm=_LINE_MM, dash=dash)
    else:
        page.rect(x - half, y - half, 2 * half, 2 * half, radius=0.4, stroke_mm=_LINE_MM, dash=dash)
    base = y + style.across_mm * _SPLIT - 0.5
    page.text(x, base, name, style.number_mm, bold=True, anchor="middle")
    if style.coded and code:
        page.text(x, y + half + _CODE_MM - 0.4, code, TEXT_MM, anchor="middle")


def _draw_segment(
    page: Page, x: float, y: float, shape: str, style: CavityStyle, colours: Sequence[Colour | None]
) -> None:
    """The lower part, one share a wire, each in its base colour with its tracers as upright stripes."""
    half, split = style.across_mm / 2, style.across_mm * _SPLIT
    reach = math.sqrt(half**2 - split**2) if shape == "round" else half
    share = 2 * reach / len(colours)
    for index, colour in enumerate(colours):
        left = -reach + index * share
        for start, end, code in _stripes(left, left + share, colour):
            outline = _under(start, end, split, half, shape)
            fill = (inks.ink(code) if code else None) or WHITE
            page.polyline([(x + dx, y + dy) for dx, dy in outline], closed=True, fill=fill, stroke_mm=_THIN_MM)
        unknown = colour is None or inks.ink(colour.base) is None
        if unknown and share >= 2.2 and half - split >= TEXT_MM + 0.3:
            base = y + split + (half - split + TEXT_MM) / 2 - 0.1
            page.text(x + left + share / 2, base, "?", TEXT_MM, bold=True, anchor="middle")


def _stripes(left: float, right: float, colour: Colour | None) -> list[tuple[float, float, str]]:
    """A wire's share parted into base and tracers: base, tracer, base, tracer, base."""
    if colour is None or not colour.tracers:
        return [(left, right, colour.base if colour else "")]
    codes = [colour.base]
    for tracer in colour.tracers:
        codes += [tracer, colour.base]
    width = (right - left) / len(codes)
    return [(left + index * width, left + (index + 1) * width, code) for index, code in enumerate(codes)]


def _under(start: float, end: float, split: float, half: float, shape: str) -> list[tuple[float, float]]:
    """The outline of a stripe between the split and the cavity's lower edge."""
    if shape != "round":
        return [(start, split), (end, split), (end, half), (start, half)]
    along = [start + (end - start) * step / _STEPS for step in range(_STEPS, -1, -1)]
    return [(start, split), (end, split), *((dx, math.sqrt(max(half**2 - dx**2, 0.0))) for dx in along)]
