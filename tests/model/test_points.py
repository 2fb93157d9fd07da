"""Points as IEC 61666 writes them, from text and back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from harnessdoc.model.points import CHASSIS, Point, PointError, parse_point


@pytest.mark.parametrize(
    ("text", "owner", "terminal"),
    [
        ("X4:3", "X4", "3"), ("K1:87a", "K1", "87a"), ("J5", "J5", ""), ("X4:08", "X4", "08"), ("S1:NO", "S1", "NO"),
        ("G1:+", "G1", "+"), ("A1:87:30", "A1", "87:30"), (" X4 : 3 ", "X4", "3"), ("XE1", "XE1", ""),
        ("🚜:é", "🚜", "é"),
    ],
)  # fmt: skip
def test_the_first_colon_parts_item_and_terminal(text: str, owner: str, terminal: str) -> None:
    assert parse_point(text) == Point(owner, terminal)


@pytest.mark.parametrize("text", ["", " ", ":", ":3", "X4:", "X4: ", " :3"])
def test_half_a_point_is_none(text: str) -> None:
    with pytest.raises(PointError, match="write ITEM:TERMINAL, as in X4:3, or a splice's name, as in J5"):
        parse_point(text)


def test_the_chassis_is_a_point_without_a_terminal() -> None:
    assert parse_point("chassis") == CHASSIS
    assert str(CHASSIS) == "chassis"


NAME = st.text(min_size=1).map(str.strip).filter(lambda text: text and ":" not in text)


@given(NAME, st.one_of(st.just(""), st.text(min_size=1).map(str.strip).filter(bool)))
def test_a_point_survives_being_written(owner: str, terminal: str) -> None:
    assert parse_point(str(Point(owner, terminal))) == Point(owner, terminal)
