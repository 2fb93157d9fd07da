"""Ferrules, barrels and tabs against the lists that print them; every figure is typed from its source."""

import pytest

from harnessdoc.tables.barrels import barrel, most_copper_mm2
from harnessdoc.tables.ferrules import ferrule, overall_length, sleeves
from harnessdoc.tables.tabs import tab_width_mm


@pytest.mark.parametrize(
    ("area_mm2", "collar"),
    [
        (0.5, "white"),
        (0.75, "grey"),
        (1, "red"),
        (1.5, "black"),
        (2.5, "blue"),
        (4, "grey"),
        (6, "yellow"),
        (10, "red"),
        (16, "blue"),
        (25, "yellow"),
        (35, "red"),
        (50, "blue"),
    ],
)
def test_collar_colours(area_mm2: float, collar: str) -> None:
    """DIN 46228-4 per litze24.de and a panel-wiring blog (0.5 to 10 mm² on both, 16 to 50 mm² on one)."""
    found = ferrule(area_mm2)
    assert found is not None
    assert found.collar == collar


@pytest.mark.parametrize(
    ("area_mm2", "sleeve_mm", "overall_mm"),
    [(0.5, 8, 14.0), (1.5, 10, 16.3), (2.5, 12, 19.4), (6, 12, 20.5), (50, 20, 36.0)],
)
def test_sleeve_lengths(area_mm2: float, sleeve_mm: float, overall_mm: float) -> None:
    """Sleeve and overall lengths of one ferrule catalogue page."""
    assert sleeve_mm in [sleeve.length_mm for sleeve in sleeves(area_mm2)]
    found = overall_length(area_mm2, sleeve_mm)
    assert found is not None
    assert found.value == overall_mm


def test_strip_length() -> None:
    """A drive maker's manual: a 10 mm sleeve with collar wants the wire stripped 12 mm."""
    assert [sleeve.strip_mm for sleeve in sleeves(1.5) if sleeve.length_mm == 10] == [12]


@pytest.mark.parametrize(
    ("colour", "awg", "mm2"),
    [("red", (22, 16), (0.5, 1.5)), ("blue", (16, 14), (1.5, 2.5)), ("yellow", (12, 10), (4, 6))],
)
def test_barrel_ranges(colour: str, awg: tuple[int, int], mm2: tuple[float, float]) -> None:
    """Terminal makers' selection pages: three agree on AWG, two on mm²."""
    ranges = [(one.thinnest, one.thickest) for one in barrel(colour)]
    assert ranges[:2] == [awg, mm2]


def test_disputed_ranges_are_kept() -> None:
    """US marine practice prints red as 22 to 18 AWG; one ring-terminal maker yellow as 2.5 to 6 mm²."""
    assert (22, 18) in [(one.thinnest, one.thickest) for one in barrel("red")]
    assert (2.5, 6) in [(one.thinnest, one.thickest) for one in barrel("yellow")]


@pytest.mark.parametrize(("colour", "most_mm2"), [("red", 1.5), ("blue", 2.5), ("yellow", 6)])
def test_the_most_copper_in_a_barrel(colour: str, most_mm2: float) -> None:
    """The upper ends of the mm² ranges on terminal makers' selection pages."""
    found = most_copper_mm2(colour)
    assert found is not None
    assert found.value == most_mm2


@pytest.mark.parametrize(("series", "width_mm"), [("2.8", 2.8), ("4.8", 4.8), ("6.3", 6.3)])
def test_tab_widths(series: str, width_mm: float) -> None:
    """Series widths on the ETCO test values page (0.110, 0.187 and 0.250 in printed beside them)."""
    found = tab_width_mm(series)
    assert found is not None
    assert found.value == width_mm
