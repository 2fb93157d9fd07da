"""Wire colours on paper: sRGB values by IEC 60757 code, and the sleeve a drawn wire wears.

Own values, picked to be told apart on screen and paper; the outline and the code beside it carry the
meaning when printed in black and white. Knows codes only, no wires.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

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


def ink(code: str) -> str | None:
    """Return the sRGB value of a colour code, or None for one that is unknown."""
    return INKS.get(code.strip().upper())


def contrast(colour: str) -> str:
    """Return black or white, whichever stands out more on an sRGB colour (relative luminance, WCAG 2.1)."""
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return BLACK if (luminance + 0.05) ** 2 > 1.05 * 0.05 else WHITE


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

    Base colour with each tracer as a slanted stripe across; an unknown colour is white with a "?".
    """
    base = ink(base_code)
    left, top = -length / 2, -height / 2
    with page.group(x=x, y=y, rotate=angle):
        page.rect(left, top, length, height, fill=base or WHITE, stroke="none")
        for index, code in enumerate(tracer_codes):
            middle = left + length * (index + 1) / (len(tracer_codes) + 1)
            _stripe(page, middle, length / (2 * len(tracer_codes) + 2), height, ink(code), contrast(base or WHITE))
            if ink(code) is None:
                _question(page, middle, height, angle)
        page.rect(left, top, length, height, stroke=BLACK, stroke_mm=OUTLINE_MM)
        if base is None:
            _question(page, left + length / 8 if tracer_codes else 0, height, angle)


def _question(page: Page, x: float, height: float, angle: float) -> None:
    """A "?" centred in the band at x, never upside down, 2.5 mm tall where the band has room."""
    letter_mm = 2.5 if height >= 2.6 else height * 0.9
    turned = 90 < angle % 360 < 270
    y = -letter_mm / 2 if turned else letter_mm / 2
    page.text(x, y, "?", letter_mm, bold=True, anchor="middle", rotate=180 if turned else 0)


def _stripe(page: Page, middle: float, width: float, height: float, colour: str | None, edge: str) -> None:
    """One tracer stripe, leaning over by half the band's height, edged so that it shows on any base."""
    lean = min(height / 4, abs(width) / 2)
    points = [
        (middle - width / 2 - lean, height / 2),
        (middle - width / 2 + lean, -height / 2),
        (middle + width / 2 + lean, -height / 2),
        (middle + width / 2 - lean, height / 2),
    ]
    page.polyline(points, closed=True, fill=colour or WHITE, stroke=edge, stroke_mm=OUTLINE_MM)
