"""How many labels a wire gets, and where on it: FAA AC 43.13-1B section 16, written for aircraft, taken as good habit.

Knows lengths only, no harness and no stock.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from harnessdoc.model.quantities import format_length
from harnessdoc.tables.placement import marking_rule

_SLACK_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Marks:
    """Where a wire is marked, mm from its first end. `length_mm`: None if unknown, then `at_mm` is empty.

    `ends`: 0 (none needed), 1 (one near the middle, for both ends) or 2. `at_mm`: every mark, those along the run too.
    """

    length_mm: float | None
    ends: int
    at_mm: tuple[float, ...] = ()

    @property
    def count(self) -> int:
        """Labels in all; of a wire of unknown length the two at its ends."""
        return len(self.at_mm) if self.length_mm is not None else self.ends

    @property
    def along_mm(self) -> tuple[float, ...]:
        """The marks between those at the ends, mm from the first end."""
        return self.at_mm[1:-1] if self.ends == 2 else ()

    def at_end(self, end: str) -> str:
        """Where the label of an end goes, in words. `end`: what the wire ends in: "terminal", "splice", "cut"."""
        rule = marking_rule()
        if self.ends == 0:
            return f"none needed: the wire is {_text(self.length_mm)} long, under {rule.none_below.value:.0f} mm"
        if self.ends == 1:
            return f"one label, at the middle: wire of {_text(self.length_mm)}"
        known = "" if self.length_mm is not None else "; its length is unknown, so both ends are marked"
        return f"{rule.from_end.value:.0f} mm from the {end}{known}"

    def along(self) -> str:
        """Where the marks between the ends go, in words; "" if there are none."""
        inner = self.along_mm
        if not inner:
            return ""
        apart = _text(self.at_mm[1] - self.at_mm[0])
        return f"{len(inner)} more along its {_text(self.length_mm)}, {apart} apart"


def marks(length_mm: float | None) -> Marks:
    """Return the marks of a wire of that length in mm, None if unknown.

    Below 3 in (76.2 mm) none; from 3 to 7 in (177.8 mm) one at the middle; longer: 3 in from each end, and between
    them so many more, evenly, that no interval is above 15 in (381 mm). Raises ValueError below 0.
    """
    rule = marking_rule()
    if length_mm is None:
        return Marks(None, 2)
    if length_mm < 0 or not math.isfinite(length_mm):
        raise ValueError(f"a wire is not {length_mm:g} mm long")
    if length_mm < rule.none_below.value - _SLACK_MM:
        return Marks(length_mm, 0)
    if length_mm <= rule.one_up_to.value + _SLACK_MM:
        return Marks(length_mm, 1, (length_mm / 2,))
    first = rule.from_end.value
    between = length_mm - 2 * first
    steps = max(1, math.ceil(between / rule.interval.value - _SLACK_MM))
    return Marks(length_mm, 2, tuple(first + between * step / steps for step in range(steps + 1)))


def _text(length_mm: float | None) -> str:
    return "unknown length" if length_mm is None else format_length(round(length_mm))
