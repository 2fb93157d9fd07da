"""Modules as whole dots, worked by hand."""

from __future__ import annotations

import pytest

from harnessdoc.labels.dots import dot_mm, least_dots, module_dots, snap_down, snap_up


@pytest.mark.parametrize(
    ("dpi", "dots"),
    [
        (203, 4),  # 0.5005 mm
        (300, 4),  # 0.3387 mm
        (360, 5),  # 4 dots are 0.2822 mm, 5 are 0.3528 mm
        (600, 8),  # 7 dots are 0.2963 mm, 8 are 0.3387 mm
    ],
)
def test_both_floors_are_kept(dpi: int, dots: int) -> None:
    """0.33 mm (memory) and 4 dots (DENSO WAVE); 25.4 / dpi * dots by hand."""
    assert least_dots(dpi) == dots


def test_a_version_2_symbol_at_203_dpi_takes_16_5_mm() -> None:
    """25 + 8 modules of 4 dots: 33 * 4 * 25.4 / 203 = 16.516 mm."""
    assert module_dots(33, 16.52, 203) == 4
    assert module_dots(33, 16.51, 203) is None


def test_the_most_dots_that_fit() -> None:
    """37 modules at 300 dpi: 4 dots 12.531 mm, 5 dots 15.663 mm, 6 dots 18.796 mm."""
    assert module_dots(37, 12.53, 300) is None
    assert module_dots(37, 12.54, 300) == 4
    assert module_dots(37, 15.66, 300) == 4
    assert module_dots(37, 15.67, 300) == 5
    assert module_dots(37, 18.80, 300) == 6
    assert module_dots(37, 0.0, 300) is None


def test_snapping_lands_on_dots_and_moves_by_less_than_one() -> None:
    for value in (0.0, 4.75, 13.37, 199.999):
        up, down = snap_up(value, 203), snap_down(value, 203)
        for snapped in (up, down):
            assert snapped / dot_mm(203) == pytest.approx(round(snapped / dot_mm(203)), abs=1e-9)
        assert down - 1e-9 <= value <= up + 1e-6
        assert up - value < dot_mm(203)
        assert value - down < dot_mm(203)
    assert snap_up(10 * dot_mm(300), 300) == pytest.approx(10 * dot_mm(300))


@pytest.mark.parametrize("dpi", [0, -300, 71, 2401])
def test_no_printer_has_such_a_density(dpi: int) -> None:
    with pytest.raises(ValueError, match="72 to 2400"):
        dot_mm(dpi)
