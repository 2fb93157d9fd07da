"""Which barrel takes which wire, and disputes between sources."""

import pytest

from harnessdoc.model.quantities import parse_size
from harnessdoc.tables.auto_cable import auto_mm2
from harnessdoc.tables.barrels import barrel, barrel_for, barrel_takes, most_copper_mm2


@pytest.mark.parametrize(
    ("colour", "size", "takes", "disputed"),
    [
        ("red", "0.5 mm2", True, False),
        ("red", "1.5 mm2", True, False),
        ("red", "2.5 mm2", False, False),
        ("red", "0.35 mm2", False, False),
        ("red", "22 AWG", True, False),  # 0.33 mm²: inside by AWG, outside by mm²
        ("red", "18 AWG", True, False),
        ("red", "16 AWG", True, True),
        ("red", "14 AWG", False, False),
        ("blue", "16 AWG", True, False),
        ("blue", "2.5 mm2", True, False),
        ("blue", "4 mm2", False, False),
        ("yellow", "4 mm2", True, False),
        ("yellow", "2.5 mm2", True, True),
        ("yellow", "12 AWG", True, False),
        ("yellow", "8 AWG", False, False),
        ("yellow", "6 mm auto", True, False),
        ("yellow", "10 mm2", False, False),
    ],
)
def test_a_barrel_takes_a_wire(colour: str, size: str, takes: bool, disputed: bool) -> None:
    fit = barrel_takes(colour, parse_size(size, auto_mm2()))
    assert fit is not None
    assert (fit.takes, fit.disputed) == (takes, disputed)


def test_a_dispute_is_told() -> None:
    fit = barrel_takes("red", parse_size("16 AWG", {}))
    assert fit is not None
    assert fit.wanted == "22 to 16 AWG (elsewhere 22 to 18 AWG)"
    assert "US marine practice" in fit.source


def test_a_colour_that_is_not_made_has_no_answer() -> None:
    assert barrel("green") == ()
    assert barrel_takes("green", parse_size("1 mm2", {})) is None
    assert most_copper_mm2("green") is None


@pytest.mark.parametrize(
    ("size", "colour"),
    [("1 mm2", "red"), ("2.5 mm2", "blue"), ("16 AWG", "blue"), ("6 mm2", "yellow"), ("16 mm2", None)],
)
def test_the_undisputed_barrel_is_proposed(size: str, colour: str | None) -> None:
    assert barrel_for(parse_size(size, {})) == colour
