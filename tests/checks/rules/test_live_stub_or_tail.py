"""Cut ends that are live in some state."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ITEMS = """\
items:
  G1: {is: battery, volts: 12.6 V}
  F1: {is: fuse, rating: 5 A}
  S1: {is: switch, contacts: {1-2: on}}
  M1: {is: load, amps: 1 A, at: 12 V}
plugs:
  X4: {face: rect-1x2, mates with: X5}
  X5: {face: rect-1x2}
wires:
  W1: {from: G1:+, to: F1:1, size: 1 mm2, length: 1 m}
  W2: {from: F1:2, to: S1:1, size: 1 mm2, length: 1 m}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("end", "severities"),
    [
        ("cap", [Severity.DOUBT]),
        ("tab 6.3", [Severity.DANGER]),
        ("unknown", [Severity.FAULT]),
    ],
)
def test_a_tail_behind_a_switch(says: Says, end: str, severities: list[Severity]) -> None:
    said = says(ITEMS + f"  W3: {{from: S1:2, to: tail, size: 1 mm2, length: 1 m, ends: [tab 6.3, {end}]}}\n")
    assert told(said) == [("W3", severity) for severity in severities]


def test_state_and_voltage_are_named(says: Says) -> None:
    (finding,) = says(ITEMS + "  W3: {from: S1:2, to: tail, size: 1 mm2, length: 1 m, ends: [tab 6.3, cap]}\n")
    assert isinstance(finding, Finding)
    assert finding.text == "W3's tail is live, 12.6 V with S1 on, capped"
    assert finding.mark.line == 13


def test_a_capped_tail_with_no_fuse_before_it_is_a_danger(says: Says) -> None:
    said = says(ITEMS + "  W3: {from: G1:+, to: tail, size: 1 mm2, length: 1 m, ends: [tab 6.3, cap]}\n")
    assert told(said) == [("W3", Severity.DANGER)]


@pytest.mark.parametrize(("capped", "severity"), [("true", Severity.DOUBT), ("false", Severity.DANGER)])
def test_a_stub_whose_other_half_is_still_fed(says: Says, capped: str, severity: Severity) -> None:
    """X4:1 is cut, but X5:1, mated with it, is fed."""
    text = f"  W3: {{from: S1:2, to: X5:1, size: 1 mm2, length: 1 m}}\nstubs: {{X4:1: {{capped: {capped}}}}}\n"
    assert told(says(ITEMS + text)) == [("stub X4:1", severity)]


def test_a_stub_that_is_joined_on_is_no_loose_end(says: Says) -> None:
    text = "  W3: {from: S1:2, to: J1, size: 1 mm2, length: 1 m}\nsplices: {J1: {}}\nstubs: {X4:1: {joined at: J1}}\n"
    assert told(says(ITEMS + text)) == []


@pytest.mark.parametrize("far", ["G1:-", "M1:2", "X4:2", "unknown"])
def test_ends_that_nothing_feeds(says: Says, far: str) -> None:
    """At the return, behind a load that is not fed, on an empty cavity, nobody knows where."""
    said = says(
        ITEMS + f"  W3: {{from: {far}, to: tail, size: 1 mm2, length: 1 m}}\nstubs: {{X4:1: {{capped: false}}}}\n"
    )
    assert told(said) == []


def test_a_tail_that_is_live_through_a_load(says: Says) -> None:
    """A motor's loose return has the supply's voltage when it is switched on: 12.6 V with nothing flowing."""
    text = """\
  W3: {from: S1:2, to: M1:1, size: 1 mm2, length: 1 m}
  W4: {from: M1:2, to: tail, size: 1 mm2, length: 1 m, ends: [tab 6.3, cap]}
"""
    assert told(says(ITEMS + text)) == [("W4", Severity.DOUBT)]
