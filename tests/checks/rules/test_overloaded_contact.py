"""Contacts, power stages and strips against what the file rates them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Said = tuple[Finding | NotVerified, ...]
Says = Callable[[str], Said]


def through(item: str, into: str, out: str, amps: str = "15 A", more: str = "") -> str:
    """A load fed through an item."""
    return f"""\
items:
  G1: {{is: battery, volts: 12 V, inner resistance: 0.01 mohm}}
  X1: {{is: {item}}}
  M1: {{is: load, amps: {amps}, at: 12 V}}
wires:
  W1: {{from: G1:+, to: X1:{into}, size: 70 mm2, length: 1 mm}}
  W2: {{from: X1:{out}, to: M1:1, size: 70 mm2, length: 1 mm}}
  W3: {{from: M1:2, to: G1:-, size: 70 mm2, length: 1 mm}}
{more}"""


def found(said: Said) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


COIL = (
    "  W4: {from: G1:+, to: X1:86, size: 1 mm2, length: 1 m}\n  W5: {from: X1:85, to: G1:-, size: 1 mm2, length: 1 m}\n"
)
BOARD = (
    "  W4: {from: G1:+, to: X1:+, size: 1 mm2, length: 1 mm}\n  W5: {from: X1:-, to: G1:-, size: 1 mm2, length: 1 mm}\n"
)
SIGNAL = "  W6: {from: G1:+, to: X1:IN, size: 1 mm2, length: 1 mm}\n"


@pytest.mark.parametrize(
    ("item", "into", "out", "more"),
    [
        ("switch, contacts: {1-2: on}, rating: RATING", "1", "2", ""),
        ("relay, rating: RATING", "30", "87a", ""),
        ("relay, rating: RATING", "30", "87", COIL),
        ("relay board, rating: {nc: RATING, no: 1 A}", "COM", "NC", ""),
        ("relay board, input: {pulls at: 4 V}, rating: {nc: 1 A, no: RATING}", "COM", "NO", BOARD + SIGNAL),
        ("diode, rating: RATING", "A", "K", ""),
        ("terminal strip, joined: all, rating: RATING", "1", "2", ""),
    ],
)
def test_above_and_below_the_rating(says: Says, item: str, into: str, out: str, more: str) -> None:
    above = says(through(item.replace("RATING", "10 A"), into, out, more=more))
    assert found(above) == [("X1", Severity.DANGER)]
    assert found(says(through(item.replace("RATING", "16 A"), into, out, more=more))) == []


def test_the_text_names_the_contact_and_the_state(says: Says) -> None:
    (finding,) = says(through("switch, contacts: {1-2: on, 1-3: other}, rating: 10 A", "1", "2"))
    assert isinstance(finding, Finding)
    assert finding.text == "X1:1-2 carries 14.9 A with X1 on; it is rated 10 A"


def test_a_coil_is_no_contact(says: Says) -> None:
    assert found(says(through("relay, coil: {volts: 12 V, amps: 2 A}, rating: 1 A", "30", "87", "0.5 A", COIL))) == []


def test_a_regulator_is_a_fault(says: Says) -> None:
    """5 V into 2 ohm is 2.5 A."""
    text = """\
items:
  G1: {is: battery, volts: 12 V}
  T1: {is: regulator, gives: 5 V, rating: RATING}
  M1: {is: load, ohms: 2 ohm}
wires:
  W1: {from: G1:+, to: T1:IN+, size: 1 mm2, length: 100 mm}
  W2: {from: T1:IN-, to: G1:-, size: 1 mm2, length: 100 mm}
  W3: {from: T1:OUT+, to: M1:1, size: 1 mm2, length: 100 mm}
  W4: {from: T1:OUT-, to: M1:2, size: 1 mm2, length: 100 mm}
"""
    assert found(says(text.replace("RATING", "2 A"))) == [("T1", Severity.FAULT)]
    assert found(says(text.replace("RATING", "3 A"))) == []


@pytest.mark.parametrize(("rating", "count"), [("10 A", 1), ("16 A", 0)])
def test_a_controllers_power_stage(says: Says, rating: str, count: int) -> None:
    """It switches the negative, so the current of its load comes back through OUT-."""
    text = f"""\
items:
  G1: {{is: battery, volts: 12 V}}
  T1: {{is: speed controller, switches: negative, rating: {rating}}}
  M1: {{is: load, amps: 15 A, at: 12 V}}
wires:
  W1: {{from: G1:+, to: T1:IN+, size: 6 mm2, length: 100 mm}}
  W2: {{from: T1:IN-, to: G1:-, size: 6 mm2, length: 100 mm}}
  W3: {{from: T1:OUT+, to: M1:1, size: 6 mm2, length: 100 mm}}
  W4: {{from: T1:OUT-, to: M1:2, size: 6 mm2, length: 100 mm}}
"""
    assert found(says(text)) == [("T1", Severity.DANGER)] * count


def test_no_rating_is_not_verified(says: Says) -> None:
    (said,) = says(through("switch, contacts: {1-2: on}", "1", "2"))
    assert isinstance(said, NotVerified)
    assert said.text == "rating not stated of X1"
