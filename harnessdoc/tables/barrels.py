"""Insulated crimp barrels, red, blue and yellow: the wire each takes, the copper a joint may put in one.

A wire sized by AWG is compared with the AWG range, any other with the mm² range: the two ranges of a barrel
do not match. Where sources disagree about a size, it is taken and said to be disputed.
"""

from functools import lru_cache
from typing import NamedTuple

from harnessdoc.model.quantities import Size
from harnessdoc.tables.figures import Confirmed, Figure, Row, confirmed, deciding, figure

SUM_OF_AREAS = "copper of the wires added up: common practice, no source"
"""How wires in one barrel are compared with its range."""


class BarrelRange(NamedTuple):
    """One printed range of one barrel colour, in AWG numbers (`thinnest` the larger) or in mm²."""

    colour: str
    is_awg: bool
    thinnest: float
    thickest: float
    source: str
    confirmed: Confirmed
    note: str

    @property
    def decides(self) -> bool:
        """Whether a verdict may rest on this range."""
        return self.confirmed.decides

    def holds(self, size: Size) -> bool:
        """Whether the wire lies in this range; the size must be of the range's own kind."""
        if not self.is_awg:
            return self.thinnest <= size.area_mm2 <= self.thickest
        return size.awg is not None and self.thickest <= size.awg <= self.thinnest

    def __str__(self) -> str:
        unit = "AWG" if self.is_awg else "mm²"
        return f"{self.thinnest:g} to {self.thickest:g} {unit}"


class BarrelFit(NamedTuple):
    """Whether a barrel takes a wire; `disputed` if only some of the sources in `ranges` say so."""

    takes: bool
    disputed: bool
    ranges: tuple[BarrelRange, ...]

    @property
    def wanted(self) -> str:
        """The ranges, for a finding: "0.5 to 1.5 mm²", "22 to 16 AWG (elsewhere 22 to 18 AWG)"."""
        first, *others = (str(one) for one in self.ranges)
        return f"{first} (elsewhere {', '.join(others)})" if others else first

    @property
    def source(self) -> str:
        """Where the ranges are printed."""
        return "; ".join(dict.fromkeys(one.source for one in self.ranges))


def barrel_colours() -> tuple[str, ...]:
    """Return the colour words that a barrel can have: red, blue, yellow."""
    return tuple(dict.fromkeys(row["barrel"] for row in deciding("barrels")))


def barrel(colour: str) -> tuple[BarrelRange, ...]:
    """Return every printed range of the barrel, best confirmed first, empty for a colour that is not made."""
    found: list[BarrelRange] = []
    for row in deciding("barrels"):
        if row["barrel"] == colour:
            found.extend(_ranges(row))
    return tuple(found)


def _ranges(row: Row) -> list[BarrelRange]:
    told = (row["source"], confirmed(row), row["note"])
    found = []
    if row["awg_from"]:
        found.append(BarrelRange(row["barrel"], True, float(row["awg_from"]), float(row["awg_to"]), *told))
    if row["mm2_min"]:
        found.append(BarrelRange(row["barrel"], False, float(row["mm2_min"]), float(row["mm2_max"]), *told))
    return found


@lru_cache(maxsize=1024)
def barrel_takes(colour: str, size: Size) -> BarrelFit | None:
    """Return whether the barrel takes one wire of this size, None for a colour that is not made."""
    ranges = tuple(one for one in barrel(colour) if one.is_awg == size.is_awg)
    if not ranges:
        return None
    held = [one.holds(size) for one in ranges]
    return BarrelFit(any(held), any(held) and not all(held), ranges)


def barrel_for(size: Size) -> str | None:
    """Return the colour of the barrel that takes the wire, an undisputed one first, None if none does."""
    fits = {colour: barrel_takes(colour, size) for colour in barrel_colours()}
    taking = [(fit.disputed, colour) for colour, fit in fits.items() if fit and fit.takes]
    return min(taking, key=lambda one: one[0])[1] if taking else None


def most_copper_mm2(colour: str) -> Figure | None:
    """Return the most copper in mm² that one side of the barrel takes, wires added up (SUM_OF_AREAS)."""
    found = [figure(row, "mm2_max", "mm²") for row in deciding("barrels") if row["barrel"] == colour and row["mm2_max"]]
    return max(found, key=lambda one: one.value) if found else None
