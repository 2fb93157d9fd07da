"""Where wires are marked, typed from FAA AC 43.13-1B section 16 (public domain)."""

from itertools import pairwise

from harnessdoc.labels.placement import marks
from harnessdoc.tables.placement import marking_rule

INCH = 25.4


def test_the_figures_of_the_rule() -> None:
    """FAA AC 43.13-1B, paragraphs 11-205 to 11-209 and figure 11-23: each end, 3 in from it; every 15 in at most; none
    on wires under 3 in; one near the centre on wires of 3 to 7 in."""
    rule = marking_rule()
    assert [figure.value for figure in rule] == [3 * INCH, 15 * INCH, 3 * INCH, 7 * INCH]
    assert all(figure.unit == "mm" and figure.decides for figure in rule)


def test_the_rule_on_wires_of_whole_inches() -> None:
    """2.9 in none; 3, 5 and 7 in one; 8 in both ends; 21 in (3 + 15 + 3) both ends; 22 in a third."""
    counts = {inches: marks(inches * INCH).count for inches in (2.9, 3, 5, 7, 8, 21, 22)}
    assert counts == {2.9: 0, 3: 1, 5: 1, 7: 1, 8: 2, 21: 2, 22: 3}
    assert marks(5 * INCH).at_mm == (2.5 * INCH,)


def test_no_interval_is_longer_than_the_rule_s() -> None:
    """15 in between any two marks, and the first and last 3 in from the ends."""
    for inches in range(8, 400, 7):
        at_mm = marks(inches * INCH).at_mm
        assert at_mm[0] == 3 * INCH
        assert abs(at_mm[-1] - (inches - 3) * INCH) < 1e-6
        assert max(b - a for a, b in pairwise(at_mm)) <= 15 * INCH + 1e-6
