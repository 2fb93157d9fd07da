"""Path data read into absolute steps."""

from __future__ import annotations

import math

import pytest

from harnessdoc.sheet.paths import Segment, read_path


def test_absolute_and_relative_letters_agree() -> None:
    """A square, written both ways."""
    square = (
        Segment("M", (1, 2)),
        Segment("L", (4, 2)),
        Segment("L", (4, 5)),
        Segment("L", (1, 5)),
        Segment("Z", ()),
    )
    assert read_path("M1 2 L4,2 4 5 L 1 5Z") == square
    assert read_path("m1,2h3v3h-3z") == square
    assert read_path("M1 2H4V5H1z") == square


def test_pairs_after_a_move_are_lines() -> None:
    """SVG 1.1, 8.3.2: further pairs after m are relative lines; after z the start point counts again."""
    assert read_path("m1 1 2 0z l0 3")[-1] == Segment("L", (1, 4))
    assert read_path("m1 1 2 0")[-1] == Segment("L", (3, 1))


def test_a_quarter_arc_goes_through_its_middle() -> None:
    """A quarter circle of radius 10 round (0, 0): its cubic's middle lies 10 mm from the centre within 0.03 %."""
    (_, curve) = read_path("M10 0 A10 10 0 0 1 0 10")
    x1, y1, x2, y2, x3, y3 = curve.numbers
    assert curve.command == "C"
    assert (x3, y3) == (0, 10)
    middle = (10 + 3 * x1 + 3 * x2 + x3) / 8, (0 + 3 * y1 + 3 * y2 + y3) / 8
    assert math.hypot(*middle) == pytest.approx(10, rel=3e-4)
    assert middle[0] == pytest.approx(middle[1])


@pytest.mark.parametrize(("large", "sweep", "pieces"), [(0, 0, 1), (0, 1, 1), (1, 0, 3), (1, 1, 3)])
def test_arc_flags_pick_the_way_round(large: int, sweep: int, pieces: int) -> None:
    """A quarter or three quarters of the circle, a cubic for each quarter."""
    assert len(read_path(f"M10 0 A10 10 0 {large} {sweep} 0 10")) == 1 + pieces


def test_too_small_radii_are_enlarged() -> None:
    """SVG 1.1 F.6.6: end points 20 apart with radius 1 make a half circle of radius 10."""
    (_, first, second) = read_path("M0 0 a1 1 0 0 1 20 0")
    assert first.numbers[-2:] == pytest.approx((10, -10))
    assert second.numbers[-2:] == (20, 0)


@pytest.mark.parametrize(
    "data",
    [
        "",
        "L1 1",
        "M1",
        "M1 1 L2",
        "M1 1 Z 3",
        "M1 1 X2 2",
        "M1 1 <script>",
        "M1 1 L nan nan",
        "1 1",
        "M 1 1 C 1 2 3 4 5",
    ],
)
def test_what_is_no_path_is_refused(data: str) -> None:
    """No half-read path is drawn."""
    with pytest.raises(ValueError, match="path"):
        read_path(data)
