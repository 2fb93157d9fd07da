"""Bundle factors, terminal numbers and QR capacities, typed from sources outside the project."""

import math

import pytest

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


@pytest.mark.parametrize(("n_wires", "printed"), [(10, 4.0), (12, 4.0), (20, 5.31), (30, 6.41), (50, 8.41)])
def test_bundle_factors_as_printed(n_wires: int, printed: float) -> None:
    """IS-Rayfast appendix on wire and cable bundle size."""
    found = bundle_factor(n_wires)
    assert found is not None
    assert found.value == printed


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
