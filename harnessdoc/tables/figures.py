"""One published figure with its source, and the lazy reading of the CSV files that hold them.

Knows no subject: each table has a look-up module of its own. A row marked `memory` decides nothing.
"""

import csv
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import NamedTuple

Row = Mapping[str, str]

_FOLDER = Path(__file__).parent


class Confirmed(StrEnum):
    """How far a figure was seen in print."""

    TWO_PAGES = "two_pages"
    ONE_PAGE = "one_page"
    COMPUTED = "computed"
    MEMORY = "memory"

    @property
    def decides(self) -> bool:
        """Whether a verdict may rest on such a figure: not on one that was only remembered."""
        return self is not Confirmed.MEMORY


class Figure(NamedTuple):
    """A published value in `unit`, where it stands, and how far that was confirmed."""

    value: float
    unit: str
    source: str
    confirmed: Confirmed
    note: str = ""

    @property
    def decides(self) -> bool:
        """Whether a verdict may rest on this figure."""
        return self.confirmed.decides


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of the table `name` (without `.csv`), each as column to text. Read once."""
    with (_FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def confirmed(row: Row) -> Confirmed:
    """Return how far the row was confirmed."""
    return Confirmed(row["confirmed"])


def deciding(name: str) -> list[Row]:
    """Return the rows of the table `name` that a verdict may rest on."""
    return [row for row in rows(name) if confirmed(row).decides]


def figure(row: Row, column: str, unit: str) -> Figure:
    """Return the value in `column` of the row as a Figure in `unit`."""
    return Figure(float(row[column]), unit, row["source"], confirmed(row), row.get("note", ""))
