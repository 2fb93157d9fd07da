"""How tall texts on labels are, how far they reach over and under their base line, and the bar under a number.

In mm, or in heights of capitals where it says so. Knows no label.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple
from unicodedata import category

from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect

if TYPE_CHECKING:
    from harnessdoc.labels.rows import Line


class Heights(NamedTuple):
    """Heights of capitals of a label's number and of its other texts, mm."""

    number_mm: float
    body_mm: float


# Tried in turn, the largest that suits the label: ISO 3098 steps but for 4.5, which is what the common small label
# holds above four lines of 2.5.
SIZES_MM: Final = tuple(
    Heights(*one) for one in ((10.0, 5.0), (7.0, 3.5), (5.0, 3.5), (5.0, 2.5), (4.5, 2.5), (3.5, 2.5))
)
SMALLEST_NUMBER_MM: Final = 3.5
SMALLEST_BODY_MM: Final = 2.5
# On sleeves and on tape of 6 mm the smallest step of ISO 3098 is the floor (nominal heights, two pages agree).
SMALL_SIZES_MM: Final = tuple(Heights(*one) for one in ((5.0, 2.5), (3.5, 2.5), (2.5, 1.8), (1.8, 1.8)))
FLOOR_MM: Final = 1.8

# Of the carried typeface, in heights of its capitals: ascenders reach 1.04, descenders 0.32, small letters with
# accents 1.10 (1.22 with a ring), capitals with accents 1.3. Some signs outside ASCII lie low.
_RISE: Final = 1.045
_RISE_SMALL: Final = 1.12
_RISE_ACCENTED: Final = 1.35
DROP: Final = 0.325
_DROP_PLAIN: Final = 0.1  # round letters reach 0.02; the rest is white
_LOW: Final = frozenset("→²³·…°×–")
_TALL: Final = frozenset("åůĥĺ")  # ring or accent on top of what is tall


@lru_cache(maxsize=16384)
def rise(text: str) -> float:
    """Return how far a text reaches over its base line, in heights of capitals."""
    above = [character for character in text if character >= "\x7f" and character not in _LOW]
    if not above:
        return _RISE
    small = all(one < "\u0180" and one not in _TALL and category(one) == "Ll" for one in above)
    return _RISE_SMALL if small else _RISE_ACCENTED


@lru_cache(maxsize=16384)
def drop(text: str) -> float:
    """Return how far a text reaches under its base line, in heights of capitals: next to nothing for W12."""
    plain = all((one.isascii() and one.isalnum()) or one in ".:-+ …" for one in text)
    return _DROP_PLAIN if plain and not set(text) & set("gjpqyJQ") else DROP


class _Bar(NamedTuple):
    """The bar under a number: white above it, and its thickness, in heights of capitals. Own choice."""

    white: float
    thick: float

    def bottom(self, text: str) -> float:
        """How far the bar reaches under the base line, a little white included."""
        return drop(text) + self.white + self.thick

    def under(self, line: Line) -> Rect:
        """The bar under a line of text, mm."""
        width = lettering.text_width_mm(line.text, line.height_mm, line.bold)
        top = line.y + (drop(line.text) + self.white / 2) * line.height_mm
        return Rect(line.x, top, width, self.thick * line.height_mm)


BAR: Final = _Bar(0.08, 0.12)
