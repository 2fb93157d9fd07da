"""Hatching that tells colours apart without colour: which lines a code has, and those lines inside an outline.

Lines lie as on the page, whichever way a wire runs, so that upright lines mean red everywhere. Where heraldry has
a hatching for a colour it is that of the Petra Sancta system (1638): red upright, blue level, green falling, violet
rising, yellow dotted, white plain (memory). The others are own choice. Knows codes and millimetres, draws nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Final, NamedTuple

Point = tuple[float, float]
Stroke = tuple[float, float, float, float]
LINE_MM: Final = 0.15  # own choice
DOT_MM: Final = 0.36  # own choice: a dot's diameter
_POINT_MM: Final = 0.01  # the length of a stroke that is a dot by its round ends


class Family(NamedTuple):
    """Parallel lines at an angle (degrees clockwise from level), a pitch apart; whole, broken, or dots.

    `on_mm` of each `period_mm` is drawn (0: whole lines), every other line shifted by half a period. `shift`: in
    pitches, away from the line through the middle."""

    angle: float
    pitch_mm: float = 0.8
    on_mm: float = 0.0
    period_mm: float = 0.0
    shift: float = 0.0

    @property
    def dotted(self) -> bool:
        """Whether its strokes are dots."""
        return 0 < self.on_mm <= _POINT_MM


def _broken(angle: float) -> Family:
    return Family(angle, 0.8, 0.9, 1.5)


def _dots(pitch_mm: float, shift: float = 0.0, angle: float = 0.0) -> Family:
    return Family(angle, pitch_mm, _POINT_MM, 1.0, shift)


PATTERNS: Final[dict[str, tuple[Family, ...]]] = {
    "RD": (Family(90),),  # gules; memory
    "BU": (Family(0),),  # azure; memory
    "GN": (Family(45),),  # vert: from the upper left to the lower right; memory
    "VT": (Family(-45),),  # purpure: from the lower left to the upper right; memory
    "YE": (_dots(0.8),),  # or; memory
    "WH": (),  # argent, plain; memory
    "BK": (),  # own choice: printed black says it itself (heraldry crosses upright and level lines)
    "OG": (Family(90, 1.4), _dots(1.4, 0.5, 90)),  # own choice, as are all below: between red and yellow
    "BN": (Family(45, 1.0), Family(-45, 1.0)),
    "TQ": (Family(0, 1.0), Family(45, 1.0)),
    "PK": (_broken(90),),
    "GY": (_broken(0),),
    "SR": (_broken(45),),
    "TAN": (_broken(-45),),
    "GD": (Family(0, 1.4), _dots(1.4, 0.5)),
    "BEIGE": (Family(45, 1.2, 0.7, 1.2), Family(-45, 1.2, 0.7, 1.2)),
}
WORDS: Final[dict[str, str]] = {
    "RD": "upright lines",
    "BU": "level lines",
    "GN": "falling lines",
    "VT": "rising lines",
    "YE": "dots",
    "WH": "plain",
    "BK": "solid",
    "OG": "upright lines and dots",
    "BN": "crossed slanted lines",
    "TQ": "level and falling lines",
    "PK": "broken upright lines",
    "GY": "broken level lines",
    "SR": "broken falling lines",
    "TAN": "broken rising lines",
    "GD": "level lines and dots",
    "BEIGE": "broken crossed lines",
}
"""What a legend can say of each."""


@lru_cache(maxsize=4096)
def strokes(family: Family, outline: tuple[Point, ...]) -> tuple[Stroke, ...]:
    """Return the family's strokes inside a convex outline (mm, y down), the middle line through its middle."""
    middle = (_middle([x for x, _ in outline]), _middle([y for _, y in outline]))
    along = (math.cos(math.radians(family.angle)), math.sin(math.radians(family.angle)))
    aside = (-along[1], along[0])
    at = [((x - middle[0]) * along[0] + (y - middle[1]) * along[1], _across(x, y, middle, aside)) for x, y in outline]
    spare = DOT_MM / 2 if family.dotted else 0.0
    least, most = min(v for _, v in at) + spare, max(v for _, v in at) - spare
    shift = family.shift * family.pitch_mm
    found = []
    for number in range(math.ceil((least - shift) / family.pitch_mm), math.floor((most - shift) / family.pitch_mm) + 1):
        v = number * family.pitch_mm + shift
        chord = _chord(at, v)
        for start, end in _pieces(family, number, chord) if chord else ():
            ends = [(middle[k] + u * along[k] + v * aside[k]) for u in (start, end) for k in (0, 1)]
            found.append((ends[0], ends[1], ends[2], ends[3]))
    return tuple(found)


def _middle(values: Sequence[float]) -> float:
    return (min(values) + max(values)) / 2


def _across(x: float, y: float, middle: Point, aside: Point) -> float:
    return (x - middle[0]) * aside[0] + (y - middle[1]) * aside[1]


def _chord(outline: Sequence[Point], v: float) -> tuple[float, float] | None:
    """Where the line at distance v enters and leaves the outline, both in the line's own measure; None if nowhere."""
    crossings = []
    for (u1, v1), (u2, v2) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if min(v1, v2) <= v <= max(v1, v2) and v1 != v2:
            crossings.append(u1 + (u2 - u1) * (v - v1) / (v2 - v1))
    if not crossings or max(crossings) - min(crossings) < _POINT_MM:
        return None
    return min(crossings), max(crossings)


def _pieces(family: Family, number: int, chord: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """The parts of a line that are drawn; a dot stands whole inside or not at all."""
    first, last = chord
    if not family.on_mm:
        yield chord
        return
    if family.dotted:
        first, last = first + DOT_MM / 2, last - DOT_MM / 2
    period = family.period_mm
    begin = (number % 2) * period / 2 - family.on_mm / 2
    start = begin + period * math.ceil((first - begin - family.on_mm) / period)
    while start < last:
        if (end := min(start + family.on_mm, last)) > max(start, first):
            yield max(start, first), end
        start += period
