"""Tabs, bundle factors, terminal numbers, QR capacities, diameters and resistances: the look-ups' edges."""

import pytest

from harnessdoc.model.quantities import parse_size
from harnessdoc.tables import bundle, outside_diameters, qr, resistance, tabs, terminal_numbers
from harnessdoc.tables.figures import Confirmed


def test_a_remembered_tab_has_no_width() -> None:
    assert "9.5" in tabs.tab_series()
    assert tabs.tab_width_mm("9.5") is None
    assert not any(figure.decides for figure in tabs.tab_thickness_mm("6.3"))


def test_a_bundle_past_the_list_has_no_factor() -> None:
    assert bundle.bundle_factor(61) is not None
    assert bundle.bundle_factor(62) is None
    assert bundle.bundle_factor(0) is None


def test_a_relay_is_marked_unlike_the_standard_and_says_it_was_remembered() -> None:
    by_habit = terminal_numbers.terminal_meaning("87", terminal_numbers.RELAY)
    by_din = terminal_numbers.terminal_meaning("87")
    assert by_habit is not None
    assert by_din is not None
    assert "normally open" in by_habit.meaning
    assert "input" in by_din.meaning
    assert not by_habit.decides
    assert by_din.decides


def test_a_terminal_the_marking_does_not_know() -> None:
    assert terminal_numbers.terminal_meaning("99") is None
    assert terminal_numbers.terminal_meaning("15", terminal_numbers.RELAY) is None


def test_diameters_are_not_read_between_rows_nor_from_memory() -> None:
    """5 mm² stands between two rows, 10 mm² (6.0 mm) is remembered, 6 AWG is in no list."""
    for text in ("5 mm2", "10 mm2", "25 mm2", "6 AWG", "22 AWG"):
        assert outside_diameters.outside_diameter_mm(parse_size(text, {})) is None


def test_the_larger_diameter_is_taken_where_makers_differ() -> None:
    """0.35 mm²: 1.4 mm for type B, 1.3 mm for type A."""
    found = outside_diameters.outside_diameter_mm(parse_size("0.35 mm2", {}))
    assert found is not None
    assert found.value == 1.4


def test_remembered_resistances_are_left_out() -> None:
    assert resistance.published_ohm_per_km(10, "thin wall") is None
    assert resistance.published_ohm_per_km(0.6) is None
    found = resistance.published_ohm_per_km(0.35, "thin wall")
    assert found is not None
    assert found.value == 54.4  # not the 52.0 that was remembered


def test_copper_constants_and_heat() -> None:
    assert resistance.resistance_factor(20) == pytest.approx(1)
    assert resistance.resistance_factor(-250) == 0
    assert resistance.solid_copper_ohm_per_km(1).confirmed is Confirmed.COMPUTED
    with pytest.raises(ValueError, match="colder"):
        resistance.resistance_factor(-300)
    with pytest.raises(KeyError):
        resistance.copper("price")


def test_the_smallest_symbol() -> None:
    """Version 2-M holds 26 bytes and 38 alphanumeric characters; 27 bytes need version 3."""
    sizes = [qr.smallest_symbol(count, mode, "M") for count, mode in ((26, "byte"), (27, "byte"), (38, "alphanumeric"))]
    assert [one.version for one in sizes if one] == [2, 3, 2]
    assert qr.smallest_symbol(10_000, "byte", "L") is None
    with pytest.raises(KeyError):
        qr.smallest_symbol(1, "kanji", "L")


def test_remembered_print_limits_are_left_out() -> None:
    assert qr.print_limit("least module, phone") is None
    assert qr.print_limit("reading distance to symbol width") is None
    assert qr.published_module_mm(203, 4) is None
