"""Readers of single values: what they give, and what they say was wanted."""

from __future__ import annotations

import pytest

from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Unit
from harnessdoc.reading import texts


@pytest.mark.parametrize("word", ["unknown", "Unknown", " ? ", "?"])
def test_ignorance_is_none(word: str) -> None:
    for reader in (
        texts.size,
        texts.colour,
        texts.length,
        texts.landing,
        texts.hardware,
        texts.known,
        texts.span(Unit.VOLT),
    ):
        assert reader(word) is None
    assert texts.nothing_if_unknown(word) is None
    assert texts.known_words(["a", word]) == ("a",)
    assert texts.known_words(word) == ()


@pytest.mark.parametrize("text", ["2026-10-11", "2024-02-29", " 2026-10-11 ", "0001-01-01"])
def test_a_day_of_the_calendar(text: str) -> None:
    assert texts.date(text) == text.strip()


@pytest.mark.parametrize(
    "text",
    ["2026-02-29", "2026-13-01", "2026-00-01", "2026-1-1", "11.10.2026", "2026-W01-1", "20261011", "", "unknown",
     "٢٠٢٦-10-11", "2026-10-11T00:00", "0000-01-01"],
)  # fmt: skip
def test_no_day_of_the_calendar(text: str) -> None:
    with pytest.raises(ValueError, match="is no date; write it as 2026-10-11"):
        texts.date(text)


@pytest.mark.parametrize(
    ("text", "landing"), [("X4:3", Point("X4", "3")), ("TAIL", "tail"), ("tail:1", Point("tail", "1"))]
)
def test_landings(text: str, landing: object) -> None:
    assert texts.landing(text) == landing


@pytest.mark.parametrize(("value", "found"), [({"a": "b"}, "a group of keys"), (["a"], "a list"), (None, "nothing")])
def test_what_is_no_text_is_told_with_what_was_wanted(value: object, found: str) -> None:
    with pytest.raises(ValueError, match=f"expected a size, as in 2.5 mm2, 14 AWG or 6 mm auto, found {found}"):
        texts.size(value)


def test_words_are_one_text_or_a_list() -> None:
    assert texts.words("a") == ("a",)
    assert texts.words(["a", "08"]) == ("a", "08")
    for value in (None, {"a": "b"}, ["a", ["b"]], ["a", None]):
        with pytest.raises(ValueError, match="expected a text"):
            texts.words(value)


def test_just_so_many_different_words() -> None:
    two = texts.some_words(2)
    assert two(["A", "B"]) == ("A", "B")
    for value in ([], ["A"], "A", ["A", "A"], ["A", "B", "C"], ["A", "B", "A"]):
        with pytest.raises(ValueError, match="expected 2 different texts, found "):
            two(value)


def test_negative_and_zero_only_where_they_can_be() -> None:
    assert texts.quantity(Unit.VOLT, allow_zero=True, allow_negative=True)("-12.4 V") == -12.4
    for text in ("0 mm", "-1 mm"):
        with pytest.raises(ValueError, match="mm"):
            texts.length(text)
