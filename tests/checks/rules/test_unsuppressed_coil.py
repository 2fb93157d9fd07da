"""Coils without suppression beside electronics."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

HARNESS = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  F1: {{is: fuse, rating: 5 A}}
  S1: {{is: switch, contacts: {{1-2: on}}}}
  K1: {{is: relay, coil: {{volts: 12 V{suppression}}}}}
  A2: {{is: {beside}}}
wires:
  W1: {{from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}}
  W2: {{from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}}
  W3: {{from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}}
  W4: {{from: {at}, to: A2:{to}, size: 1 mm2, length: 1 m}}
"""
NONE = ", suppression: none"


def told(said: tuple[Finding | NotVerified, ...]) -> list[type]:
    return [type(one) for one in said]


@pytest.mark.parametrize(
    ("suppression", "said"),
    [(NONE, [Finding]), (", suppression: diode", []), (", suppression: resistor", []), ("", [NotVerified])],
)
def test_suppression(says: Says, suppression: str, said: list[type]) -> None:
    text = HARNESS.format(suppression=suppression, beside="regulator, gives: 5 V", at="S1:2", to="IN+")
    assert told(says(text)) == said


@pytest.mark.parametrize(
    ("beside", "at", "to", "found"),
    [
        ("sensor", "S1:2", "+", 1),
        ("module, terminals: [OUT, GND]", "K1:86", "OUT", 1),
        ("speed controller", "S1:2", "IN+", 1),
        ("relay board", "S1:2", "IN", 1),
        # A board's contact is dry; lamps and switches don't mind.
        ("relay board", "S1:2", "NO", 0),
        ("lamp, watts: 5 W", "S1:2", "1", 0),
        # The battery holds its own feed and the return still.
        ("sensor", "G1:+", "+", 0),
        ("sensor", "S1:1", "+", 0),
        ("sensor", "K1:85", "-", 0),
    ],
)
def test_what_is_beside_it(says: Says, beside: str, at: str, to: str, found: int) -> None:
    """Behind a fuse, so that S1 is no isolator."""
    text = HARNESS.format(suppression=NONE, beside=beside, at=at, to=to)
    fused = text.replace("from: G1:+, to: S1:1", "from: F1:2, to: S1:1")
    fused += "  W5: {from: G1:+, to: F1:1, size: 1 mm2, length: 1 m}\n"
    assert told(says(fused)) == [Finding] * found


def test_a_fuse_between_holds_nothing_off(says: Says) -> None:
    text = HARNESS.format(suppression=NONE, beside="fuse, rating: 1 A", at="K1:86", to="1")
    text = text.replace("from: G1:+, to: S1:1", "from: F1:2, to: S1:1").replace(
        "items:\n", "items:\n  B1: {is: sensor}\n"
    )
    text += "  W5: {from: G1:+, to: F1:1, size: 1 mm2, length: 1 m}\n  W6: {from: A2:2, to: B1:+, size: 1 mm2}\n"
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.about) == (Severity.DOUBT, "K1")
    assert finding.text == "K1's coil has no suppression, and B1:+ on the same switched node"


def test_a_coil_that_is_switched_in_its_return(says: Says) -> None:
    """85 jumps up when the transistor or switch there opens."""
    text = """\
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {1-2: on}}
  K1: {is: relay, coil: {volts: 12 V, suppression: none}}
  A1: {is: module, terminals: [IN]}
  M1: {is: load}
wires:
  W1: {from: G1:+, to: K1:86, size: 1 mm2, length: 1 m}
  W2: {from: K1:85, to: S1:1, size: 1 mm2, length: 1 m}
  W3: {from: S1:2, to: G1:-, size: 1 mm2, length: 1 m}
  W4: {from: A1:IN, to: K1:85, size: 1 mm2, length: 1 m}
  W5: {from: M1:1, to: G1:-, size: 1 mm2, length: 1 m}
"""
    assert told(says(text)) == [Finding]
