"""Cuts from rolls against sums by hand, and against trying every way in the plainest manner."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.schedules.cutting import Cutting, cut

Cost = tuple[int, int, int, int]


def cost(cutting: Cutting) -> Cost:
    new = [roll for roll in cutting.rolls if roll.at_hand is None]
    opened = sum(roll.length_mm for roll in cutting.rolls if roll.at_hand is not None)
    return len(cutting.too_long), len(new), sum(roll.length_mm - roll.left_mm for roll in new), opened


def cheapest(pieces: Sequence[int], at_hand: Sequence[int], new_mm: int) -> Cost:
    """Every piece on every roll, and on a new one: nothing is left out, nothing is clever."""
    found: list[Cost] = []

    def place(index: int, hand: list[int], new: list[int], left_out: int) -> None:
        if index == len(pieces):
            opened = sum(length for length, used in zip(at_hand, hand, strict=True) if used)
            found.append((left_out, len(new), sum(new), opened))
            return
        for used, limits in ((hand, list(at_hand)), (new, [new_mm] * len(new))):
            for at, limit in enumerate(limits):
                if used[at] + pieces[index] <= limit:
                    used[at] += pieces[index]
                    place(index + 1, hand, new, left_out)
                    used[at] -= pieces[index]
        if pieces[index] <= new_mm:
            new.append(pieces[index])
            place(index + 1, hand, new, left_out)
            new.pop()
        else:
            place(index + 1, hand, new, left_out + 1)

    place(0, [0] * len(at_hand), [], 0)
    return min(found)


def test_first_fit_alone_would_open_a_third_roll() -> None:
    """By hand: 10 m rolls; 6 + 4 and 5 + 3 + 2 fill two. Longest first by first fit: 6 + 4, 5 + 3 + 2: the same."""
    found = cut([2000, 3000, 4000, 5000, 6000], [], 10_000)
    assert [(roll.pieces, roll.left_mm) for roll in found.rolls] == [((4, 2), 0), ((3, 1, 0), 0)]
    assert found.proven


def test_where_first_fit_decreasing_fails_the_best_is_found() -> None:
    """By hand: 6 + 2 + 2 and 5 + 5; first fit, longest first, too. But 4 4 3 3 3 3 into 10: 4+3+3 twice, where first
    fit makes 4+4, 3+3+3, 3: three rolls."""
    found = cut([4, 4, 3, 3, 3, 3], [], 10)
    assert found.new_rolls == 2
    assert [roll.left_mm for roll in found.rolls] == [0, 0]


def test_what_is_at_hand_is_used_up_before_a_new_roll_is_cut() -> None:
    """By hand: of 5 m at hand 3 + 2 leave nothing; 2.5 goes on a new roll. 3 + 2.5 would not fit."""
    found = cut([3000, 2500, 2000], [5000], 25_000)
    assert [(roll.at_hand, roll.pieces, roll.left_mm) for roll in found.rolls] == [
        (0, (0, 2), 0),
        (None, (1,), 22_500),
    ]


def test_a_short_rest_is_opened_before_a_long_roll() -> None:
    """By hand: 5.5 m from a rest of 6 m leaves 0.5 m, and the roll of 100 m stays whole."""
    found = cut([3000, 2500], [100_000, 6000], 25_000)
    assert [(roll.at_hand, roll.left_mm) for roll in found.rolls] == [(1, 500)]


def test_a_piece_longer_than_a_new_roll_comes_from_a_long_one_at_hand_or_is_named() -> None:
    found = cut([30_000, 28_000, 1000], [31_000], 25_000)
    assert found.rolls[0].pieces == (0, 2)
    assert found.too_long == (1,)
    assert found.new_rolls == 0


def test_the_longest_is_cut_first_from_each_roll() -> None:
    assert cut([1, 9, 5], [], 20).rolls[0].pieces == (1, 2, 0)


def test_nothing_to_cut_opens_nothing() -> None:
    assert cut([], [5000], 25_000) == Cutting((), (), True)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(3, 60), max_size=5),
    st.lists(st.integers(10, 90), max_size=2),
    st.sampled_from([30, 50, 100]),
)
def test_small_ones_are_the_best_there_is(pieces: list[int], at_hand: list[int], new_mm: int) -> None:
    found = cut(pieces, at_hand, new_mm)
    assert cost(found) == cheapest(pieces, at_hand, new_mm)
    assert found.proven


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(1, 6000), max_size=200), st.lists(st.integers(1, 20_000), max_size=8))
def test_every_piece_is_cut_once_and_no_roll_is_overdrawn(pieces: list[int], at_hand: list[int]) -> None:
    found = cut(pieces, at_hand, 25_000)
    assert sorted(index for roll in found.rolls for index in roll.pieces) == list(range(len(pieces)))
    for roll in found.rolls:
        assert roll.left_mm == roll.length_mm - sum(pieces[index] for index in roll.pieces) >= 0
        assert roll.at_hand is None or roll.length_mm == at_hand[roll.at_hand]
    used = [roll.at_hand for roll in found.rolls if roll.at_hand is not None]
    assert len(used) == len(set(used))
