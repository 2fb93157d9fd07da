"""Natural order."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from harnessdoc.model.sorting import natural


def test_numbers_count_as_numbers() -> None:
    names = ["X4:10", "X4:9", "W12", "W2", "w3", "K1", "10", "9", "7", "87a", "87", "", "X10:1", "9" * 5000]
    ordered = ["", "K1", "W2", "w3", "W12", "X4:9", "X4:10", "X10:1", "7", "9", "10", "87", "87a", "9" * 5000]
    assert sorted(names, key=natural) == ordered


def test_equal_numbers_written_differently_keep_one_order() -> None:
    assert sorted(["W08", "W8", "W008"], key=natural) == sorted(["W008", "W08", "W8"], key=natural)


@given(st.lists(st.text(alphabet="aB19٣²½é🚜: ", max_size=6)))
def test_any_texts_can_be_sorted(names: list[str]) -> None:
    once = sorted(names, key=natural)
    assert sorted(once, key=natural) == once
