"""What current a size of wire may carry for long: 33 CFR 183.425 Table 5 and ISO 10133 Table A.1, and their factors.

A size between two printed ones counts as the thinner of them. Knows no harness and gives no verdict."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import sqrt

from harnessdoc.model.quantities import Size, awg_area_mm2, plain_number
from harnessdoc.tables.figures import Confirmed, Figure, Row, figure, rows

TABLES: Mapping[str, str] = {"33 CFR": "33 CFR 183.425 Table 5", "ISO 10133": "ISO 10133 Table A.1"}
"""The rule as a file names it, and the table behind it. Of ISO 10133 most cells are only remembered."""
ENGINE_SPACE_C: Mapping[str, float] = {"33 CFR": 50.0, "ISO 10133": 60.0}
"""Ambient of an engine space: note 1 of Table 5 (50 °C); ISO 10133's 60 °C is remembered, and errs on the safe side."""
TABLE_C = 30.0
"""Ambient of both tables."""
LOWEST_C, USUAL_C = 60.0, 105.0
"""The lowest insulation temperature of both tables, and that of thin-wall vehicle wire (ISO 6722 class B, from a cable
maker's table)."""
METRIC_MM2 = (0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120)
"""Sizes that wire is sold in, for advice: IEC 60228 class 5."""
SAME_AREA = 0.999
"""A size given in mm² counts as printed when it is at least this share of the printed one."""


def ampacity(size: Size, insulation_c: float, rule: str = "33 CFR") -> Figure | None:
    """Return the A that one conductor carries outside an engine space at 30 °C; it may be a figure from memory.

    `insulation_c`: what its insulation stands, in °C; the column at or below it is taken. `rule`: a key of TABLES.
    Thinner than all that is printed: in proportion to copper from the thinnest, on the safe side, since in every column
    the thinnest wire carries the most A per mm². None for insulation below the lowest column."""
    return _found(size.area_mm2, insulation_c, rule, False)


def sure_ampacity(size: Size, insulation_c: float, rule: str = "33 CFR") -> Figure | None:
    """As `ampacity`, by cells seen in print only: the best of those that are neither thicker nor warmer."""
    return _found(size.area_mm2, insulation_c, rule, True)


@lru_cache(maxsize=4096)
def _found(area_mm2: float, insulation_c: float, rule: str, sure: bool) -> Figure | None:
    columns = [column for column in _columns(rule, sure) if column <= insulation_c]
    if not columns:
        return None
    found = [_in_column(area_mm2, _columns(rule, sure)[column], column) for column in columns]
    return max(reversed(found), key=lambda one: one.value) if sure else found[-1]


def _in_column(area_mm2: float, cells: tuple[tuple[float, str, Row], ...], column_c: float) -> Figure:
    """The cell of the thickest printed size that is not thicker than the wire."""
    fits = [cell for cell in cells if cell[0] * SAME_AREA <= area_mm2]
    printed_mm2, name, row = fits[-1] if fits else cells[0]
    found = figure(row, "value", "A")
    note = f"as {name} at {plain_number(column_c)} °C"
    if fits:
        return Figure(found.value, "A", found.source, found.confirmed, note)
    share = area_mm2 / printed_mm2
    confirmed = Confirmed.COMPUTED if found.decides else Confirmed.MEMORY
    return Figure(found.value * share, "A", found.source, confirmed, f"in proportion to copper, {note}")


@lru_cache(maxsize=4)
def _columns(rule: str, sure: bool) -> Mapping[float, tuple[tuple[float, str, Row], ...]]:
    """Insulation temperature to its cells as (mm², name, row), thin to thick. Raises KeyError for an unknown rule."""
    table = TABLES[rule]
    columns: dict[float, list[tuple[float, str, Row]]] = {}
    for row in rows("ampacity"):
        if row["table"] == table and not (sure and row["confirmed"] == Confirmed.MEMORY):
            area, name = _size(row)
            columns.setdefault(float(row["insulation_c"]), []).append((area, name, row))
    return {column: tuple(sorted(columns[column], key=lambda cell: cell[0])) for column in sorted(columns)}


def _size(row: Row) -> tuple[float, str]:
    size = row["size"]
    if row["size_system"] == "mm2":
        return float(size), f"{size} mm²"
    return awg_area_mm2(1 - int(size[0]) if size.endswith("/0") else int(size)), f"{size} AWG"


@lru_cache(maxsize=1024)
def ambient_factor(insulation_c: float, ambient_c: float, rule: str = "33 CFR") -> Figure:
    """Return what an ampacity is multiplied by at an ambient in °C: 1 up to 30 °C, 0 from the insulation's own on.

    At 50 °C note 1 of Table 5 where it was seen in print; else sqrt((insulation - ambient) / (insulation - 30)): heat
    lost is in proportion to what the wire is warmer, heat made to the square of the current. That gives the printed
    factors within 0.01. ISO 10133: its factors are remembered only, so always by that formula, which is below them."""
    if ambient_c <= TABLE_C:
        return Figure(1.0, "factor", "both tables are for 30 °C", Confirmed.COMPUTED)
    if rule == "33 CFR" and ambient_c == ENGINE_SPACE_C[rule]:
        for row in _rows("33 CFR 183.425 Table 5 note 1"):
            if float(row["insulation_c"]) == insulation_c and row["confirmed"] != Confirmed.MEMORY:
                return figure(row, "value", "factor")
    above = max(0.0, insulation_c - ambient_c)
    share = sqrt(above / (insulation_c - TABLE_C)) if above else 0.0
    return Figure(share, "factor", "heat balance, as note 1 of Table 5 within 0.01", Confirmed.COMPUTED)


@lru_cache(maxsize=256)
def grouping_factor(conductors: int) -> Figure:
    """Return what an ampacity is multiplied by for so many conductors that carry current side by side (note 2).

    The law asks for it from 50 V up; below, many builders apply it as well."""
    source = "33 CFR 183.425 Table 5 note 2, by law from 50 V up"
    factor = Figure(1.0, "factor", source, Confirmed.COMPUTED)
    for row, least in zip(_rows("33 CFR 183.425 Table 5 note 2"), (3, 4, 7, 25), strict=True):
        if conductors >= least:
            factor = Figure(float(row["value"]), "factor", source, Confirmed(row["confirmed"]), row["note"])
    return factor


def _rows(table: str) -> list[Row]:
    return [row for row in rows("ampacity") if row["table"] == table]
