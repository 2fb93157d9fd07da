"""Wire-end ferrules with a plastic collar by DIN 46228-4: collar colours, sleeves, and the wire each takes.

The standard's sizes run from 0.5 to 50 mm²; smaller ferrules are sold, but the lists disagree about them.
"""

from functools import cache, lru_cache
from typing import NamedTuple

from harnessdoc.tables.figures import Confirmed, Figure, confirmed, deciding, figure

OVER_NOMINAL = 1.05
"""Copper a ferrule takes, as a share of its own mm²: 20 AWG, 0.52 mm², goes in a 0.5 mm² ferrule.
Common practice, no source."""

NEXT_SMALLER_MM2 = 0.34
"""The next ferrule made below the standard's smallest (lists quoting DIN 46228-4)."""


class Sleeve(NamedTuple):
    """One sleeve length that a ferrule is made in, and how far to strip the wire for it, both in mm."""

    length_mm: float
    strip_mm: float
    source: str
    confirmed: Confirmed

    @property
    def decides(self) -> bool:
        """Whether a verdict may rest on this length."""
        return self.confirmed.decides


class Ferrule(NamedTuple):
    """A ferrule size by DIN 46228-4: its mm², the colour word of its collar, and where that is printed."""

    area_mm2: float
    collar: str
    source: str
    confirmed: Confirmed

    @property
    def decides(self) -> bool:
        """Whether a verdict may rest on this row."""
        return self.confirmed.decides


@cache
def ferrules() -> tuple[Ferrule, ...]:
    """Return the ferrules of the standard, smallest first."""
    made = (
        Ferrule(float(row["mm2"]), row["collar_colour"], row["source"], confirmed(row)) for row in deciding("ferrules")
    )
    return tuple(sorted(made, key=lambda ferrule: ferrule.area_mm2))


def ferrule(area_mm2: float) -> Ferrule | None:
    """Return the ferrule of exactly this nominal mm², None if the standard has none."""
    return next((one for one in ferrules() if one.area_mm2 == area_mm2), None)


@lru_cache(maxsize=1024)
def ferrule_for(area_mm2: float) -> Ferrule | None:
    """Return the smallest ferrule that takes one wire of this much copper, None if the standard has none.

    `area_mm2`: above 0. Smallest that is not smaller than the copper, with OVER_NOMINAL let in: 14 AWG
    (2.08 mm²) takes 2.5 mm². Common practice, no source; the sizes are the standard's.
    """
    if area_mm2 <= NEXT_SMALLER_MM2 * OVER_NOMINAL:
        return None
    return next((one for one in ferrules() if area_mm2 <= one.area_mm2 * OVER_NOMINAL), None)


def sleeves(area_mm2: float) -> tuple[Sleeve, ...]:
    """Return the sleeve lengths printed for the ferrule of this nominal mm²; memory left out."""
    return tuple(
        Sleeve(float(row["sleeve_mm"]), float(row["strip_mm"]), row["source"], confirmed(row))
        for row in deciding("ferrule_sleeves")
        if float(row["mm2"]) == area_mm2
    )


def overall_length(area_mm2: float, sleeve_mm: float) -> Figure | None:
    """Return the length over collar and sleeve in mm, None where no page prints it."""
    for row in deciding("ferrule_sleeves"):
        if (float(row["mm2"]), float(row["sleeve_mm"])) == (area_mm2, sleeve_mm) and row["overall_mm"]:
            return figure(row, "overall_mm", "mm")
    return None
