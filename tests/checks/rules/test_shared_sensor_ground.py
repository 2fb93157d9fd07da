"""Power current in a sensor's ground."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

HARNESS = """\
items:
  G1: {{is: battery, volts: 12 V, inner resistance: 0.0001 ohm}}
  B1: {{is: sensor, wires: 2, signal: {{normal: 3.8 V, dry: 5 V}}}}
  K5: {{is: relay board, supply: 12 V, input: {{pulls at: 4.6 V, releases at: 4.3 V, ohms: 1 Mohm}}}}
  M1: {{is: load, amps: {amps}, at: 12 V, draws: constant current}}
splices: {{J1: {{}}}}
wires:
  W1: {{from: B1:S, to: K5:IN, size: 1 mm2, length: 1 m}}
  W2: {{from: B1:-, to: {sensor}, size: 1 mm2, length: 1 m}}
  W3: {{from: M1:2, to: {motor}, size: 1 mm2, length: 1 m}}
  W4: {{from: J1, to: G1:-, size: 1 mm2, length: {length}}}
  W5: {{from: K5:-, to: {board}, size: 1 mm2, length: 1 m}}
  W6: {{from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}}
  W7: {{from: G1:+, to: K5:+, size: 1 mm2, length: 1 m}}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[Severity]:
    return [one.severity for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("amps", "sensor", "board", "motor", "length", "severities"),
    [
        # 1 mm² has 19.5 ohm/km: 5 A in 1 m lose 97 mV. The margin is 0.4 V, from 5 V to 4.6 V.
        ("5 A", "J1", "G1:-", "J1", "1 m", [Severity.DOUBT]),
        # 5 A in 5 m lose 0.49 V.
        ("5 A", "J1", "G1:-", "J1", "5 m", [Severity.FAULT]),
        # The same with the board on the shared wire and the sensor not.
        ("5 A", "G1:-", "J1", "J1", "5 m", [Severity.FAULT]),
        # Sensor and board share it both: nothing is between them.
        ("5 A", "J1", "J1", "J1", "5 m", []),
        # The motor goes another way.
        ("5 A", "J1", "G1:-", "G1:-", "5 m", []),
        # 0.5 A in 1 m lose 10 mV.
        ("0.5 A", "J1", "G1:-", "J1", "1 m", []),
    ],
)
def test_what_is_between(
    says: Says, amps: str, sensor: str, board: str, motor: str, length: str, severities: list[Severity]
) -> None:
    text = HARNESS.format(amps=amps, sensor=sensor, board=board, motor=motor, length=length)
    assert told(says(text)) == severities


def test_wire_current_and_shift_are_named(says: Says) -> None:
    """5 A in 5 m of 1 mm² (19.5 ohm/km) lose 0.49 V."""
    text = HARNESS.format(amps="5 A", sensor="J1", board="G1:-", motor="J1", length="5 m")
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.text == (
        "B1's ground and K5's can differ by 0.49 V: W4 between them carries 5 A when all is on;"
        " the signal's margin at K5 is 0.4 V"
    )
    assert finding.mend == "give B1 a ground wire of its own to K5:-, with nothing else on it"


def test_where_it_must_fail_safe_it_is_a_danger(says: Says) -> None:
    text = HARNESS.format(amps="5 A", sensor="J1", board="G1:-", motor="J1", length="5 m")
    line = "operation: [{when: {B1: dry}, dead: [M1], fails safe: true}]\n"
    assert told(says(text + line)) == [Severity.DANGER]


def test_a_modules_ground(says: Says) -> None:
    text = HARNESS.format(amps="5 A", sensor="J1", board="G1:-", motor="J1", length="5 m")
    text = text.replace("input: {pulls at: 4.6 V, releases at: 4.3 V, ohms: 1 Mohm}", "rating: {no: 10 A}")
    module = text.replace("is: relay board, supply: 12 V, rating: {no: 10 A}", "is: module, terminals: [+, -, IN]")
    assert told(says(module)) == [Severity.DOUBT]


def test_a_length_that_is_assumed_is_said(says: Says) -> None:
    (finding,) = says(HARNESS.format(amps="5 A", sensor="J1", board="G1:-", motor="J1", length="unknown"))
    assert isinstance(finding, Finding)
    assert finding.text.endswith("; assumed: W4 length unknown: taken as 1 m")
