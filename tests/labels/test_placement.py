"""How many labels, and where, counted by hand; the figures themselves are in tests/published/test_placement.py."""

from __future__ import annotations

import pytest

from harnessdoc.labels.placement import marks


@pytest.mark.parametrize(
    ("length_mm", "ends", "count"),
    [(0, 0, 0), (76, 0, 0), (76.2, 1, 1), (120, 1, 1), (177.8, 1, 1), (178, 2, 2), (533.4, 2, 2), (534, 2, 3)],
)
def test_count_by_length(length_mm: float, ends: int, count: int) -> None:
    """76.2 + 381 + 76.2 = 533.4 mm: longer needs a third mark."""
    found = marks(length_mm)
    assert (found.ends, found.count) == (ends, count)


def test_the_marks_of_a_long_wire_are_even_and_near_enough() -> None:
    """2400 - 2 * 76.2 = 2247.6; / 381 = 5.9, so 6 steps of 374.6: 7 marks, 5 of them between the ends."""
    found = marks(2400)
    assert found.count == 7
    assert len(found.along_mm) == 5
    assert found.at_mm[0] == pytest.approx(76.2)
    assert found.at_mm[1] == pytest.approx(450.8)
    assert found.at_mm[-1] == pytest.approx(2323.8)
    assert found.along() == "5 more along its 2.4 m, 375 mm apart"


def test_it_says_where() -> None:
    assert marks(400).at_end("terminal") == "76 mm from the terminal"
    assert marks(120).at_end("terminal") == "one label, at the middle: wire of 120 mm"
    assert marks(50).at_end("terminal") == "none needed: the wire is 50 mm long, under 76 mm"
    assert marks(None).at_end("cut") == "76 mm from the cut; its length is unknown, so both ends are marked"
    assert marks(None).count == 2
    assert marks(400).along() == ""


def test_a_length_that_is_none_is_refused() -> None:
    for length_mm in (-1.0, float("nan"), float("inf")):
        with pytest.raises(ValueError, match="mm long"):
            marks(length_mm)
