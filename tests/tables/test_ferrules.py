"""Which ferrule takes which copper."""

import pytest

from harnessdoc.tables.ferrules import ferrule, ferrule_for, overall_length, sleeves


@pytest.mark.parametrize(
    ("area_mm2", "takes_mm2"),
    [
        (0.5, 0.5),
        (0.5176, 0.5),  # 20 AWG
        (0.6, 0.75),
        (0.823, 1),  # 18 AWG
        (1.309, 1.5),  # 16 AWG
        (2.081, 2.5),  # 14 AWG
        (2.5, 2.5),
        (2.7, 4),
        (4.59, 6),
        (50, 50),
        (53.48, None),  # 1/0 AWG: past the standard
        (0.35, None),  # the standard begins at 0.5
        (0.2, None),
    ],
)
def test_the_smallest_ferrule_that_takes_the_copper(area_mm2: float, takes_mm2: float | None) -> None:
    found = ferrule_for(area_mm2)
    assert (found and found.area_mm2) == takes_mm2


def test_only_nominal_sizes_are_made() -> None:
    assert ferrule(2.5) is not None
    assert ferrule(3) is None


def test_remembered_sleeves_are_left_out() -> None:
    """2.5 mm²: 10 and 12 mm stand on the catalogue page, 8 and 18 mm are remembered."""
    assert [sleeve.length_mm for sleeve in sleeves(2.5)] == [10, 12]
    assert all(sleeve.decides for sleeve in sleeves(2.5))
    assert overall_length(2.5, 8) is None
