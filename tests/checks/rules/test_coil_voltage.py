"""A coil that burns, one that never pulls in, one that never lets go."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ON_BATTERY = """\
items:
  G1: {{is: battery, volts: {battery}, inner resistance: 0.01 ohm}}
  S1: {{is: switch, contacts: {{1-2: on}}}}
  K1: {{is: relay, coil: {{{coil}}}}}
wires:
  W1: {{from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}}
  W2: {{from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}}
  W3: {{from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}}
"""
ON_REGULATOR = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  T1: {{is: regulator, gives: 5 V}}
  K1: {{is: relay, coil: {{{coil}}}}}
wires:
  W1: {{from: G1:+, to: T1:IN+, size: 1 mm2, length: 1 m}}
  W2: {{from: T1:IN-, to: G1:-, size: 1 mm2, length: 1 m}}
  W3: {{from: T1:OUT+, to: K1:86, size: 1 mm2, length: 1 m}}
  W4: {{from: K1:85, to: T1:OUT-, size: 1 mm2, length: 1 m}}
"""
ON_SIGNAL = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  A2: {{is: module, terminals: [GND], output: {{OUT: {{{signal}}}}}}}
  K1: {{is: relay, coil: {{volts: 5 V, ohms: 1 kohm, pulls at: 3.75 V, releases at: {releases}}}}}
wires:
  W1: {{from: A2:OUT, to: K1:86, size: 1 mm2, length: 1 m}}
  W2: {{from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}}
  W3: {{from: A2:GND, to: G1:-, size: 1 mm2, length: 1 m}}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[Severity]:
    return [one.severity for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("battery", "coil", "severities"),
    [
        ("12.6 V", "volts: 12 V, ohms: 80 ohm", []),
        ("14.4 V", "volts: 12 V, ohms: 80 ohm", []),
        ("12.6 V", "volts: 5 V, ohms: 70 ohm", [Severity.DANGER]),
        ("25.2 V", "volts: 12 V, ohms: 80 ohm", [Severity.DANGER]),
        ("12.6 V", "volts: 24 V, ohms: 320 ohm", [Severity.FAULT]),
    ],
)
def test_a_coil_and_its_battery(says: Says, battery: str, coil: str, severities: list[Severity]) -> None:
    assert told(says(ON_BATTERY.format(battery=battery, coil=coil))) == severities


def test_the_burning_coil_is_named_with_its_state(says: Says) -> None:
    """12.6 V behind 0.01 ohm, 3 m of 1 mm² (19.5 ohm/km) and a 5 mohm contact over 70 ohm: 12.58 V."""
    (finding,) = says(ON_BATTERY.format(battery="12.6 V", coil="volts: 5 V, ohms: 70 ohm"))
    assert isinstance(finding, Finding)
    assert (finding.about, finding.mark.line) == ("K1", 5)
    assert finding.text == "K1's coil for 5 V gets 12.6 V with S1 on"


def test_twelve_volts_of_coil_on_a_five_volt_regulator(says: Says) -> None:
    (finding,) = says(ON_REGULATOR.format(coil="volts: 12 V, ohms: 80 ohm"))
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT
    assert "it pulls in at 8.4 V and never does; assumed: K1 pull-in voltage not stated" in finding.text
    assert told(says(ON_REGULATOR.format(coil="volts: 5 V, ohms: 70 ohm"))) == []


def test_a_bare_coil_on_a_signal_never_lets_go(says: Says) -> None:
    """3.8 V when normal and 5 V in the cut-out: a coil that pulls at 3.75 V and holds to 0.5 V knows no difference."""
    text = ON_SIGNAL.format(signal="normal: 3.8..4 V, trip: 5 V, unplugged: 0 V", releases="0.5 V")
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DANGER
    assert "A2:OUT" in finding.text
    assert "holds down to 0.5 V" in finding.text


def test_a_signal_that_falls_below_drop_out_lets_go(says: Says) -> None:
    assert told(says(ON_SIGNAL.format(signal="normal: 0.1..0.3 V, trip: 5 V", releases="0.5 V"))) == []


def test_a_coil_left_between_pull_in_and_drop_out(says: Says) -> None:
    """Behind a 12 V 5 W lamp of 28.8 ohm, an 80 ohm coil keeps 12.6 x 80 / 108.8 = 9.26 V: enough for one
    that pulls at 9 V, neither here nor there for one that pulls at 10 V."""
    text = """\
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {1-2: on}}
  E1: {is: lamp, watts: 5 W, at: 12 V}
  K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm, pulls at: 10 V, releases at: 1.2 V}}
wires:
  W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
  W2: {from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}
  W3: {from: G1:+, to: E1:1, size: 1 mm2, length: 1 m}
  W4: {from: E1:2, to: K1:86, size: 1 mm2, length: 1 m}
  W5: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
"""
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert (finding.severity, "gets 9.26 V with everything at rest" in finding.text) == (Severity.DOUBT, True)
    assert told(says(text.replace("pulls at: 10 V", "pulls at: 9 V"))) == []


def test_a_coil_that_nothing_feeds_is_another_rules_affair(says: Says) -> None:
    assert says("items: {K1: {is: relay, coil: {volts: 12 V}}}\n") == ()
