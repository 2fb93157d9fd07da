"""Loads switched in their return."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ITEMS = """\
items:
  G1: {is: battery, volts: 12.6 V}
  F1: {is: fuse, rating: 10 A}
  S1: {is: switch, contacts: {1-2: on}}
  K1: {is: relay}
  T1: {is: speed controller, switches: negative}
  E1: {is: lamp, watts: 2 W, at: 12 V}
  M1: {is: load, amps: 5 A, at: 12 V}
wires:
  W1: {from: G1:+, to: F1:1, size: 1 mm2, length: 1 m}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


def wires(*pairs: str) -> str:
    text = ITEMS
    for n, pair in enumerate(pairs, 2):
        a, b = pair.split(" ", 1)
        text += f"  W{n}: {{from: {a}, to: {b}, size: 1 mm2, length: 1 m}}\n"
    return text


@pytest.mark.parametrize(
    ("pairs", "found"),
    [
        (("F1:2 M1:1", "M1:2 S1:1", "S1:2 G1:-"), 1),
        (("F1:2 M1:1", "M1:2 K1:30", "K1:87 chassis", "G1:- chassis"), 1),
        # The terminals the other way round.
        (("F1:2 M1:2", "M1:1 S1:1", "S1:2 G1:-"), 1),
        # In the feed.
        (("F1:2 S1:1", "S1:2 M1:1", "M1:2 G1:-"), 0),
        # Nothing switches it.
        (("F1:2 M1:1", "M1:2 G1:-"), 0),
        # A controller's output is low side by design.
        (("F1:2 T1:IN+", "T1:IN- G1:-", "T1:OUT+ M1:1", "T1:OUT- M1:2"), 0),
        # A small lamp on a sender that is screwed in.
        (("F1:2 E1:1", "E1:2 S1:1", "S1:2 G1:-"), 0),
        # A changeover that brakes: one side of the motor goes to feed or to return.
        (("F1:2 M1:1", "M1:2 K1:30", "K1:87 G1:-", "K1:87a F1:2"), 0),
        # Nobody knows where the switch leads.
        (("F1:2 M1:1", "M1:2 S1:1", "S1:2 unknown"), 0),
    ],
)
def test_where_the_switch_is(says: Says, pairs: tuple[str, ...], found: int) -> None:
    assert told(says(wires(*pairs))) == [("M1", Severity.DOUBT)] * found


def test_low_side_by_design(says: Says) -> None:
    text = wires("F1:2 M1:1", "M1:2 S1:1", "S1:2 G1:-")
    assert told(says(text.replace("to: S1:1,", "to: S1:1, drive: low side,"))) == []
    assert len(told(says(text.replace("to: S1:1,", "to: S1:1, drive: high side,")))) == 1


def test_switched_on_both_sides(says: Says) -> None:
    """With a switch in the feed as well, the load is dead when both are off."""
    text = wires("F1:2 K1:30", "K1:87 M1:1", "M1:2 S1:1", "S1:2 G1:-")
    assert told(says(text)) == []


@pytest.mark.parametrize("isolated", ["+", "-"])
def test_an_isolator_at_the_battery_is_no_switch(says: Says, isolated: str) -> None:
    """It is left on while the machine works: a load behind it is switched in its return all the same, and one without
    a switch of its own is not."""
    lamp = ("F1:2 E1:1", "E1:2 G1:-")
    isolator = "items:\n  S9: {is: switch, contacts: {1-2: on}}\n"
    switched = wires("F1:2 M1:1", "M1:2 S1:1", "S1:2 G1:-", *lamp).replace("items:\n", isolator)
    bare = wires("F1:2 M1:1", "M1:2 G1:-", *lamp).replace("items:\n", isolator)
    for text, found in ((switched, 1), (bare, 0)):
        behind = text.replace(f"G1:{isolated}", "S9:2") + f"  W9: {{from: S9:1, to: G1:{isolated}, size: 1 mm2}}\n"
        assert len(told(says(behind))) == found


def test_the_switch_is_named(says: Says) -> None:
    (finding,) = says(wires("F1:2 M1:1", "M1:2 S1:1", "S1:2 G1:-"))
    assert isinstance(finding, Finding)
    assert finding.text == "M1 is switched in its return, by S1; its feed stays live"
