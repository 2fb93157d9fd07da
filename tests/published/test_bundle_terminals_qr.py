"""Bundle factors, terminal numbers and QR capacities, typed from sources outside the project."""

import math

import pytest

from harnessdoc.routing import bundle_diameter_mm
from harnessdoc.tables.bundle import bundle_factor
from harnessdoc.tables.qr import capacities, least_module_mm, print_limit, published_module_mm
from harnessdoc.tables.terminal_numbers import terminal_meaning


@pytest.mark.parametrize(
    ("n_wires", "exact"),
    [
        (1, 1),
        (2, 2),
        (3, 1 + 2 / math.sqrt(3)),
        (4, 1 + math.sqrt(2)),
        (5, 2.7013),
        (7, 3),
        (19, 5),
        (37, 7),
        (61, 9),
    ],
)
def test_bundle_factors_against_packing(n_wires: int, exact: float) -> None:
    """Exact packing of equal circles in a circle; a stranding list prints 2.155, 3, 5, 7 and 9 for 3 to 61."""
    found = bundle_factor(n_wires)
    assert found is not None
    assert found.value == pytest.approx(exact, abs=0.006)


PRINTED = (
    "1 2 2.16 2.41 2.7 3 3 3.6 4 4 4 4 4.41 4.41 4.7 4.7 5 5 5 5.31 5.31 5.61 5.61 5.61 6 6 6 6.41 6.41 6.41 6.7 6.7 "
    "6.7 7 7 7 7 7.31 7.31 7.31 7.61 7.61 7.61 7.61 8 8 8 8 8.41 8.41 8.41 8.41 8.7 8.7 8.7 8.7 9 9 9 9 9"
)


@pytest.mark.parametrize(("n_wires", "printed"), list(enumerate(map(float, PRINTED.split()), 1)))
def test_bundle_factors_as_printed(n_wires: int, printed: float) -> None:
    """IS-Rayfast appendix on wire and cable bundle size, all 61 rows."""
    found = bundle_factor(n_wires)
    assert found is not None
    assert found.value == printed


@pytest.mark.parametrize(
    ("wires_mm", "diameter_mm", "within_mm"),
    [
        ([1.143] * 6, 3.43, 0.01),  # wire handbook extract: 6 conductors of 0.045 in are 0.135 in before the shield
        ([1.19] * 3 + [1.40] * 5 + [1.65], 4.92, 0.01),  # IS-Rayfast catalogue issue 9 (2017), appendix
        ([1.0] * 3, 2.1547, 0.0001),  # cableizer.com: 1 + 2 / sqrt 3
        ([1.0] * 4, 2.4142, 0.005),  # cableizer.com: 1 + sqrt 2; the printed factor is 2.41
        ([1.0] * 5, 2.701, 0.002),  # bundle diameter page, exact packing
    ],
)
def test_bundle_diameters_as_printed(wires_mm: list[float], diameter_mm: float, within_mm: float) -> None:
    """Examples that other pages work out."""
    assert bundle_diameter_mm(wires_mm) == pytest.approx(diameter_mm, abs=within_mm)


@pytest.mark.parametrize(("count", "wire_mm", "area_sum_mm"), [(30, 2.0, 10.95), (10, 12.7, 40.1), (20, 6.35, 28.4)])
def test_bundles_are_thicker_than_their_copper_and_insulation(count: int, wire_mm: float, area_sum_mm: float) -> None:
    """Pages that add areas without a packing factor (ehow.co.uk, calculator.7search.cc): a lower bound."""
    assert bundle_diameter_mm([wire_mm] * count) > 1.15 * area_sum_mm


@pytest.mark.parametrize(
    ("terminal", "word"),
    [("15", "switched"), ("30", "battery"), ("31", "negative"), ("49a", "pulsed"), ("50", "starter"), ("58", "tail")],
)
def test_terminal_numbers(terminal: str, word: str) -> None:
    """DIN 72552 as excerpted in an automotive handbook and on kfz-tech.de."""
    found = terminal_meaning(terminal)
    assert found is not None
    assert word in found.meaning
    assert found.decides


@pytest.mark.parametrize(
    ("version", "level", "numeric", "alphanumeric", "byte"),
    [
        (1, "L", 41, 25, 17),
        (1, "H", 17, 10, 7),
        (2, "M", 63, 38, 26),
        (3, "Q", 77, 47, 32),
        (4, "M", 149, 90, 62),
        (5, "L", 255, 154, 106),
        (9, "H", 235, 143, 98),
        (10, "L", 652, 395, 271),
    ],
)
def test_symbol_capacities(version: int, level: str, numeric: int, alphanumeric: int, byte: int) -> None:
    """ISO/IEC 18004 capacity table as two pages print it."""
    found = next(one for one in capacities() if (one.version, one.level) == (version, level))
    assert (found.numeric, found.alphanumeric, found.byte) == (numeric, alphanumeric, byte)
    assert found.modules == 17 + 4 * version


def test_module_sizes() -> None:
    """DENSO WAVE, point for setting the module size: at 300 dpi 4, 5, 6 dots are 0.33, 0.42, 0.5 mm."""
    found = [published_module_mm(300, dots) for dots in (4, 5, 6)]
    assert [one.value for one in found if one] == [0.33, 0.42, 0.5]


def test_the_least_module_and_quiet_zone() -> None:
    """4 dots (DENSO WAVE) at 300 dpi; 4 modules of quiet zone (ISO/IEC 18004 per GS1 UK)."""
    limits = [least_module_mm(), print_limit("least dots a module"), print_limit("quiet zone")]
    assert [one.value for one in limits if one] == [0.33, 4, 4]
    assert all(one.decides for one in limits if one)
