"""Where rows of text and a symbol can stand on a face: bands of rows, one plan after the other, the nicest first.

Knows millimetres only, neither texts nor what comes of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from harnessdoc.labels.dots import dot_mm, least_dots, module_dots

GAP_MM: Final = 1.5  # own choice: between the number and what stands beside it
COLUMN_MM: Final = 5.0  # own choice: what is narrower holds no row
_COLUMN_SHARE: Final = 0.45  # own choice: share of the width that words keep beside a symbol larger than the least


class Place(NamedTuple):
    """The square kept for a symbol and its quiet zone: top left corner and side in mm, dots a module."""

    x: float
    y: float
    side_mm: float
    dots: int


class Band(NamedTuple):
    """A part of the face where rows stand one under another, mm. `numbered`: the first of them is the number."""

    x: float
    top: float
    width: float
    bottom: float
    numbered: bool = False


class Plan(NamedTuple):
    """Bands, the most wanted texts first, and where the symbol goes.

    `beside`: a first row stands at the number's right, on its base line. `apart`: the number has a column of its own.
    """

    bands: tuple[Band, ...]
    place: Place | None = None
    beside: bool = False
    apart: bool = False


class Measures(NamedTuple):
    """What plans are made by, mm: the face, the number's width and height, its height with a text beside it, a row."""

    width: float
    height: float
    number_wide: float
    number_high: float
    beside_high: float
    row_high: float

    @property
    def beside_mm(self) -> float:
        """Where a text beside the number starts."""
        return self.number_wide + GAP_MM


def without_symbol(face: Measures) -> Iterator[Plan]:
    """Number over rows; the first text beside the number; the number in a column of its own, rows beside it."""
    whole = Band(0.0, 0.0, face.width, face.height, numbered=True)
    yield Plan((whole,))
    yield Plan((whole,), beside=True)
    x = face.beside_mm
    if face.width - x > COLUMN_MM:
        column = Band(0.0, 0.0, face.number_wide, face.height, numbered=True)
        yield Plan((column, Band(x, 0.0, face.width - x, face.height)), apart=True)


def with_symbol(face: Measures, modules: int, dpi: int, caption_high: float) -> Iterator[Plan]:
    """The symbol stands right: at the top, with rows of full width below, or at the bottom, with such rows above.

    `modules`: along a side, with the quiet zone. `caption_high`: of the line under the symbol, 0 for none. One dot is
    kept for moving the symbol.
    """
    for side, dots in _sides(face, modules, dpi, caption_high):
        taken = side + dot_mm(dpi)
        at_bottom = _at_bottom(face, taken, side, dots)
        if face.number_wide <= face.width - taken:
            at_top = _at_top(face, taken, side, dots)
            yield at_top
            if at_bottom is not None:
                yield at_bottom
            yield at_top._replace(beside=True)
        elif at_bottom is not None:
            yield at_bottom
        if at_bottom is not None:
            yield at_bottom._replace(beside=True)


def _at_bottom(face: Measures, taken: float, side: float, dots: int) -> Plan | None:
    """Rows of full width over the symbol, shorter ones beside it; None where the number does not go over it."""
    column, low = face.width - taken, face.height - taken
    if face.number_high > low:
        return None
    above = Band(0.0, 0.0, face.width, low, numbered=True)
    beside = (Band(0.0, low, column, face.height),) if column > COLUMN_MM else ()
    return Plan((above, *beside), Place(column, low, side, dots))


def _at_top(face: Measures, taken: float, side: float, dots: int) -> Plan:
    """Number and rows beside the symbol, rows of full width under it where they have room."""
    column = face.width - taken
    foot = max(taken, face.number_high)
    has_foot = face.height - foot >= face.row_high
    first = Band(0.0, 0.0, column, foot if has_foot else face.height, numbered=True)
    below = (Band(0.0, foot, face.width, face.height),) if has_foot else ()
    return Plan((first, *below), Place(column, 0.0, side, dots))


def _sides(face: Measures, modules: int, dpi: int, caption_high: float) -> list[tuple[float, int]]:
    """Sides of the symbol to try, mm, with dots a module: as large as is well, with room for its caption, the least."""
    dot, least = dot_mm(dpi), least_dots(dpi)
    wide_room = face.width * (1 - _COLUMN_SHARE) - dot
    rooms = (min(face.height - dot, wide_room), min(face.height - dot - caption_high, wide_room))
    tried = [module_dots(modules, room, dpi) for room in rooms]
    if modules * least * dot + dot <= min(face.width, face.height) + 1e-9:
        tried.append(least)
    return [(modules * dots * dot, dots) for dots in dict.fromkeys(one for one in tried if one is not None)]
