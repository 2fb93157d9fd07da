"""Numbers that read as others upside down: every string of up to three digits, turned by hand's rule."""

from __future__ import annotations

from itertools import product

import pytest

from harnessdoc.labels.misread import is_padded, misread, turned

# What a digit looks like after half a turn, by eye: 0, 1 and 8 as before, 6 as 9, 9 as 6; the others like none.
LOOKS_LIKE = {"0": "0", "1": "1", "6": "9", "8": "8", "9": "6"}


@pytest.mark.parametrize("length", [1, 2, 3])
def test_every_string_of_digits(length: int) -> None:
    for digits in product("0123456789", repeat=length):
        text = "".join(digits)
        seen = "".join(LOOKS_LIKE.get(one, "?") for one in reversed(text))
        other = "?" not in seen and seen != text
        padded = length > 1 and text[0] == "0"
        assert misread(text) == (other and (padded or seen[0] != "0")), text
        assert misread(text, padded=True) == other, text
        assert turned(text) == (None if "?" in seen else seen)


def test_a_number_and_what_it_turns_into_are_both_barred() -> None:
    """So that nobody has to know which of two labels without a bar he holds."""
    for digits in product("0123456789", repeat=3):
        text = "".join(digits)
        seen = turned(text)
        if seen is not None and misread(text, padded=True):
            assert misread(seen, padded=True)


@pytest.mark.parametrize(
    "text", ["6", "9", "66", "99", "68", "89", "86", "98", "16", "91", "18", "81", "19", "61", "108"]
)
def test_the_usual_ones(text: str) -> None:
    assert misread(text)
    assert misread(f"W{text}")
    assert misread(f"X4:{text}")


@pytest.mark.parametrize(
    "text", ["11", "69", "96", "88", "1", "8", "0", "101", "609", "12", "W26", "X4:3", "J5", "", "W"]
)
def test_what_turns_into_itself_or_nothing_has_no_bar(text: str) -> None:
    assert not misread(text)


def test_sixty_reads_as_no_number_unless_numbers_have_leading_zeros() -> None:
    assert not misread("W60")
    assert misread("W60", padded=True)
    assert misread("W09")
    assert is_padded("W09")
    assert not is_padded("W9")
    assert not is_padded("W0")


def test_sideways_no_digit_is_another() -> None:
    """The carried typeface, drawn and turned by a quarter: no digit's dots come near another's, both ways."""
    from tests.labels.glyphs import digit_dots

    dots = {digit: digit_dots(digit) for digit in "0123456789"}
    for one, other in product("23456789", repeat=2):  # 0 and 1 turned are a ring and a bar: no digits
        for quarter in (1, 3):
            assert _alike(_turned(dots[one], quarter), dots[other]) < 0.8, (one, other)
    assert _alike(_turned(dots["6"], 2), dots["9"]) > 0.8
    assert _alike(_turned(dots["8"], 2), dots["8"]) > 0.8


def _turned(rows: list[list[bool]], quarters: int) -> list[list[bool]]:
    for _ in range(quarters):
        rows = [list(row) for row in zip(*rows[::-1], strict=True)]
    return rows


def _alike(one: list[list[bool]], other: list[list[bool]]) -> float:
    """Share of ink that both have, of the ink that either has."""
    pairs = [pair for rows in zip(one, other, strict=True) for pair in zip(*rows, strict=True)]
    either = sum(a or b for a, b in pairs)
    return sum(a and b for a, b in pairs) / either
