"""American Wire Gauge against published charts; every figure is typed from its source."""

import pytest

from harnessdoc.model.quantities import parse_size

CHART_MM2 = {
    "24 AWG": 0.205,
    "22 AWG": 0.326,
    "20 AWG": 0.518,
    "18 AWG": 0.823,
    "16 AWG": 1.31,
    "14 AWG": 2.08,
    "12 AWG": 3.31,
    "10 AWG": 5.26,
    "8 AWG": 8.37,
    "6 AWG": 13.3,
    "4 AWG": 21.2,
    "2 AWG": 33.6,
    "1/0 AWG": 53.5,
    "2/0 AWG": 67.4,
}

CHART_DIAMETER_MM = {
    "3 AWG": 5.827,
    "1 AWG": 7.348,
    "3/0 AWG": 10.40,
    "4/0 AWG": 11.68,
    "12 AWG": 2.053,
    "36 AWG": 0.127,
}


@pytest.mark.parametrize(("text", "area_mm2"), CHART_MM2.items())
def test_areas_of_the_pull_out_table(text: str, area_mm2: float) -> None:
    """mm² printed beside the gauges in the UL 486A pull-out table (TE specification 114-2161), three digits."""
    assert float(f"{parse_size(text, {}).area_mm2:.3g}") == pytest.approx(area_mm2, abs=area_mm2 * 0.0025)


@pytest.mark.parametrize(("text", "diameter_mm"), CHART_DIAMETER_MM.items())
def test_diameters_of_the_gauge_chart(text: str, diameter_mm: float) -> None:
    """Diameters in mm of the HyperPhysics and daycounter.com wire gauge charts, within their rounding.

    36 AWG is 0.005 in (0.127 mm) and 4/0 AWG 0.46 in (11.684 mm) by the definition in ASTM B258.
    """
    found = (parse_size(text, {}).area_mm2 / 0.7853981634) ** 0.5
    assert found == pytest.approx(diameter_mm, abs=0.0051 if diameter_mm > 10 else 0.00051)


def test_circular_mils_of_the_largest_gauge() -> None:
    """4/0 AWG is 211,600 circular mils: 460 mil squared (ASTM B258); one circular mil is 5.067075e-4 mm²."""
    assert parse_size("4/0 AWG", {}).area_mm2 / 5.067075e-4 == pytest.approx(211_600, rel=1e-5)
