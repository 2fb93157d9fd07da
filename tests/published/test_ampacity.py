"""Ampacity against the law's own table and a cable maker's; every figure is typed from its source."""

from __future__ import annotations

import pytest

from harnessdoc.model.quantities import parse_size
from harnessdoc.tables.ampacity import ambient_factor, ampacity, grouping_factor, sure_ampacity
from harnessdoc.tables.figures import Confirmed

COLUMNS_C = (60, 75, 80, 90, 105, 125, 200)
TABLE_5 = {
    "18": (10, 10, 15, 20, 20, 25, 25),
    "16": (15, 15, 20, 25, 25, 30, 35),
    "14": (20, 20, 25, 30, 35, 40, 45),
    "12": (25, 25, 35, 40, 45, 50, 55),
    "10": (40, 40, 50, 55, 60, 70, 70),
    "8": (55, 65, 70, 70, 80, 90, 100),
    "6": (80, 95, 100, 100, 120, 125, 135),
    "4": (105, 125, 130, 135, 160, 170, 180),
    "3": (120, 145, 150, 155, 180, 195, 210),
    "2": (140, 170, 175, 180, 210, 225, 240),
    "1": (165, 195, 210, 210, 245, 265, 280),
    "1/0": (195, 230, 245, 245, 285, 305, 325),
    "2/0": (225, 265, 285, 285, 330, 355, 370),
    "3/0": (260, 310, 330, 330, 385, 410, 430),
    "4/0": (300, 360, 385, 385, 445, 475, 510),
}
CELLS = [(size, c, amps) for size, row in TABLE_5.items() for c, amps in zip(COLUMNS_C, row, strict=True)]


@pytest.mark.parametrize(("gauge", "insulation_c", "amps"), CELLS)
def test_table_5(gauge: str, insulation_c: int, amps: float) -> None:
    """33 CFR 183.425 Table 5, all 105 cells, A in single conductors outside engine spaces at 30 °C (US law)."""
    size = parse_size(f"{gauge} AWG", {})
    for found in (ampacity(size, insulation_c), sure_ampacity(size, insulation_c)):
        assert found is not None
        assert found.value == amps
        assert found.decides
        assert "33 CFR 183.425" in found.source


@pytest.mark.parametrize(("insulation_c", "factor"), [(60, 0.58), (75, 0.75), (90, 0.82), (105, 0.85)])
def test_engine_spaces(insulation_c: float, factor: float) -> None:
    """Note 1 of Table 5, engine space at 50 °C: 105 °C by two suppliers that quote the law; 60, 75 and 90 °C as NEC
    Table 310.15(B)(2)(a) prints them for 46 to 50 °C."""
    assert ambient_factor(insulation_c, 50).value == factor


@pytest.mark.parametrize(("conductors", "factor"), [
    (1, 1.0), (2, 1.0), (3, 0.7), (4, 0.6), (6, 0.6), (7, 0.5), (24, 0.5), (25, 0.4), (60, 0.4),
])  # fmt: skip
def test_bundles(conductors: int, factor: float) -> None:
    """Note 2 of Table 5 as a marine supplier reprints it: 3, 4 to 6, 7 to 24, 25 and more conductors."""
    assert grouping_factor(conductors).value == factor


MAKER = {
    "18": (17.0, 14.0, 12.0, 10.0),
    "16": (21.3, 17.5, 15.0, 12.5),
    "14": (29.8, 24.5, 21.0, 17.5),
    "12": (38.3, 31.5, 27.0, 22.5),
    "10": (51.0, 42.0, 36.0, 30.0),
    "8": (68.0, 56.0, 48.0, 40.0),
    "6": (102.0, 84.0, 72.0, 60.0),
    "4": (136.0, 112.0, 96.0, 80.0),
    "2": (178.5, 147.0, 126.0, 105.0),
    "1": (208.3, 171.5, 147.0, 122.5),
    "1/0": (242.3, 199.5, 171.0, 142.5),
    "2/0": (280.5, 231.0, 198.0, 165.0),
    "3/0": (327.3, 269.5, 231.0, 192.5),
    "4/0": (378.3, 311.5, 267.0, 222.5),
}


@pytest.mark.parametrize(("gauge", "row"), MAKER.items())
def test_the_factors_give_a_makers_table(gauge: str, row: tuple[float, ...]) -> None:
    """A boat cable maker's table (UL 1426, 105 °C): in an engine space, and 3, 4 to 6, 7 to 24 bundled outside."""
    single = ampacity(parse_size(f"{gauge} AWG", {}), 105)
    assert single is not None
    factors = (ambient_factor(105, 50), *(grouping_factor(count) for count in (3, 5, 20)))
    assert [single.value * factor.value for factor in factors] == pytest.approx(row, abs=0.051)


@pytest.mark.parametrize(
    ("size", "insulation_c", "amps"),
    [("1.5 mm2", 60, 12), ("2.5 mm2", 60, 17), ("4 mm2", 60, 22), ("1.5 mm2", 105, 25), ("2.5 mm2", 105, 35),
     ("4 mm2", 105, 45)],
)  # fmt: skip
def test_iso_10133_where_a_page_repeats_it(size: str, insulation_c: float, amps: float) -> None:
    """ISO 10133 Table A.1, the six cells that a general wiring page repeats."""
    for found in (ampacity(parse_size(size, {}), insulation_c, "ISO 10133"),
                  sure_ampacity(parse_size(size, {}), insulation_c, "ISO 10133")):  # fmt: skip
        assert found is not None
        assert found.value == amps
        assert found.confirmed is Confirmed.ONE_PAGE


@pytest.mark.parametrize(("size", "insulation_c"), [("1 mm2", 105), ("6 mm2", 105), ("2.5 mm2", 90), ("120 mm2", 60)])
def test_the_rest_of_iso_10133_is_remembered(size: str, insulation_c: float) -> None:
    found = ampacity(parse_size(size, {}), insulation_c, "ISO 10133")
    assert found is not None
    assert not found.decides
