"""Colour rules: what each allows, and that memory neither allows nor keeps a colour."""

import pytest

from harnessdoc.model.colours import parse_colour
from harnessdoc.tables.colour_rules import ROLES, allowed, rule_names
from harnessdoc.tables.figures import rows


def allows(rule: str, role: str, colour: str) -> bool:
    limit = allowed(rule, role)
    assert limit is not None
    return limit.allows(parse_colour(colour))


def test_the_rules_by_name() -> None:
    assert rule_names() == ("red-black", "iec 60445", "abyc e-11", "iso 13297")


def test_an_unknown_rule_is_an_error() -> None:
    with pytest.raises(KeyError):
        allowed("blue-green", "feed")


@pytest.mark.parametrize("rule", ["red-black", "iec 60445", "abyc e-11", "iso 13297"])
@pytest.mark.parametrize("role", ROLES)
def test_every_rule_speaks_of_every_role_with_a_source(rule: str, role: str) -> None:
    limit = allowed(rule, role)
    assert limit is not None
    assert limit.source
    assert limit.wanted


@pytest.mark.parametrize(
    ("role", "colour", "expected"),
    [
        ("feed", "red", True),
        ("feed", "red/white", True),
        ("feed", "yellow", False),
        ("feed", "white/red", False),
        ("return", "black", True),
        ("return", "black/white", True),
        ("return", "red", False),
        ("earth", "black", True),
        ("earth", "green", True),
        ("earth", "green/yellow", True),
        ("earth", "blue", False),
        ("signal", "yellow", True),
        ("signal", "black/white", True),
        ("signal", "red", False),
        ("signal", "black", False),
        ("signal", "green/yellow", False),
        ("signal", "yellow/green", False),
        ("signal", "green/white", True),
    ],
)
def test_red_black(role: str, colour: str, expected: bool) -> None:
    assert allows("red-black", role, colour) is expected


def test_green_and_yellow_is_never_green_with_a_tracer() -> None:
    """ABYC E-11 gives green with another stripe to a trim motor; green with yellow stays an earth."""
    assert allows("abyc e-11", "feed", "green/white")
    assert not allows("abyc e-11", "feed", "green")
    assert not allows("abyc e-11", "feed", "green/yellow")
    assert not allows("iso 13297", "return", "yellow/green")


def test_a_colour_listed_for_a_feed_can_still_be_a_signal_unless_kept() -> None:
    """ABYC E-11: dark blue feeds cabin lights, light blue is the oil sender; both are blue by IEC 60757."""
    assert allows("abyc e-11", "feed", "blue")
    assert allows("abyc e-11", "signal", "blue")
    assert not allows("abyc e-11", "signal", "red")


def test_a_limit_from_memory_does_not_decide() -> None:
    feed = allowed("iso 13297", "feed")
    assert feed is not None
    assert not feed.decides
    for rule in rule_names():
        for role in ROLES:
            limit = allowed(rule, role)
            assert limit is not None
            assert limit.decides is not (rule == "iso 13297" and role == "feed")


def test_memory_keeps_no_colour_from_a_signal() -> None:
    assert allows("iso 13297", "signal", "red")
    assert not allows("iso 13297", "signal", "black")


def test_wanted_reads_as_a_finding_says_it() -> None:
    texts = [allowed("iso 13297", role) for role in ("return", "signal")]
    assert [limit.wanted for limit in texts if limit] == ["BK or YE", "any but BK, YE, GN, GN/YE"]


def test_the_table_uses_known_words_only() -> None:
    for row in rows("colour_rules"):
        assert row["role"] in ROLES
        assert row["tracers"] in ("none", "any", "some")
        assert row["kept"] in ("yes", "no")
        assert parse_colour(row["colour"]).code == row["colour"]
