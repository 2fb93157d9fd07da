"""Stub and wire were one conductor."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


BASE = """\
plugs: {{X4: {{face: rect-1x2, cut: {{1: 2026-10-11}}}}}}
wires: {{W1: {{from: tail, colour: blue/white, size: 14 AWG, was at: X4:1, circuit: pump}}}}
stubs:
  X4:1: {{{}}}
"""


def test_another_colour(says: Says) -> None:
    (finding,) = says(BASE.format("colour: blue/black, from: W1"))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line, finding.circuits) == (Severity.FAULT, 5, ("pump",))
    assert finding.text == "stub X4:1 is BU/BK, its wire W1 is BU/WH"


def test_another_size_and_another_cavity(says: Says) -> None:
    said = says(BASE.format("size: 1 mm2, from: W1").replace("was at: X4:1", "was at: X4:2"))
    assert [one.text for one in said] == [
        "stub X4:1 is 1 mm², its wire W1 is 14 AWG",
        "stub X4:1 is said to be from W1, which was at X4:2",
    ]


def test_the_same_size_said_in_two_ways_is_the_same(says: Says) -> None:
    """14 AWG is 2.08 mm²."""
    assert says(BASE.format("size: 2 mm2, colour: bl/ws, from: W1")) == ()
    assert says(BASE.format("size: 14 AWG, from: W1")) == ()


def test_a_stub_of_no_wire(says: Says) -> None:
    (unsaid,) = says(BASE.format("capped: true"))
    (wrong,) = says(BASE.format("from: W9"))
    assert isinstance(unsaid, Finding)
    assert isinstance(wrong, Finding)
    assert (unsaid.severity, wrong.severity) == (Severity.DOUBT, Severity.FAULT)
    assert wrong.text == "stub X4:1 is from W9, and there is no such wire"


def test_what_is_unknown_is_not_held_against_it(says: Says) -> None:
    assert says(BASE.format("colour: unknown, size: unknown, from: W1")) == ()
