"""Lines with round bends: their exact length, and any point along them."""

import math

import pytest

from harnessdoc.drawing.board.path import Path, saved_mm, turn_of


def test_a_right_angle_of_100_and_100_mm_with_a_bend_of_40_mm() -> None:
    """By hand: 60 + 60 mm of straights and a quarter of a circle, 40·π/2 = 62.832 mm: 182.832 mm."""
    path = Path(((0, 0), (100, 0), (100, 100)), 40)
    assert path.length_mm == pytest.approx(182.8319, abs=1e-4)
    assert [round(piece.length_mm, 3) for piece in path.pieces] == [60.0, 62.832, 60.0]


def test_a_fold_back_of_80_mm_is_half_a_circle() -> None:
    """By hand: 60 mm out, half a circle of 40 mm (125.664 mm), 60 mm back."""
    path = Path(((0, 0), (100, 0), (100, 80), (0, 80)), 40)
    assert path.length_mm == pytest.approx(60 + 125.6637 + 60, abs=1e-3)


@pytest.mark.parametrize("corner", [(100, 100), (100, -100)])
def test_the_middle_of_a_bend_lies_on_the_circle(corner: tuple[float, float]) -> None:
    """The bend's centre is at (60, ±40); half way round it is 40·sin 45° = 28.284 mm off in both ways."""
    path = Path(((0, 0), (100, 0), corner), 40)
    x, y, angle = path.at(60 + 62.8319 / 2)
    side = math.copysign(1, corner[1])
    assert (x, y * side) == pytest.approx((60 + 28.2843, 40 - 28.2843), abs=1e-3)
    assert angle == pytest.approx(45 * side)


def test_the_ends_are_the_corners_that_were_given() -> None:
    path = Path(((5, 7), (105, 7), (105, 207)), 40)
    assert path.at(0)[:2] == pytest.approx((5, 7))
    assert path.at(path.length_mm)[:2] == pytest.approx((105, 207))


def test_a_straight_too_short_for_its_bends_is_refused() -> None:
    with pytest.raises(ValueError, match="too short"):
        _ = Path(((0, 0), (100, 0), (100, 60), (0, 60)), 40).pieces


def test_turns_are_above_zero_to_the_right_on_paper() -> None:
    assert turn_of((0, 0), (1, 0), (1, 1)) == pytest.approx(math.pi / 2)
    assert turn_of((0, 0), (1, 0), (2, -1)) == pytest.approx(-math.pi / 4)


def test_a_quarter_bend_saves_17_mm() -> None:
    """By hand: 2·40 - 40·π/2 = 17.168 mm."""
    assert saved_mm(math.pi / 2, 40) == pytest.approx(17.1681, abs=1e-3)
