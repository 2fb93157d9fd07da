"""Positions that the switch or sensor does not have."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ITEMS = """\
items:
  S1: {is: switch, contacts: {1-2: on}}
  S2: {is: switch, rest: released, contacts: {1-2: pressed}}
  B1: {is: sensor, signal: {normal: 1..2 V, no pressure: 0.5 V}}
  B2: {is: sensor}
  A1: {is: module, terminals: [GND], output: {OUT: {open circuit: 10 V, trip: 5 V}}}
  K1: {is: relay}
  M1: {is: load}
"""


@pytest.mark.parametrize(
    ("name", "position", "words"),
    [
        ("S1", "On", "S1 has off, on; did you mean on?"),
        ("S2", "off", "S2 has released, pressed"),
        ("S2", "press", "did you mean pressed?"),
        ("B1", "no presure", "did you mean no pressure?"),
        ("B2", "normal", "B2 is a sensor with no positions"),
        ("A1", "open circuit", "A1 has trip"),
        ("K1", "up", "K1 has at rest, pulled"),
        ("M1", "on", "M1 is a load with no positions"),
    ],
)
def test_what_is_not_there(says: Says, name: str, position: str, words: str) -> None:
    for section in (
        f"operation: [{{when: {{{name}: {position}}}}}]\n",
        f"readings: [{{between: [S1:1, S1:2], volts: 1 V, when: {{{name}: {position}}}}}]\n",
    ):
        (finding,) = says(ITEMS + section)
        assert isinstance(finding, Finding)
        assert (finding.severity, finding.mark.line) == (Severity.FAULT, 10)
        assert words in finding.text


@pytest.mark.parametrize(
    ("name", "position"),
    [
        ("S1", "off"),
        ("S2", "pressed"),
        ("B1", "no pressure"),
        ("A1", "trip"),
        ("K1", "at rest"),
        ("S9", "on"),  # named by another rule
    ],
)
def test_what_is_there(says: Says, name: str, position: str) -> None:
    assert says(ITEMS + f"operation: [{{when: {{{name}: {position}}}}}]\n") == ()
