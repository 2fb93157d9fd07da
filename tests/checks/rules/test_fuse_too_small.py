"""Fuses against what flows through them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


def one_load(rating: str, amps: str) -> str:
    return f"""\
items:
  G1: {{is: battery, volts: 12 V, inner resistance: 0.01 mohm}}
  F1: {{is: fuse{rating}, cold resistance: 0.01 mohm}}
  S1: {{is: switch, contacts: {{1-2: pressed}}, rest: released, momentary: true}}
  M1: {{is: load, amps: {amps}, at: 12 V}}
wires:
  W1: {{from: G1:+, to: F1:1, size: 70 mm2, length: 1 mm}}
  W2: {{from: F1:2, to: M1:1, size: 70 mm2, length: 1 mm}}
  W3: {{from: M1:2, to: G1:-, size: 70 mm2, length: 1 mm}}
"""


@pytest.mark.parametrize(
    ("rating", "amps", "severities"),
    [
        (", rating: 10 A", "7.9 A", []),
        (", rating: 10 A", "8.2 A", [Severity.DOUBT]),
        (", rating: 10 A", "9.9 A", [Severity.DOUBT]),
        (", rating: 10 A", "10.2 A", [Severity.FAULT]),
    ],
)
def test_against_the_rating_and_four_fifths_of_it(
    says: Says, rating: str, amps: str, severities: list[Severity]
) -> None:
    said = says(one_load(rating, amps))
    assert [one.severity for one in said if isinstance(one, Finding)] == severities


def test_the_habit_is_marked_as_one(says: Says) -> None:
    (finding,) = says(one_load(", rating: 10 A", "9 A"))
    assert isinstance(finding, Finding)
    assert finding.source == "common practice, no source"
    assert finding.text == "F1 of 10 A carries 9 A with everything at rest, above 80 % of it for long"


def test_what_only_a_held_button_draws_is_not_for_long(says: Says) -> None:
    text = one_load(", rating: 10 A", "9 A").replace("F1:2, to: M1:1", "F1:2, to: S1:1")
    text += "  W4: {from: S1:2, to: M1:1, size: 70 mm2, length: 1 mm}\n"
    assert says(text) == ()
    assert [one.severity for one in says(text.replace("9 A", "11 A")) if isinstance(one, Finding)] == [Severity.FAULT]


def test_a_fuse_of_unknown_rating_is_not_verified(says: Says) -> None:
    (said,) = says(one_load("", "9 A"))
    assert isinstance(said, NotVerified)
    assert "its rating is not stated" in said.text


def test_a_breaker_is_held_to_the_same(says: Says) -> None:
    said = says(one_load(", rating: 10 A", "12 A").replace("is: fuse", "is: breaker"))
    assert [one.severity for one in said if isinstance(one, Finding)] == [Severity.FAULT]
