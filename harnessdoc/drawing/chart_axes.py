"""Axes of charts: steps that a person counts in, decades of a logarithmic axis, and the frame that charts share.

Knows no harness; millimetres and plain numbers only."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Final

from harnessdoc.model.quantities import plain_number
from harnessdoc.sheet.page import Page

TEXT_MM: Final = 2.5
"""The smallest lettering of charts, read by torch light."""
HEAD_MM: Final = 3.5
WIDTH_MM: Final = 180.0
"""A chart fits between the margins of A4 and of letter paper at full size."""
NARROW_MM, WIDE_MM = 0.18, 0.7  # ISO 128 line groups
GREY: Final = "#e6e6e6"
RULE: Final = "#8c8c8c"


@dataclass(frozen=True, slots=True)
class Linear:
    """A span of values on paper: `low` lies at `low_mm`, each unit takes `per_unit_mm` (negative: upwards)."""

    low: float
    low_mm: float
    per_unit_mm: float

    def at(self, value: float) -> float:
        """Where a value lies, mm."""
        return self.low_mm + (value - self.low) * self.per_unit_mm


@dataclass(frozen=True, slots=True)
class Decades:
    """A logarithmic axis from 10**`first` to 10**`last` between two places in mm."""

    first: int
    last: int
    left_mm: float
    right_mm: float

    def at(self, value: float) -> float:
        """Where a value lies, mm; what lies outside is put at the end. Raises ValueError for 0 or less."""
        if value <= 0:
            raise ValueError("a logarithmic axis has no place for 0 or less")
        share = (log10(value) - self.first) / (self.last - self.first)
        return self.left_mm + min(1.0, max(0.0, share)) * (self.right_mm - self.left_mm)

    def marks(self) -> Iterator[tuple[float, bool]]:
        """Values to be marked, and whether each begins a decade."""
        for power in range(self.first, self.last):
            yield from ((digit * 10.0**power, digit == 1) for digit in range(1, 10))
        yield 10.0**self.last, True


def decades(values: Iterable[float], left_mm: float, right_mm: float, least: int = 2) -> Decades:
    """Whole decades that hold all values above 0, at least so many of them; 1 to 100 where there is none."""
    positive = [value for value in values if value > 0]
    if not positive:
        return Decades(0, 2, left_mm, right_mm)
    first, last = floor(log10(min(positive)) + 1e-9), ceil(log10(max(positive)) - 1e-9)
    return Decades(first, max(last, first + least), left_mm, right_mm)


def step(span: float, most: int, least: float) -> float:
    """The smallest of 1, 2 and 5 times a power of ten that divides a span into at most so many steps, not below
    `least` (itself such a number). Above 0 also for a span of 0."""
    wanted = max(span / most, least)
    power = 10.0 ** floor(log10(wanted) + 1e-9)
    return next(power * digit for digit in (1, 2, 5, 10) if power * digit >= wanted * (1 - 1e-9))


def head(page: Page, title: str, lines: Iterable[str]) -> float:
    """Write a chart's title and what it says of its state; returns where the next line may stand, mm."""
    page.text(0.5, HEAD_MM + 0.5, title, HEAD_MM, bold=True, box_mm=page.width_mm - 1)
    y = HEAD_MM + 0.5
    for line in lines:
        y += 4.2
        page.text(0.5, y, line, TEXT_MM, box_mm=page.width_mm - 1)
    return y + 3


def amps_text(value: float) -> str:
    """An axis mark in amperes, without its unit."""
    return plain_number(value, 4)
