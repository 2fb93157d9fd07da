"""One list as plain values: its name, its headings with their units, its rows. Knows no file format and no paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from harnessdoc.model.colours import Colour
from harnessdoc.model.quantities import plain_number

Value = str | int | float | Colour | None
"""What stands in a cell: a text, a number in the unit of its heading, a colour; None: nobody has found out yet."""
Row = tuple[Value, ...]
UNKNOWN: Final = "unknown"


@dataclass(frozen=True, slots=True)
class Schedule:
    """A list. `name`: its file's and its sheet's name, up to 31 letters; `headings` carry their units: `length (mm)`.

    `notes`: figures that were assumed, with their sources, and what is not in the list. A cell of "" says that there
    is nothing to say. Raises ValueError for a row that is not as long as the headings."""

    name: str
    title: str
    headings: tuple[str, ...]
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for row in self.rows:
            if len(row) != len(self.headings):
                raise ValueError(f"{self.name}: {len(row)} cells under {len(self.headings)} headings: {row!r:.200}")


def shown(value: Value) -> str:
    """A cell as text: `RD/BK`, `2.5`, `unknown`."""
    if value is None:
        return UNKNOWN
    if isinstance(value, Colour):
        return value.code
    return value if isinstance(value, str) else plain_number(value)


def rounded(value: float | None, digits: int = 1) -> float | None:
    """A figure for a cell, to so many decimals; None stays None."""
    return None if value is None else round(value, digits)


def yes(value: bool | None) -> str | None:
    """`yes`, `no`, or None where nobody knows."""
    return None if value is None else "yes" if value else "no"
