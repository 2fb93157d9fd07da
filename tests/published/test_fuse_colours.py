"""Colours of blade fuses against what two public pages print (quoting ISO 8820-3, SAE J1284 and DIN 72581-3)."""

import pytest

from harnessdoc.tables.fuse_colours import body_colour, coloured


@pytest.mark.parametrize(
    ("rating_a", "word"),
    [(1, "black"), (2, "grey"), (3, "violet"), (4, "pink"), (5, "tan"), (7.5, "brown"), (10, "red"), (15, "blue"),
     (20, "yellow"), (25, "clear"), (30, "green"), (35, "blue-green"), (40, "orange")],
)  # fmt: skip
def test_normal_blade_fuses(rating_a: float, word: str) -> None:
    """ISO 8820-3 type C: dieelektronikerseite.de table and a US fuse chart page."""
    assert body_colour("blade", rating_a).text == word


@pytest.mark.parametrize(
    ("rating_a", "word"),
    [(2, "grey"), (3, "violet"), (5, "tan"), (7.5, "brown"), (10, "red"), (15, "blue"), (20, "yellow"), (25, "clear"),
     (30, "green")],
)  # fmt: skip
def test_small_blade_fuses_have_the_same(rating_a: float, word: str) -> None:
    """ISO 8820-3 type F: the same pages."""
    assert body_colour("mini", rating_a).text == word


@pytest.mark.parametrize(
    ("rating_a", "word"),
    [(20, "yellow"), (30, "green"), (40, "orange"), (50, "red"), (60, "blue"), (80, "clear"), (100, "violet")],
)
def test_large_blade_fuses(rating_a: float, word: str) -> None:
    """DIN 72581-3 extract (noiasca.rothschopf.net) and dieelektronikerseite.de."""
    assert body_colour("maxi", rating_a).text == word


def test_where_pages_differ_both_are_given() -> None:
    """70 A of the large ones: brown in the DIN extract, tan in the other table."""
    assert body_colour("maxi", 70).text == "brown or tan"


@pytest.mark.parametrize(("style", "rating_a"), [("maxi", 25), ("maxi", 35), ("blade", 12), ("bolted", 50), (None, 10)])
def test_no_colour_where_none_was_seen_in_print(style: str | None, rating_a: float) -> None:
    """25 and 35 A of the large ones are from memory only: makers differ."""
    assert body_colour(style, rating_a).text == ""


def test_which_styles_have_colours() -> None:
    assert [style for style in ("mini", "blade", "maxi", "bolted", "glass") if coloured(style)] == [
        "mini",
        "blade",
        "maxi",
    ]
