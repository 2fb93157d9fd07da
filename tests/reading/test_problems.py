"""A problem as it is printed: the head, the line, the caret under the column."""

from __future__ import annotations

import unicodedata

import pytest

from harnessdoc.model.mark import Mark
from harnessdoc.reading.problems import Problem, ReadingError, meant


def under(problem: Problem) -> str:
    """The character that stands over the caret on a terminal, where wide letters take two cells."""
    _, line, caret = problem.render().split("\n")
    cell = 0
    for character in line:
        if cell == len(caret) - 1:
            return character
        if not unicodedata.combining(character):
            cell += 2 if unicodedata.east_asian_width(character) in "WF" else 1
    return ""


@pytest.mark.parametrize("before", ["", "W1", "Länge", "電線", "🚜", "e\u0301e\u0301", "מנוע", "ｗｉｄｅ", "a\tb"])
def test_the_caret_stands_under_the_column(before: str) -> None:
    line = f"{before}: #here"
    assert under(Problem(Mark("a.yaml", 7, line.index("#") + 1), "x", line)) == "#"


@pytest.mark.parametrize("length", [0, 50, 54, 55, 56, 109, 110, 400, 5000])
def test_the_caret_stands_right_in_a_long_line(length: int) -> None:
    line = "x" * length + "#" + "y" * 300
    problem = Problem(Mark("a.yaml", 7, length + 1), "x", line)
    assert under(problem) == "#"
    assert max(map(len, problem.render().split("\n"))) < 130


def test_the_head_names_file_line_and_column() -> None:
    problem = Problem(Mark("folder/a.yaml", 12, 3), "is wrong", "  size: 6 mm")
    assert problem.render() == "folder/a.yaml:12:3: is wrong\n   12 |   size: 6 mm\n          ^"


def test_no_control_character_reaches_the_terminal() -> None:
    problem = Problem(Mark("a\x1b[31m.yaml", 1, 1), "is\x07 wrong", "x\x1b[2Jy\u202ez")
    assert all(c.isprintable() or c == "\n" for c in problem.render())


def test_an_empty_line_is_not_shown() -> None:
    assert Problem(Mark("a.yaml", 3, 1), "x", "   ").render() == "a.yaml:3:1: x"


def test_problems_stand_in_the_order_of_the_file() -> None:
    marks = [Mark("b", 1, 1), Mark("a", 10, 1), Mark("a", 9, 5), Mark("a", 9, 1)]
    found = [p.mark for p in ReadingError(Problem(mark, "x") for mark in marks).problems]
    assert found == [Mark("a", 9, 1), Mark("a", 9, 5), Mark("a", 10, 1), Mark("b", 1, 1)]


@pytest.mark.parametrize(
    ("word", "hint"),
    [
        ("colur", "; did you mean 'colour'?"),
        ("COLOUR", "; did you mean 'colour'?"),
        ("zzz", "; known: colour, size"),
        ("x" * 100_000, "; known: colour, size"),
    ],
)
def test_what_was_meant(word: str, hint: str) -> None:
    assert meant(word, ["colour", "size"]) == hint


def test_a_long_list_of_known_words_is_not_read_out() -> None:
    assert meant("zzz", [f"word {n}" for n in range(25)]) == ""
