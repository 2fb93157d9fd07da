"""Conductor resistance and copper constants, typed from the standards' tables as printed on public pages."""

import pytest

from harnessdoc.electrics.assemble import ohm_per_m
from harnessdoc.model.quantities import parse_size
from harnessdoc.tables.resistance import (
    copper,
    published_ohm_per_km,
    resistance_factor,
    solid_copper_ohm_per_km,
)


@pytest.mark.parametrize(
    ("area_mm2", "plain", "tinned"),
    [
        (0.5, 39.0, 40.1),
        (0.75, 26.0, 26.7),
        (1, 19.5, 20.0),
        (1.5, 13.3, 13.7),
        (2.5, 7.98, 8.21),
        (4, 4.95, 5.09),
        (6, 3.30, 3.39),
        (10, 1.91, 1.95),
        (16, 1.21, 1.24),
        (25, 0.780, 0.795),
        (35, 0.554, 0.565),
        (50, 0.386, 0.393),
        (70, 0.272, 0.277),
        (95, 0.206, 0.210),
        (120, 0.161, 0.164),
    ],
)
def test_class_5_limits(area_mm2: float, plain: float, tinned: float) -> None:
    """IEC 60228 Table 3, class 5, largest ohm/km at 20 °C, as uecables.com and a GB/T 3956 reprint give it."""
    found = [published_ohm_per_km(area_mm2, "class 5", tinned=coat) for coat in (False, True)]
    assert [one.value for one in found if one] == [plain, tinned]


@pytest.mark.parametrize(
    ("area_mm2", "ohm_per_km"),
    [(0.35, 54.4), (0.5, 37.1), (0.75, 24.7), (1, 18.5), (1.5, 12.7), (2.5, 7.6), (4, 4.71), (6, 3.14), (16, 1.16)],
)
def test_thin_wall_limits(area_mm2: float, ohm_per_km: float) -> None:
    """Largest ohm/km at 20 °C in a cable maker's thin-wall table, stated to meet ISO 6722."""
    found = published_ohm_per_km(area_mm2, "thin wall")
    assert found is not None
    assert found.value == ohm_per_km


def test_the_larger_of_two_makers_figures_is_taken() -> None:
    """2 mm² thin wall: 9.42 ohm/km on the type B table, 9.40 on the type A table."""
    found = published_ohm_per_km(2, "thin wall")
    assert found is not None
    assert found.value == 9.42


def test_annealed_copper() -> None:
    """NBS Handbook 100: 100 % IACS is 1/58 ohm.mm²/m, and 0.00393 per K at 20 °C (IEC 60028)."""
    assert copper("resistivity at 20 C").value == pytest.approx(1000 / 58, rel=1e-4)
    assert copper("temperature coefficient at 20 C").value == 0.00393


@pytest.mark.parametrize(("gauge_mm2", "ohm_per_km"), [(2.081, 8.285), (5.261, 3.277), (13.30, 1.296)])
def test_solid_gauge_resistance(gauge_mm2: float, ohm_per_km: float) -> None:
    """14, 10 and 6 AWG in ohm/km on the HyperPhysics and daycounter.com gauge charts, within rounding."""
    assert solid_copper_ohm_per_km(gauge_mm2).value == pytest.approx(ohm_per_km, rel=1e-3)


def test_copper_when_warm() -> None:
    """cabledatasheet.com: 0.1 ohm at 20 °C is 0.11179 ohm at 50 °C."""
    assert 0.1 * resistance_factor(50) == pytest.approx(0.11179, abs=6e-6)


@pytest.mark.parametrize(("temperature_c", "factor"), [(10, 1.0409), (30, 0.9622), (60, 0.8642), (90, 0.7843)])
def test_bringing_a_reading_to_20_c(temperature_c: float, factor: float) -> None:
    """By hand from 254.5 / (234.5 + T); IEC 60228 prints 1.042, 0.962, 0.862, 0.781 with its rounder 250/(230+T)."""
    assert 1 / resistance_factor(temperature_c) == pytest.approx(factor, abs=6e-5)


@pytest.mark.parametrize(
    ("area_mm2", "ohm_per_km"), [(0.5, 39.0), (1, 19.5), (2.5, 7.98), (6, 3.30), (10, 1.91), (25, 0.780), (95, 0.206)]
)
def test_the_solver_takes_the_largest_of_class_5(area_mm2: float, ohm_per_km: float) -> None:
    """IEC 60228 Table 3 class 5, plain, at 20 °C; at 50 °C by cabledatasheet.com's 0.11179 / 0.1."""
    assert ohm_per_m(area_mm2) == pytest.approx(ohm_per_km / 1000, rel=1e-9)
    assert ohm_per_m(area_mm2, 50) == pytest.approx(ohm_per_km / 1000 * 1.1179, rel=1e-4)


@pytest.mark.parametrize(
    ("gauge", "ohm_per_km"), [("18", 20.95), ("14", 8.285), ("10", 3.277), ("2", 0.5127), ("4/0", 0.1608)]
)
def test_the_solver_takes_gauges_by_copper(gauge: str, ohm_per_km: float) -> None:
    """Solid gauges of the HyperPhysics and daycounter.com charts; stranded wire about 2 % more."""
    assert ohm_per_m(parse_size(f"{gauge} AWG", {}).area_mm2) == pytest.approx(1.02 * ohm_per_km / 1000, rel=2e-3)
