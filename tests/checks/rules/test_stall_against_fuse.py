"""Stall and surge currents against fuses and controllers. Gates: 135 % opens; a blade fuse holds 350 % for 0.08 s."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified

Said = tuple[Finding | NotVerified, ...]
Says = Callable[[str], Said]


def motor(fuse: str, load: str) -> str:
    return f"""\
items:
  G1: {{is: battery, volts: 12 V, inner resistance: 0.01 mohm}}
  F1: {{is: fuse, {fuse}, cold resistance: 0.01 mohm}}
  M1: {{is: {load}}}
wires:
  W1: {{from: G1:+, to: F1:1, size: 70 mm2, length: 1 mm}}
  W2: {{from: F1:2, to: M1:1, size: 70 mm2, length: 1 mm}}
  W3: {{from: M1:2, to: G1:-, size: 70 mm2, length: 1 mm}}
"""


def texts(said: Said) -> list[str]:
    return [one.text for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(("rating", "count"), [("22 A", 0), ("23 A", 1)])
def test_a_stall_that_the_fuse_never_notices(says: Says, rating: str, count: int) -> None:
    """30 A is 136 % of 22 A and 130 % of 23 A."""
    said = texts(says(motor(f"rating: {rating}", "load, amps: 7 A, stall: 30 A, at: 12 V")))
    assert len(said) == count
    assert all("30 A, 130 % of F1 (23 A): nothing says that it opens" in text for text in said)


@pytest.mark.parametrize(("inrush", "count"), [("5", 0), ("10", 1)])
def test_a_lamps_surge_that_the_fuse_does_not_stand(says: Says, inrush: str, count: int) -> None:
    """A blade fuse of 10 A holds (3.5 x 10 A)² x 0.08 s = 98 A²s; 50 A for 0.03 s is 75 A²s, 100 A is 300 A²s."""
    said = texts(says(motor("rating: 10 A, style: blade", f"lamp, amps: 10 A, at: 12 V, inrush: {inrush}")))
    assert len(said) == count
    assert all("300 A²s, it stands 98 A²s" in text for text in said)


def test_a_style_without_gates_is_not_held_to_any(says: Says) -> None:
    assert texts(says(motor("rating: 10 A, style: bolted", "lamp, amps: 10 A, at: 12 V, inrush: 10"))) == []


CONTROLLED = """\
items:
  G1: {is: battery, volts: 12 V}
  F1: {is: fuse, rating: FUSE}
  T1: {is: speed controller, switches: negative, rating: 20 AOWN}
  M1: {is: load, amps: 7 A, stall: 40 A, at: 12 V}
wires:
  W1: {from: G1:+, to: F1:1, size: 6 mm2, length: 100 mm}
  W2: {from: F1:2, to: T1:IN+, size: 6 mm2, length: 100 mm}
  W3: {from: T1:IN-, to: G1:-, size: 6 mm2, length: 100 mm}
  W4: {from: T1:OUT+, to: M1:1, size: 6 mm2, length: 100 mm}
  W5: {from: T1:OUT-, to: M1:2, size: 6 mm2, length: 100 mm}
"""


@pytest.mark.parametrize(
    ("fuse", "own", "count"),
    [("20 A", "", 0), ("25 A", "", 1), ("25 A", ", own fuse: 20 A", 0), ("25 A", ", own fuse: 25 A", 1)],
)
def test_a_stall_behind_a_controller(says: Says, fuse: str, own: str, count: int) -> None:
    said = texts(says(CONTROLLED.replace("FUSE", fuse).replace("OWN", own)))
    assert len(said) == count
    assert all("takes T1 to 40 A; it is rated 20 A" in text for text in said)


def test_a_load_that_states_neither(says: Says) -> None:
    assert says(motor("rating: 50 A, style: blade", "load, amps: 7 A, at: 12 V")) == ()
