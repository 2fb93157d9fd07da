"""Cable sold by a plain "mm"."""

from harnessdoc.model.quantities import parse_size
from harnessdoc.tables.auto_cable import auto_cable, auto_mm2


def test_the_smaller_copper_is_taken_where_lists_disagree() -> None:
    """3 mm auto is printed as 0.85 and as 1.13 mm²."""
    assert auto_mm2()["3"] == 0.85
    assert "1.13" in auto_cable()["3"].note


def test_the_table_serves_the_reading_of_sizes() -> None:
    assert parse_size("6 mm auto", auto_mm2()).area_mm2 == 4.59
