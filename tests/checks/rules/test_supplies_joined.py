"""Supplies that reach each other."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

TWO = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  G2: {{is: {second}}}
  S1: {{is: switch, contacts: {{{contacts}}}}}
  F1: {{is: fuse, rating: 10 A}}
  K1: {{is: relay, coil: {{volts: 12 V, ohms: 80 ohm}}}}
wires:
  W1: {{from: G1:-, to: G2:-, size: 6 mm2, length: 1 m}}
  W2: {{from: G1:+, to: F1:1, size: 6 mm2, length: 1 m}}
  W3: {{from: F1:2, to: S1:1, size: 6 mm2, length: 1 m}}
  W4: {{from: S1:2, to: G2:+, size: 6 mm2, length: 1 m}}
"""
RAILS = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  T1: {{is: regulator, gives: 5 V}}
  T2: {{is: regulator, gives: {second}}}
  R1: {{is: {between}}}
wires:
  W1: {{from: G1:+, to: T1:IN+, size: 1 mm2, length: 1 m}}
  W2: {{from: T1:IN-, to: G1:-, size: 1 mm2, length: 1 m}}
  W3: {{from: G1:+, to: T2:IN+, size: 1 mm2, length: 1 m}}
  W4: {{from: T2:IN-, to: G1:-, size: 1 mm2, length: 1 m}}
  W5: {{from: T1:OUT+, to: R1:1, size: 1 mm2, length: 1 m}}
  W6: {{from: R1:2, to: T2:OUT+, size: 1 mm2, length: 1 m}}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[Severity]:
    return [one.severity for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("second", "severities"),
    [
        ("battery, volts: 12.8 V", []),
        ("source, volts: 14.4 V", []),
        ("battery, volts: 24 V", [Severity.DANGER]),
        ("battery, volts: 6 V", [Severity.DANGER]),
    ],
)
def test_sources(says: Says, second: str, severities: list[Severity]) -> None:
    """A charger at 14.4 V belongs on a battery; another voltage does not."""
    assert told(says(TWO.format(second=second, contacts="1-2: on"))) == severities


def test_the_state_is_named(says: Says) -> None:
    (finding,) = says(TWO.format(second="battery, volts: 24 V", contacts="1-2: on"))
    assert isinstance(finding, Finding)
    assert finding.text == "G1's feed is joined to another's: G1 (12.6 V) and G2 (24 V) with S1 on"


def test_contacts_that_never_close_together(says: Says) -> None:
    """1 to 3 in one position and 3 to 2 in the other never join 1 to 2."""
    assert told(says(TWO.format(second="battery, volts: 24 V", contacts="1-3: up, 3-2: down"))) == []
    assert told(says(TWO.format(second="battery, volts: 24 V", contacts="1-3: up, 3-2: [up, down]"))) == [
        Severity.DANGER
    ]


@pytest.mark.parametrize(
    ("second", "between", "severities"),
    [
        ("5 V", "terminal strip, joined: all", [Severity.FAULT]),
        ("8 V", "terminal strip, joined: all", [Severity.DANGER]),
        ("5 V", "terminal strip", []),
        ("8 V", "resistor, ohms: 1 kohm", []),
    ],
)
def test_regulators(says: Says, second: str, between: str, severities: list[Severity]) -> None:
    assert told(says(RAILS.format(second=second, between=between))) == severities


def test_both_rails_loads_meet_at_a_load(says: Says) -> None:
    """A lamp between two rails joins nothing."""
    assert told(says(RAILS.format(second="8 V", between="lamp, watts: 2 W"))) == []
