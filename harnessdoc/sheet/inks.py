"""Wire colours on paper: sRGB values by IEC 60757 code, their hatching, and the sleeve a drawn wire wears.

Own values, picked to be told apart on screen and paper; the hatching (`hatching`), the outline and the code
beside it carry the meaning when printed in black and white. Knows codes only, no wires.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Final, NamedTuple

from harnessdoc.sheet import hatching
from harnessdoc.sheet.lettering import SMALLEST_MM
from harnessdoc.sheet.page import BLACK, WHITE, Page

# Codes: IEC 60757. Values: own choice.
INKS: Final = {
    "BK": "#1a1a1a",
    "BN": "#7a4a21",
    "RD": "#d32020",
    "OG": "#f08a1c",
    "YE": "#f7d917",
    "GN": "#2c8f3c",
    "BU": "#2160c4",
    "VT": "#7b3fa0",
    "GY": "#8e9396",
    "WH": WHITE,
    "PK": "#f4a6bf",
    "TQ": "#35b8b0",
    "GD": "#c9a227",
    "SR": "#c9ced1",
    "TAN": "#d3b08c",
    "BEIGE": "#ece0b8",
}
OUTLINE_MM: Final = 0.18
_TOWARDS: Final = 0.5  # own choice: how far the hatching's tone goes to black or white


def ink(code: str) -> str | None:
    """Return the sRGB value of a colour code, or None for one that is unknown."""
    return INKS.get(code.strip().upper())


def luminance(colour: str) -> float:
    """Return the relative luminance of an sRGB colour, 0 to 1 (WCAG 2.1, definition of relative luminance)."""
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@cache
def contrast(colour: str) -> str:
    """Return black or white, whichever stands out more on an sRGB colour (WCAG 2.1 contrast ratio)."""
    return BLACK if (luminance(colour) + 0.05) ** 2 > 1.05 * 0.05 else WHITE


@cache
def tone(colour: str) -> str:
    """Return the darker or lighter tone of an sRGB colour that its hatching is drawn in."""
    towards = contrast(colour)
    mixed = (
        round(int(colour[at : at + 2], 16) * (1 - _TOWARDS) + int(towards[at : at + 2], 16) * _TOWARDS)
        for at in (1, 3, 5)
    )
    return "#" + "".join(f"{channel:02x}" for channel in mixed)


def hatch(page: Page, code: str, outline: Sequence[tuple[float, float]]) -> None:
    """Draw the hatching of a code inside a convex outline (mm) that is filled with its ink; none for an unknown one."""
    key = code.strip().upper()
    for family in hatching.PATTERNS.get(key, ()):
        _hatch(page, family, INKS[key], outline)


def _hatch(page: Page, family: hatching.Family, fill: str, outline: Sequence[tuple[float, float]]) -> None:
    """One family of strokes; worked out round the outline's first point, so that equal outlines share the work."""
    x, y = outline[0]
    shape = tuple((round(px - x, 3), round(py - y, 3)) for px, py in outline)
    page.strokes(
        [
            (round(x + x1, 2), round(y + y1, 2), round(x + x2, 2), round(y + y2, 2))  # 0.01 mm: short in the file
            for x1, y1, x2, y2 in hatching.strokes(family, shape)
        ],
        stroke=tone(fill),
        stroke_mm=hatching.DOT_MM if family.dotted else hatching.LINE_MM,
        cap="round" if family.dotted else "butt",
    )


def sleeve(
    page: Page,
    x: float,
    y: float,
    length: float,
    height: float,
    base_code: str,
    tracer_codes: Sequence[str] = (),
    angle: float = 0.0,
) -> None:
    """Draw the short outlined band round (x, y), `length` along the wire and `height` across, mm.

    Base colour with each tracer as a slanted stripe across, all hatched; an unknown colour is white with a "?".
    """
    base = ink(base_code)
    place = _Place(x, y, math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    half, rise = length / 2, height / 2
    band = place.all([(-half, -rise), (half, -rise), (half, rise), (-half, rise)])
    _patch(page, band, base_code, "none")
    for index, code in enumerate(tracer_codes):
        middle = length * ((index + 1) / (len(tracer_codes) + 1) - 0.5)
        stripe = place.all(_stripe(middle, length / (2 * len(tracer_codes) + 2), height))
        _patch(page, stripe, code, contrast(base or WHITE))
        if ink(code) is None:
            _question(page, place, middle, angle)
    page.polyline(band, closed=True, stroke=BLACK, stroke_mm=OUTLINE_MM)
    if base is None:
        _question(page, place, length / 8 - half if tracer_codes else 0, angle)


class _Place(NamedTuple):
    """Where a band lies: its middle, and the cosine and sine of its angle."""

    x: float
    y: float
    cosine: float
    sine: float

    def at(self, along: float, across: float) -> tuple[float, float]:
        """A point of the band on the page."""
        return (
            self.x + along * self.cosine - across * self.sine,
            self.y + along * self.sine + across * self.cosine,
        )

    def all(self, points: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
        """Points of the band on the page."""
        return [self.at(along, across) for along, across in points]


def _patch(page: Page, outline: Sequence[tuple[float, float]], code: str, edge: str) -> None:
    """An outline filled and hatched as a code has it (white if unknown), then edged."""
    page.polyline(outline, closed=True, fill=ink(code) or WHITE, stroke="none")
    hatch(page, code, outline)
    if edge != "none":
        page.polyline(outline, closed=True, stroke=edge, stroke_mm=OUTLINE_MM)


def _question(page: Page, place: _Place, along: float, angle: float) -> None:
    """A "?" centred in the band, never upside down; a band under 2.6 mm is too low to hold it whole."""
    letter_mm = SMALLEST_MM
    turned = 90 < angle % 360 < 270
    x, y = place.at(along, -letter_mm / 2 if turned else letter_mm / 2)
    page.text(x, y, "?", letter_mm, bold=True, anchor="middle", rotate=(angle + 180) % 360 if turned else angle)


def _stripe(middle: float, width: float, height: float) -> list[tuple[float, float]]:
    """One tracer stripe, leaning over by half the band's height."""
    lean = min(height / 4, abs(width) / 2)
    return [
        (middle - width / 2 - lean, height / 2),
        (middle - width / 2 + lean, -height / 2),
        (middle + width / 2 + lean, -height / 2),
        (middle + width / 2 - lean, height / 2),
    ]
