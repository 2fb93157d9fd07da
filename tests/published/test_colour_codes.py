"""Colour codes and colour rules, typed from the standards as printed on public pages."""

import pytest

from harnessdoc.model.colours import COLOUR_WORDS, OWN_CODES, parse_colour
from harnessdoc.tables.colour_rules import allowed

IEC_60757 = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
}


@pytest.mark.parametrize(("code", "word"), IEC_60757.items())
def test_letter_codes(code: str, word: str) -> None:
    """IEC 60757 in the text of GOST 28763-90 (identical to IEC 757:1983); lower case means the same."""
    for text in (code, code.lower(), word):
        assert parse_colour(text).code == code
    assert parse_colour(code).words == word


def test_there_are_no_other_codes_but_our_two() -> None:
    """IEC 60757 has fourteen colours; it has none for tan (nor beige), which ABYC E-11 needs."""
    assert set(COLOUR_WORDS) - set(IEC_60757) == OWN_CODES == {"TAN", "BEIGE"}


def test_the_reserved_pair() -> None:
    """GNYE is green-and-yellow, kept for the protective conductor (IEC 60757:2021 clause 5.1, IEC 60445)."""
    assert parse_colour("GNYE").is_green_yellow


def test_base_then_two_marks() -> None:
    """Thin-wall vehicle wire after DIN 72551-3: BKWHYE is black with white and yellow marks."""
    assert parse_colour("BKWHYE").words == "black with white and yellow"


@pytest.mark.parametrize(
    ("rule", "role", "colours", "others"),
    [
        # IEC 60445:2021 clause 6.2.4: DC positive red, negative white; functional earth pink; 6.3.2 green-yellow
        ("iec 60445", "feed", ["RD"], ["WH", "BN", "BK"]),
        ("iec 60445", "return", ["WH"], ["RD", "BU", "BK"]),
        ("iec 60445", "earth", ["PK", "GN/YE"], ["GN", "BK"]),
        # ABYC E-11 colour tables per newboatbuilders.com, iboats.com and 100r.co
        (
            "abyc e-11",
            "feed",
            ["RD", "YE/RD", "BN/YE", "GY", "BN", "OG", "VT", "BU", "GN/WH", "BU/WH"],
            ["YE", "BK", "GN", "WH"],
        ),
        ("abyc e-11", "return", ["BK", "YE"], ["RD", "YE/RD", "GN"]),
        ("abyc e-11", "earth", ["GN", "GN/YE"], ["BK", "GN/WH"]),
        ("abyc e-11", "signal", ["TAN", "PK", "BU", "GY"], ["RD", "YE", "GN/YE"]),
        # ISO 10133 and ISO 13297 texts quoted on a boating forum (ybw.com)
        ("iso 13297", "return", ["BK", "YE"], ["RD", "WH", "BU"]),
        ("iso 13297", "earth", ["GN", "GN/YE"], ["BK"]),
        # Australian 12 V questions page: red positive, black negative
        ("red-black", "feed", ["RD"], ["BK", "BN"]),
        ("red-black", "return", ["BK"], ["RD", "BU"]),
    ],
)
def test_what_rules_allow(rule: str, role: str, colours: list[str], others: list[str]) -> None:
    """The source of each rule stands beside its row above."""
    limit = allowed(rule, role)
    assert limit is not None
    assert limit.decides
    assert [code for code in colours if not limit.allows(parse_colour(code))] == []
    assert [code for code in others if limit.allows(parse_colour(code))] == []
