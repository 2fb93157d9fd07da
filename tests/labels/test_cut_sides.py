"""Both sides' words for a plug before and after its cut."""

from __future__ import annotations

from harnessdoc.labels.cut_sides import cut_sides
from harnessdoc.model.points import Point
from tests.checks.test_gate import PLAIN
from tests.electrics.written import harness_of


def test_both_sides_of_a_cut_to_come() -> None:
    found = cut_sides(harness_of(PLAIN), "X1")
    assert set(found) == {(Point("X1", "1"), ""), (Point("X1", "1"), "W2")}
    assert found[Point("X1", "1"), ""].startswith("X1:1, plug side, W2")
    assert found[Point("X1", "1"), "W2"].startswith("W2, loom side X1:1, → S1:2")
