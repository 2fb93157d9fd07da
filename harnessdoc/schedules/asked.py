"""What the cut list is made with: allowances, the length of a roll to buy, the rolls at hand. Reads no file itself."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from typing import Final

from harnessdoc.model.colours import Colour, ColourError, parse_colour
from harnessdoc.model.quantities import (
    QuantityError,
    Size,
    Unit,
    format_length,
    format_percent,
    parse_quantity,
    parse_size,
)
from harnessdoc.tables.auto_cable import auto_mm2

MOST_ROLLS: Final = 10_000
STEP_MM: Final = 10
"""Cut lengths are rounded up to this (own choice: what a tape on the bench is read to)."""


class RollsError(ValueError):
    """A list of rolls that can't be read; the text names the line."""


@dataclass(frozen=True, slots=True)
class Allowance:
    """What is added to a wire's length before it is cut, mm and per cent. All four figures are own choices.

    `end_mm`: at each end, to cut square, strip, and crimp once more. To a length by runs also `place_mm` at each end
    that lands at a place, from where the run ends to the terminal, and `slack_percent` of the runs for their bends.
    A stated length is a finished length: it gets the ends alone."""

    end_mm: float = 20.0
    place_mm: float = 150.0
    slack_percent: float = 5.0

    @property
    def text(self) -> str:
        """The figures in words, for the list's notes."""
        return (
            f"Own figures: {format_length(self.end_mm)} more at each end, to cut square, strip and crimp once more; "
            f"to a length by runs also {format_length(self.place_mm)} at each end that lands on an item or plug, and "
            f"{format_percent(self.slack_percent)} slack. Cut lengths are rounded up to {STEP_MM} mm."
        )


@dataclass(frozen=True, slots=True)
class Roll:
    """A roll or rest of wire at hand. `colour` None: not known, it is used for wires of unknown colour alone."""

    colour: Colour | None
    size: Size
    length_mm: float


@dataclass(frozen=True, slots=True)
class Asked:
    """All that a list may be asked with. `roll_mm`: the length of a roll to buy (25 m: own choice)."""

    allowance: Allowance = Allowance()
    roll_mm: float = 25_000.0
    rolls: tuple[Roll, ...] = ()


def read_rolls(text: str) -> tuple[Roll, ...]:
    """Read rolls at hand from CSV: `colour, size, length`, a roll a line, as in `red, 2.5 mm2, 6.4 m`.

    A first line of headings is passed over; lines that are empty or begin with # as well. Raises RollsError."""
    rolls: list[Roll] = []
    for number, cells in enumerate(csv.reader(text.lstrip("\ufeff").splitlines()), 1):
        words = [cell.strip() for cell in cells]
        if not any(words) or words[0].startswith("#") or (not rolls and words[:1] == ["colour"]):
            continue
        if len(rolls) == MOST_ROLLS:
            raise RollsError(f"line {number}: more than {MOST_ROLLS} rolls")
        rolls.append(_roll(number, words))
    return tuple(rolls)


def _roll(number: int, words: list[str]) -> Roll:
    if len(words) != 3:
        raise RollsError(f"line {number}: a roll is written as colour, size, length: red, 2.5 mm2, 6.4 m")
    try:
        colour = None if words[0] in ("", "unknown") else parse_colour(words[0])
        return Roll(colour, parse_size(words[1], auto_mm2()), parse_quantity(words[2], Unit.MM))
    except (ColourError, QuantityError) as error:
        raise RollsError(f"line {number}: {error}") from None
