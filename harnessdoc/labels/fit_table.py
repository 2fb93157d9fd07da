"""The fit table: for wire sizes from 0.35 to 50 mm², how thick they are, by whom, and what fits round them.

Knows tables and `fit`, no harness. A size that no page prints a diameter for says so and has no figures.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from harnessdoc.labels.fit import NEEDS_NO_DIAMETER, fit, largest_symbol_mm
from harnessdoc.labels.material import SHAPES, Stock
from harnessdoc.model.quantities import parse_size
from harnessdoc.tables.auto_cable import auto_mm2
from harnessdoc.tables.outside_diameters import outside_diameter_mm

SIZES: Final = tuple(
    f"{one} mm2" for one in ("0.35", "0.5", "0.75", "1", "1.5", "2.5", "4", "6", "10", "16", "25", "35", "50")
)
"""Sizes of IEC 60228 and vehicle wire from 0.35 to 50 mm²."""
NOT_PRINTED: Final = "no table gives it: state `outside:`"


@dataclass(frozen=True, slots=True)
class FitRow:
    """One size. `outside_mm`, `circumference_mm`, `symbol_mm` (the widest symbol that may be bent round it, without
    its quiet zone): None where nobody prints a diameter, and then `source` says what to do. `fits`: shape to the names
    of the stocks that fit; a sleeve's name is followed by its size."""

    size: str
    outside_mm: float | None
    source: str
    circumference_mm: float | None = None
    symbol_mm: float | None = None
    fits: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def fit_table(stocks: Sequence[Stock], sizes: Sequence[str] = SIZES) -> tuple[FitRow, ...]:
    """Return a row for each size as written in a file (`2.5 mm2`, `14 AWG`), in their order.

    Plates, which sit on no wire, are left out. Raises quantities.QuantityError for what is no size.
    """
    return tuple(_row(size, stocks) for size in sizes)


def _row(written: str, stocks: Sequence[Stock]) -> FitRow:
    size = parse_size(written, auto_mm2())
    printed = outside_diameter_mm(size)
    outside_mm = printed.value if printed else None
    fits = {
        shape: tuple(name for stock in stocks if (name := _name(outside_mm, stock, shape)))
        for shape in SHAPES
        if shape != "plate" and (outside_mm is not None or shape in NEEDS_NO_DIAMETER)
    }
    held = {shape: names for shape, names in fits.items() if names}
    if printed is None or outside_mm is None:
        return FitRow(size.written, None, NOT_PRINTED, fits=held)
    around = math.pi * outside_mm
    return FitRow(size.written, outside_mm, printed.source, around, largest_symbol_mm(outside_mm), held)


def _name(outside_mm: float | None, stock: Stock, shape: str) -> str:
    """The stock's name if it fits, else ""."""
    if shape not in stock.shapes:
        return ""
    found = fit(outside_mm, stock, shape)
    if found.refusal:
        return ""
    return f"{stock.name} {found.sleeve.text}" if found.sleeve else stock.name
