"""Rolls at hand from CSV, each bad line named; the allowances in words."""

from __future__ import annotations

import pytest

from harnessdoc.schedules.asked import Allowance, RollsError, read_rolls


def test_rolls_are_read_with_headings_comments_and_blank_lines() -> None:
    text = "\ufeffcolour, size, length\n# shelf 3\nred, 2.5 mm2, 6.4 m\n\nRD/WH, 14 AWG, 800 mm\nunknown, 1 mm2, 1 m\n"
    first, second, third = read_rolls(text)
    assert (str(first.colour), first.size.written, first.length_mm) == ("RD", "2.5 mm²", 6400)
    assert (str(second.colour), second.size.written, second.length_mm) == ("RD/WH", "14 AWG", 800)
    assert third.colour is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("red, 2.5 mm2", "line 1: a roll is written as colour, size, length"),
        ("red, 2.5 mm2, 6 m\nred, 2.5, 6 m", "line 2: `2.5`: a size needs its unit"),
        ("rad, 1 mm2, 1 m", "line 1: `rad`"),
        ("red, 1 mm2, 0 m", "line 1: `0 m`"),
    ],
)
def test_a_bad_line_is_named(text: str, said: str) -> None:
    with pytest.raises(RollsError, match=said.replace("(", r"\(")):
        read_rolls(text)


def test_too_many_rolls_are_refused() -> None:
    with pytest.raises(RollsError, match="more than 10000 rolls"):
        read_rolls("red, 1 mm2, 1 m\n" * 10_001)


def test_the_allowances_say_their_figures() -> None:
    assert "20 mm more at each end" in Allowance().text
    assert "5 % slack" in Allowance().text
