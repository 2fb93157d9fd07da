"""Heights of text against the outlines of the carried typeface, and against ISO 3098."""

from __future__ import annotations

import pytest

from harnessdoc.labels.heights import BAR, DROP, FLOOR_MM, SIZES_MM, SMALL_SIZES_MM, drop, rise
from tests.labels.ink import ink

LETTERS = [chr(code) for code in (*range(0x21, 0x7F), *range(0xA1, 0x180)) if chr(code) != "\xad"]


@pytest.mark.parametrize("bold", [False, True])
def test_no_letter_reaches_further_than_it_says(bold: bool) -> None:
    for letter in [*LETTERS, *"→²³·…°×–", "W12", "J3", "Qg", "Ýž", "Rührwerk"]:
        box = ink(0.0, 0.0, letter, 1.0, bold)
        if letter != "`":
            assert -box.top <= rise(letter) + 0.02, letter  # 0.02 of 2.5 mm is half a tenth
        assert box.bottom <= drop(letter) + 0.02, letter
        assert drop(letter) <= DROP


def test_small_letters_with_accents_take_less_than_capitals() -> None:
    assert rise("W12") < rise("Rührwerk") < rise("ÄRGER")
    assert rise("å") == rise("Å")


def test_heights_are_steps_of_iso_3098() -> None:
    """ISO 3098 nominal heights, typed from the reference: 1.8, 2.5, 3.5, 5, 7, 10 mm; 4.5 is our own."""
    steps = {1.8, 2.5, 3.5, 5.0, 7.0, 10.0}
    for one in (*SIZES_MM, *SMALL_SIZES_MM):
        assert one.body_mm in steps
        assert one.number_mm in steps | {4.5}
        assert one.number_mm >= one.body_mm
    assert min(one.body_mm for one in SIZES_MM) == 2.5
    assert min(one.body_mm for one in SMALL_SIZES_MM) == FLOOR_MM == 1.8
    assert all(one.number_mm > one.body_mm for one in SIZES_MM)


def test_the_bar_lies_clear_of_what_hangs_below() -> None:
    from harnessdoc.labels.rows import Line

    for text in ("W68", "Q69g"):
        line = Line(1.0, 5.0, text, 3.5, True)
        bar = BAR.under(line)
        assert bar.y > ink(1.0, 5.0, text, 3.5, True).bottom
        assert bar.bottom <= 5.0 + BAR.bottom(text) * 3.5
