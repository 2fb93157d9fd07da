"""What is drawn with every switch off."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ONE = """\
items:
  G1: {{is: battery, volts: 12 V, capacity: 70 Ah, inner resistance: 0.001 ohm}}
  S1: {{is: switch, contacts: {{1-2: {closed}}}}}
  M1: {{is: load, ohms: {ohms}}}
wires:
  W1: {{from: G1:+, to: S1:1, size: 2.5 mm2, length: 1 m}}
  W2: {{from: S1:2, to: M1:1, size: 2.5 mm2, length: 1 m}}
  W3: {{from: M1:2, to: G1:-, size: 2.5 mm2, length: 1 m}}
"""


@pytest.mark.parametrize(
    ("closed", "ohms", "found"),
    [
        ("on", "12 ohm", 0),  # off when off
        ("off", "12 ohm", 1),  # on when off
        ("off", "300 ohm", 0),  # 40 mA
        ("off", "200 ohm", 1),  # 60 mA
    ],
)
def test_limits(says: Says, closed: str, ohms: str, found: int) -> None:
    said = says(ONE.format(closed=closed, ohms=ohms))
    assert [one.severity for one in said if isinstance(one, Finding)] == [Severity.DOUBT] * found


def test_milliamps_and_a_night_are_named(says: Says) -> None:
    """12 V over 120 ohm: 100 mA, 1.2 Ah in 12 h, 1.7 % of 70 Ah."""
    (finding,) = says(ONE.format(closed="off", ohms="120 ohm"))
    assert isinstance(finding, Finding)
    assert finding.text == "G1 gives 100 mA with every switch off, 1.2 Ah in a night of 12 h, 1.7 % of G1: M1 100 mA"


def test_a_boards_assumed_draw_is_said(says: Says) -> None:
    text = """\
items:
  G1: {is: battery, volts: 12.6 V}
  K5: {is: relay board, supply: 12 V, input: {pulls at: 2 V}}
wires:
  W1: {from: G1:+, to: K5:+, size: 1 mm2, length: 1 m}
  W2: {from: K5:-, to: G1:-, size: 1 mm2, length: 1 m}
"""
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert "K5 draw of the board not stated" in finding.text


def test_what_a_regulator_passes_on_counts_once(says: Says) -> None:
    """5 V over 50 ohm are 100 mA, which the regulator takes from 12 V: 100 mA in all, not 100 and 42 more."""
    text = """\
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.001 ohm}
  T1: {is: regulator, gives: 5 V}
  M1: {is: load, ohms: 50 ohm}
wires:
  W1: {from: G1:+, to: T1:IN+, size: 1 mm2, length: 1 m}
  W2: {from: T1:IN-, to: G1:-, size: 1 mm2, length: 1 m}
  W3: {from: T1:OUT+, to: M1:1, size: 1 mm2, length: 1 m}
  W4: {from: M1:2, to: T1:OUT-, size: 1 mm2, length: 1 m}
"""
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.text.startswith("G1 gives 100 mA with every switch off")


def test_the_worst_that_a_sensor_can_do(says: Says) -> None:
    """At rest the board does not feed the lamp; when the sensor is wet it does, with every switch off."""
    text = """\
items:
  G1: {is: battery, volts: 12.6 V}
  B1: {is: sensor, wires: 2, signal: {dry: 0 V, wet: 5 V}}
  K5: {is: relay board, supply: 12 V, input: {pulls at: 2 V, releases at: 1 V}}
  E1: {is: lamp, watts: 60 W, at: 12 V}
wires:
  W1: {from: G1:+, to: K5:+, size: 1 mm2, length: 1 m}
  W2: {from: K5:-, to: G1:-, size: 1 mm2, length: 1 m}
  W3: {from: B1:S, to: K5:IN, size: 1 mm2, length: 1 m}
  W4: {from: B1:-, to: G1:-, size: 1 mm2, length: 1 m}
  W5: {from: G1:+, to: K5:COM, size: 1 mm2, length: 1 m}
  W6: {from: K5:NO, to: E1:1, size: 1 mm2, length: 1 m}
  W7: {from: E1:2, to: G1:-, size: 1 mm2, length: 1 m}
"""
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.text.startswith("G1 gives 5.1 A with every switch off, 61 Ah in a night of 12 h: E1 4.9 A, K5 ")
