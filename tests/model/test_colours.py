"""Colours: what is read in words and in either code, what is printed, what is refused."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.model.colours import (
    COLOUR_WORDS,
    NOTATION_NOTE,
    TRADE_CODES,
    Colour,
    ColourError,
    parse_colour,
)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("red", "RD"),
        ("RD", "RD"),
        ("rd", "RD"),
        ("rt", "RD"),
        ("red/black", "RD/BK"),
        ("red with black", "RD/BK"),
        ("Red with black tracer", "RD/BK"),
        ("red black", "RD/BK"),
        ("red-black", "RD/BK"),
        ("red with black stripe", "RD/BK"),
        ("RD/BK", "RD/BK"),
        ("RDBK", "RD/BK"),
        ("rdbk", "RD/BK"),
        ("BKRD", "BK/RD"),
        ("rt/sw", "RD/BK"),
        ("rtsw", "RD/BK"),
        ("RD sw", "RD/BK"),
        ("BKWHYE", "BK/WH/YE"),
        ("black with white and yellow", "BK/WH/YE"),
        ("green-yellow", "GN/YE"),
        ("green-and-yellow", "GN/YE"),
        ("GNYE", "GN/YE"),
        ("grey", "GY"),
        ("gray", "GY"),
        ("violet", "VT"),
        ("purple", "VT"),
        ("light blue", "BU"),
        ("dark blue/white", "BU/WH"),
        ("lightblue", "BU"),
        ("tan", "TAN"),
        ("beige/red", "BEIGE/RD"),
        ("or", "OG"),
        ("  white  ", "WH"),
    ],
)
def test_colours_are_read(text: str, code: str) -> None:
    assert parse_colour(text).code == code


def test_words_name_base_then_tracers() -> None:
    assert Colour("RD", ("BK",)).words == "red with black"
    assert Colour("BK", ("WH", "YE")).words == "black with white and yellow"
    assert Colour("VT").words == str(parse_colour("violet").words) == "violet"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "a colour is expected"),
        ("/", "a colour is expected"),
        ("blak", "did you mean `black`?"),
        ("red/blak", "did you mean `black`?"),
        ("redblack", "did you mean `red/black`?"),
        ("R", "one-letter codes differ"),
        ("red/red", "differs from its base"),
        ("RDRD", "differs from its base"),
        ("red/rt", "differs from its base"),
        ("red black white blue", "names 4 colours"),
        ("light", "a shade without its colour"),
        ("red+black", "a plus joins separate cores"),
        ("12", "no colour that is read"),
        ("unknown", "no colour that is read"),
    ],
)
def test_other_colours_are_refused_with_what_was_meant(text: str, told: str) -> None:
    with pytest.raises(ColourError) as refused:
        parse_colour(text)
    assert told in str(refused.value)


def test_trade_codes_mean_the_same_where_both_lists_have_them() -> None:
    """One code stands in both lists, GN; every other means one thing only."""
    both = set(COLOUR_WORDS) & set(TRADE_CODES)
    assert both == {"GN"}
    assert TRADE_CODES["GN"] == "GN"


def test_no_word_can_be_read_as_joined_codes_of_another_colour() -> None:
    for code, word in COLOUR_WORDS.items():
        assert parse_colour(word) == Colour(code)


@pytest.mark.parametrize(
    ("text", "kept"),
    [("GNYE", True), ("yellow/green", True), ("green", False), ("green/white", False), ("GN/YE/BK", False)],
)
def test_green_and_yellow_is_known_in_either_order(text: str, kept: bool) -> None:
    assert parse_colour(text).is_green_yellow is kept


def test_a_colour_made_in_code_is_held_to_the_codes() -> None:
    with pytest.raises(ColourError, match="is no colour code"):
        Colour("red")
    with pytest.raises(ColourError, match="differs"):
        Colour("RD", ("RD",))


def test_the_legend_says_the_order() -> None:
    assert "base colour first" in NOTATION_NOTE
    assert "RD/BK is a red wire with a black tracer" in NOTATION_NOTE


@given(st.text(max_size=24) | st.text(alphabet="rdbksw gnye/-+", max_size=12))
@settings(max_examples=400, deadline=None)
def test_any_text_is_a_colour_or_a_refusal(text: str) -> None:
    try:
        colour = parse_colour(text)
    except ColourError:
        return
    assert parse_colour(colour.code) == colour


_CODES = st.lists(st.sampled_from(sorted(COLOUR_WORDS)), min_size=1, max_size=3, unique=True)


@given(_CODES)
@settings(max_examples=200, deadline=None)
def test_code_and_words_read_back(codes: list[str]) -> None:
    colour = Colour(codes[0], tuple(codes[1:]))
    assert parse_colour(colour.code) == colour
    assert parse_colour(colour.words) == colour
