"""How fast fuses open by their printed gates, what a wire's copper takes meanwhile, and the law's three limits.

A gate: at so many per cent of its rating a fuse holds for the least time and has opened by the most. ISO 8820-3 styles;
figures from fuse makers' sheets as quoted on public pages. Gives no verdict."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import log
from typing import NamedTuple

from harnessdoc.model.quantities import MM_PER_INCH
from harnessdoc.tables.figures import Confirmed, deciding, rows
from harnessdoc.tables.resistance import copper

TYPES: Mapping[str, str] = {
    "mini": "type F mini (11 mm)",
    "blade": "type C normal (ATO/ATC, 19 mm)",
    "maxi": "type E maxi (29 mm)",
}
"""A fuse's style as a file names it, and the type of ISO 8820-3."""

LAW = "33 CFR 183.455"
MOST_SHARE = 1.5
"""Below 50 V a fuse's rating over the Table 5 amperage of the conductor that it protects, at most: 33 CFR 183.455."""
FIRST_STRETCH_MM, SHEATHED_STRETCH_MM = 7 * MM_PER_INCH, 40 * MM_PER_INCH
"""How far along the conductor from the source a fuse may stand: 7 in, or 40 in when sheathed or enclosed all the way to
it: 33 CFR 183.455."""
BATTERY_STRETCH_MM = 72 * MM_PER_INCH
"""From a battery terminal 72 in: from memory, so it decides nothing."""


class Gate(NamedTuple):
    """At `share` times its rating: opens not before `least_s` and not after `most_s`; None where none is printed."""

    share: float
    least_s: float | None
    most_s: float | None
    source: str
    confirmed: Confirmed


@lru_cache(maxsize=16)
def gates(style: str) -> tuple[Gate, ...]:
    """Return the printed gates of a style by rising current, () for a style of which none are. Where two pages differ
    both are given."""
    kind = TYPES.get(style)
    found = [
        Gate(float(row["percent_of_rating"]) / 100, _time(row["t_min_s"]), _time(row["t_max_s"]), row["source"],
             Confirmed(row["confirmed"]))
        for row in deciding("fuses")
        if row["record"] == "gate" and row["fuse_type"] == kind
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda gate: gate.share))


def _time(text: str) -> float | None:
    return float(text) if text else None


def must_open(style: str, share: float) -> Gate | None:
    """Return the gate that limits how long a fuse takes at `share` times its rating: the highest printed one at or
    below it, the slower where pages differ; None when nothing says that it opens.

    A fuse opens no later at a higher current, and lets no more I²t through."""
    below = [gate for gate in gates(style) if gate.most_s is not None and gate.share <= share]
    highest = max((gate.share for gate in below), default=0.0)
    return max((g for g in below if g.share == highest), key=lambda gate: gate.most_s or 0.0, default=None)


def lets_through_a2s(gate: Gate, rating_a: float) -> float:
    """Return the I²t in A²s that a fuse of that rating lets through at most at the gate's current or above."""
    return (gate.share * rating_a) ** 2 * (gate.most_s or 0.0)


def holds_a2s(style: str, rating_a: float) -> float | None:
    """Return the I²t in A²s that a fuse stands for sure in a short surge: by the highest gate with a least time."""
    held = [gate for gate in gates(style) if gate.least_s is not None and gate.most_s is not None]
    return (held[-1].share * rating_a) ** 2 * (held[-1].least_s or 0.0) if held else None


def withstands_a2s(area_mm2: float, start_c: float, end_c: float) -> float:
    """Return the I²t in A²s that warms `area_mm2` of copper from start to end in °C when no heat leaves it.

    k² = c·d·(234.5 + 20)/rho20 · ln((234.5 + end)/(234.5 + start)), from copper's published specific heat c, density
    d, resistivity and zero point: the heat that the current makes, more as the copper warms, against the heat taken."""
    if end_c <= start_c:
        return 0.0
    zero_c, per_log = _copper()
    return per_log * log((end_c - zero_c) / (start_c - zero_c)) * area_mm2**2


@lru_cache(maxsize=1)
def _copper() -> tuple[float, float]:
    """Where copper's resistance would be zero, in °C, and k² before its logarithm, in A²s/mm⁴."""
    zero_c = copper("inferred zero-resistance temperature").value
    heat = copper("specific heat").value * copper("density").value * 1e-3  # J/(mm3 K)
    rho = copper("resistivity at 20 C").value * 1e-6  # ohm.mm
    return zero_c, heat * (20 - zero_c) / rho


def law_limits() -> Mapping[tuple[str, float], Confirmed]:
    """Return the rows of the law as (unit, value) to how far each was seen."""
    return {
        (row["unit"], float(row["value"])): Confirmed(row["confirmed"])
        for row in rows("fuses")
        if row["record"] == "rule"
    }
