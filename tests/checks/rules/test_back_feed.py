"""Loads that live through other loads."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

LAMP_AND_MOTOR = """\
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {1-2: on}}
  S2: {is: switch, contacts: {1-2: on}}
  E1: {is: lamp, watts: 55 W, at: 12 V}
  E2: {is: lamp, watts: 5 W, at: 12 V}
wires:
  W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
  W2: {from: G1:+, to: S2:1, size: 1 mm2, length: 1 m}
  W3: {from: S1:2, to: E1:1, size: 1 mm2, length: 1 m}
  W4: {from: S2:2, to: E2:1, size: 1 mm2, length: 1 m}
"""


def test_a_lost_common_return_makes_lamps_feed_each_other(says: Says) -> None:
    """Both lamps return to J1, which reaches nothing but a third lamp: none is fed by itself in any state."""
    text = (
        LAMP_AND_MOTOR
        + """\
  W5: {from: E1:2, to: J1, size: 1 mm2, length: 1 m}
  W6: {from: E2:2, to: J1, size: 1 mm2, length: 1 m}
splices: {J1: {}}
"""
    )
    assert says(text) == ()


def test_lamps_with_returns_of_their_own(says: Says) -> None:
    text = (
        LAMP_AND_MOTOR
        + """\
  W5: {from: E1:2, to: G1:-, size: 1 mm2, length: 1 m}
  W6: {from: E2:2, to: G1:-, size: 1 mm2, length: 1 m}
"""
    )
    assert says(text) == ()


BRIDGED = (
    LAMP_AND_MOTOR
    + """\
  W5: {from: E1:2, to: E2:1, size: 1 mm2, length: 1 m}
  W6: {from: E2:2, to: G1:-, size: 1 mm2, length: 1 m}
"""
)


def test_a_small_lamp_fed_through_a_big_one(says: Says) -> None:
    """E2, 28.8 ohm, behind E1, 2.6 ohm, keeps 12.6 x 28.8 / 31.4 = 11.5 V with only S1 on."""
    (finding,) = says(BRIDGED)
    assert isinstance(finding, Finding)
    assert (finding.about, finding.severity) == ("E2", Severity.FAULT)
    assert finding.text == "E2 is live through E1 with S1 on; no contact joins it to feed and return"


def test_what_must_fail_safe_is_in_danger(says: Says) -> None:
    line = "operation: [{when: {S2: off}, dead: [E2], fails safe: true}]\n"
    assert [one.severity for one in says(BRIDGED + line) if isinstance(one, Finding)] == [Severity.DANGER]


def test_in_series_on_purpose(says: Says) -> None:
    """An operation line that wants it live says so; a resistor in series is put there on purpose."""
    assert says(BRIDGED + "operation: [{when: {S1: on, S2: off}, live: [E2]}]\n") == ()
    assert says(BRIDGED.replace("E1: {is: lamp, watts: 55 W, at: 12 V}", "E1: {is: resistor, ohms: 2 ohm}")) == ()


def test_a_diode_blocks_the_way_back(says: Says) -> None:
    text = BRIDGED.replace("E1: {is: lamp, watts: 55 W, at: 12 V}", "E1: {is: diode}").replace("E1:1", "E1:K")
    assert says(text.replace("E1:2", "E1:A")) == ()


def test_two_that_are_always_in_series(says: Says) -> None:
    """Two 6 V lamps one behind the other: neither is ever fed by itself."""
    text = """\
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {1-2: on}}
  E1: {is: lamp, watts: 5 W, at: 6 V}
  E2: {is: lamp, watts: 5 W, at: 6 V}
wires:
  W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
  W2: {from: S1:2, to: E1:1, size: 1 mm2, length: 1 m}
  W3: {from: E1:2, to: E2:1, size: 1 mm2, length: 1 m}
  W4: {from: E2:2, to: G1:-, size: 1 mm2, length: 1 m}
"""
    assert says(text) == ()
