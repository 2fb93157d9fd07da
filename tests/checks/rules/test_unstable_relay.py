"""Relays that buzz, and relays that hold themselves."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

COIL = "coil: {volts: 12 V, ohms: 80 ohm}"
START_STOP = """\
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {1-2: [released]}, rest: released}
  S2: {is: switch, contacts: {1-2: pressed}, rest: released}
  K1: {is: relay, contact: make, coil: {volts: 12 V, ohms: 80 ohm}}
wires:
  W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
  W2: {from: S1:2, to: S2:1, size: 1 mm2, length: 1 m}
  W3: {from: S2:2, to: K1:86, size: 1 mm2, length: 1 m}
  W4: {from: S1:2, to: K1:30, size: 1 mm2, length: 1 m}
  W5: {from: K1:87, to: HOLDS, size: 1 mm2, length: 1 m}
  W6: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
"""


def test_a_relay_that_breaks_its_own_coil(says: Says) -> None:
    text = f"""\
items:
  G1: {{is: battery, volts: 12.6 V}}
  S1: {{is: switch, contacts: {{1-2: on}}}}
  K1: {{is: relay, {COIL}}}
wires:
  W1: {{from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}}
  W2: {{from: S1:2, to: K1:30, size: 1 mm2, length: 1 m}}
  W3: {{from: K1:87a, to: K1:86, size: 1 mm2, length: 1 m}}
  W4: {{from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}}
"""
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.about) == (Severity.FAULT, "K1")
    assert finding.text == "K1 never comes to rest with S1 on: K1 at rest, then K1 pulled, and so on"


def test_two_relays_that_chase_each_other(says: Says) -> None:
    """K1's break contact feeds K2, whose make contact feeds K1: each undoes the other, four steps round."""
    text = f"""\
items:
  G1: {{is: battery, volts: 12.6 V}}
  K1: {{is: relay, {COIL}}}
  K2: {{is: relay, {COIL}}}
wires:
  W1: {{from: G1:+, to: K1:30, size: 1 mm2, length: 1 m}}
  W2: {{from: K1:87a, to: K2:86, size: 1 mm2, length: 1 m}}
  W3: {{from: K2:85, to: G1:-, size: 1 mm2, length: 1 m}}
  W4: {{from: G1:+, to: K2:30, size: 1 mm2, length: 1 m}}
  W5: {{from: K2:87, to: K1:86, size: 1 mm2, length: 1 m}}
  W6: {{from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}}
"""
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.text.startswith("K1 and K2 never come to rest with everything at rest: ")
    assert finding.text.count("then") == 3


def test_a_relay_that_holds_itself(says: Says) -> None:
    """Start and stop buttons: released, it stays as it was."""
    (finding,) = says(START_STOP.replace("HOLDS", "K1:86"))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.about) == (Severity.DOUBT, "K1")
    assert finding.text == "K1 stays as it was with everything at rest: at rest or pulled"


def test_a_contact_that_feeds_something_else_holds_nothing(says: Says) -> None:
    assert says(START_STOP.replace("HOLDS", "unknown")) == ()


def test_a_diode_that_points_away_holds_nothing(says: Says) -> None:
    """The contact meets the coil over a diode the wrong way round: contacts alone would hold it, voltages don't."""
    text = START_STOP.replace("HOLDS", "R1:K").replace("items:\n", "items:\n  R1: {is: diode}\n")
    assert says(text + "  W7: {from: R1:A, to: K1:86, size: 1 mm2, length: 1 m}\n") == ()
    assert len(says(text.replace("R1:K", "R1:A") + "  W7: {from: R1:K, to: K1:86, size: 1 mm2, length: 1 m}\n")) == 1


def test_two_relays_that_hold_each_other(says: Says) -> None:
    text = f"""\
items:
  G1: {{is: battery, volts: 12.6 V}}
  K1: {{is: relay, {COIL}}}
  K2: {{is: relay, {COIL}}}
wires:
  W1: {{from: G1:+, to: K1:30, size: 1 mm2, length: 1 m}}
  W2: {{from: K1:87, to: K2:86, size: 1 mm2, length: 1 m}}
  W3: {{from: K2:85, to: G1:-, size: 1 mm2, length: 1 m}}
  W4: {{from: G1:+, to: K2:30, size: 1 mm2, length: 1 m}}
  W5: {{from: K2:87, to: K1:86, size: 1 mm2, length: 1 m}}
  W6: {{from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}}
"""
    assert [one.about for one in says(text)] == ["K1", "K2"]
