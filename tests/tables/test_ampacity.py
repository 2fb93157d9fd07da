"""How ampacities are looked up: sizes and temperatures between the printed ones, thin wires, warm places."""

from __future__ import annotations

import pytest

from harnessdoc.model.quantities import Size, awg_area_mm2
from harnessdoc.tables.ampacity import ambient_factor, ampacity, grouping_factor, sure_ampacity
from harnessdoc.tables.figures import Confirmed, deciding


def amps(area_mm2: float, insulation_c: float, rule: str = "33 CFR") -> float:
    found = ampacity(Size(area_mm2, ""), insulation_c, rule)
    assert found is not None
    return found.value


@pytest.mark.parametrize(("area_mm2", "gauge_a"), [(1, 10), (1.5, 15), (2.5, 20), (4, 25), (6, 40), (10, 55), (16, 80)])
def test_a_metric_size_counts_as_the_gauge_below(area_mm2: float, gauge_a: float) -> None:
    """1, 1.5, 2.5 ... mm² as 18, 16, 14 ... AWG at 60 °C."""
    assert amps(area_mm2, 60) == gauge_a


def test_a_figure_says_as_what_it_counts() -> None:
    found = ampacity(Size(2.5, ""), 65)
    assert found is not None
    assert found.note == "as 14 AWG at 60 °C"


def test_a_temperature_counts_as_the_column_below() -> None:
    assert [amps(2.5, c) for c in (60, 74.9, 75, 89, 90, 104, 105, 500)] == [20, 20, 20, 25, 30, 30, 35, 45]


def test_below_the_lowest_column_there_is_nothing() -> None:
    assert ampacity(Size(2.5, ""), 59.9) is None
    assert sure_ampacity(Size(2.5, ""), 59.9) is None


def test_thinner_than_all_is_in_proportion() -> None:
    """0.5 mm² of 0.8231 mm²: 10 A x 0.6075."""
    found = ampacity(Size(0.5, ""), 60)
    assert found is not None
    assert found.value == pytest.approx(6.075, abs=0.002)
    assert found.confirmed is Confirmed.COMPUTED


def test_proportion_is_on_the_safe_side() -> None:
    """In each column of Table 5 the thinnest wire carries the most A per mm²."""
    for column in ("60", "75", "80", "90", "105", "125", "200"):
        density = {
            row["size"]: float(row["value"])
            / awg_area_mm2(1 - int(row["size"][0]) if "/" in row["size"] else int(row["size"]))
            for row in deciding("ampacity")
            if row["table"] == "33 CFR 183.425 Table 5" and row["insulation_c"] == column
        }
        assert max(density, key=lambda size: density[size]) == "18"


def test_an_unknown_rule() -> None:
    with pytest.raises(KeyError):
        ampacity(Size(2.5, ""), 60, "by heart")


def test_remembered_cells_are_left_out_of_what_is_sure() -> None:
    """6 mm² at 105 °C by ISO 10133 is remembered as 60 A; printed is 45 A for 4 mm²."""
    sure = sure_ampacity(Size(6, ""), 105, "ISO 10133")
    assert sure is not None
    assert (sure.value, sure.decides) == (45, True)
    found = ampacity(Size(6, ""), 105, "ISO 10133")
    assert found is not None
    assert not found.decides


def test_a_cooler_column_in_print_is_better_than_a_remembered_one() -> None:
    """2.5 mm² at 90 °C: 17 A is printed at 60 °C."""
    sure = sure_ampacity(Size(2.5, ""), 90, "ISO 10133")
    assert sure is not None
    assert (sure.value, sure.note) == (17, "as 2.5 mm² at 60 °C")


@pytest.mark.parametrize(
    ("insulation_c", "ambient_c", "factor"),
    [
        (105, 20, 1.0),
        (105, 30, 1.0),
        (105, 80, 0.5774),
        (105, 105, 0.0),
        (60, 80, 0.0),
        (80, 50, 0.7746),
        (60, 45, 0.7071),
    ],
)
def test_warm_places_by_heat_balance(insulation_c: float, ambient_c: float, factor: float) -> None:
    """By hand: sqrt(25/75), sqrt(30/50), sqrt(15/30)."""
    assert ambient_factor(insulation_c, ambient_c).value == pytest.approx(factor, abs=5e-5)


@pytest.mark.parametrize(("insulation_c", "printed"), [(60, 0.58), (75, 0.75), (90, 0.82), (105, 0.85)])
def test_heat_balance_is_near_what_is_printed(insulation_c: float, printed: float) -> None:
    assert ambient_factor(insulation_c, 50.0001).value == pytest.approx(printed, abs=0.01)


def test_a_single_wire_is_no_bundle() -> None:
    assert grouping_factor(0).value == grouping_factor(2).value == 1
