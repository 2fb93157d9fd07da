"""Columns share out the width so that rows stay low: sums by hand with words of plain widths."""

from __future__ import annotations

import pytest

from harnessdoc.schedules.columns import Words, least_mm, share_out, words_of


def test_a_cell_s_lines_are_counted_word_by_word() -> None:
    """By hand: three words of 10 mm and two blanks under 1 mm each need 30 to 32 mm and the cell's own 2.5 mm."""
    words = Words((10.0, 10.0, 10.0))
    assert [words.lines(width) for width in (13, 24, 35)] == [3, 2, 1]


def test_no_column_is_narrower_than_its_longest_word() -> None:
    column = [words_of("a"), words_of("unbroken and more")]
    assert least_mm(column) > max(words_of("unbroken").widths_mm)


def test_the_widths_add_up_and_the_long_text_gets_what_is_left() -> None:
    short = [Words((8.0,)), Words((8.0,))]
    long = [Words((8.0,)), Words((10.0,) * 12)]
    widths = share_out([short, long], 100.0)
    assert sum(widths) == pytest.approx(100.0)
    assert widths[1] > 70


def test_two_columns_that_make_a_row_tall_are_widened_together() -> None:
    """Neither alone saves a line: both are to be widened, and there is room for both."""
    columns = [[Words((5.0,)), Words((8.0, 8.0))], [Words((5.0,)), Words((8.0, 8.0))]]
    widths = share_out(columns, 60.0)
    assert all(column[1].lines(width) == 1 for column, width in zip(columns, widths, strict=True))


def test_where_even_the_least_is_too_much_all_give_way() -> None:
    columns = [[Words((30.0,))], [Words((30.0,))], [Words((15.0,))]]
    widths = share_out(columns, 40.0)
    assert sum(widths) == pytest.approx(40.0)
    assert widths[0] == widths[1] > widths[2]
