"""Things fed the wrong way round."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ONE = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  A9: {{is: {kind}}}
wires:
  W1: {{from: G1:+, to: A9:{plus}, size: 1 mm2, length: 1 m}}
  W2: {{from: A9:{minus}, to: G1:-, size: 1 mm2, length: 1 m}}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[Severity]:
    return [one.severity for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("kind", "plus", "minus", "severity"),
    [
        ("load, amps: 5 A, terminals: [+, -]", "+", "-", Severity.FAULT),
        ("lamp, watts: 5 W, terminals: [+, -]", "+", "-", Severity.FAULT),
        ("sensor", "+", "-", Severity.DANGER),
        ("relay board", "+", "-", Severity.DANGER),
        ("regulator, gives: 5 V", "IN+", "IN-", Severity.DANGER),
        ("relay, coil: {volts: 12 V, suppression: diode}", "86", "85", Severity.DANGER),
    ],
)
def test_the_wrong_way_round(says: Says, kind: str, plus: str, minus: str, severity: Severity) -> None:
    assert told(says(ONE.format(kind=kind, plus=plus, minus=minus))) == []
    (finding,) = says(ONE.format(kind=kind, plus=minus, minus=plus))
    assert isinstance(finding, Finding)
    assert (finding.about, finding.severity, finding.mark.line) == ("A9", severity, 4)


@pytest.mark.parametrize(
    ("kind", "plus", "minus"),
    [
        ("load, amps: 5 A", "2", "1"),
        ("relay, coil: {volts: 12 V, suppression: resistor}", "85", "86"),
        ("relay, coil: {volts: 12 V}", "85", "86"),
    ],
)
def test_what_has_no_polarity(says: Says, kind: str, plus: str, minus: str) -> None:
    assert says(ONE.format(kind=kind, plus=plus, minus=minus)) == ()


def test_a_motor_that_a_switch_reverses_is_meant(says: Says) -> None:
    text = """\
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {1-3: up, 2-4: up, 1-4: down, 2-3: down}}
  M1: {is: load, amps: 5 A, terminals: [+, -]}
wires:
  W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
  W2: {from: S1:2, to: G1:-, size: 1 mm2, length: 1 m}
  W3: {from: S1:3, to: M1:+, size: 1 mm2, length: 1 m}
  W4: {from: S1:4, to: M1:-, size: 1 mm2, length: 1 m}
"""
    assert says(text) == ()


def test_the_state_and_the_voltage_are_named(says: Says) -> None:
    """5 A at 12 V is 2.4 ohm; 2 m of 2.5 mm² (7.98 ohm/km) and 0.015 ohm in all leave 12.6 x 2.4 / 2.431 = 12.4 V."""
    text = """\
items:
  G1: {is: battery, volts: 12.6 V, inner resistance: 0.01 ohm}
  S1: {is: switch, contacts: {1-2: on}}
  M1: {is: load, amps: 5 A, at: 12 V, terminals: [+, -]}
wires:
  W1: {from: G1:+, to: S1:1, size: 2.5 mm2, length: 1 m}
  W2: {from: S1:2, to: M1:-, size: 2.5 mm2, length: 1 mm}
  W3: {from: M1:+, to: G1:-, size: 2.5 mm2, length: 1 m}
"""
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.text == "M1 is fed the wrong way round: - is 12.4 V above + with S1 on"
