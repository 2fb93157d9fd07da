"""Names that lead nowhere."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


def test_a_place_that_is_not_described(says: Says) -> None:
    (finding,) = says("places: {cab: {}, mast: {}}\nruns:\n  - {between: [cab, most]}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.FAULT, 4)
    assert finding.text == "run cab - most names the place most, which the file does not describe; did you mean mast?"


def test_each_sort_of_name_is_followed(says: Says) -> None:
    text = """\
places: {cab: {}}
items: {M1: {is: load, place: cap}}
plugs: {X1: {face: rect-1x2, place: cap, mates with: X2, empty: [7], legend: {8: lamp}}}
splices: {J1: {place: cap}}
wires: {W1: {from: M1:1, circuit: pumb}}
circuits: {pump: {items: [M2]}}
lost functions: {a: {replaced by: [K9]}}
operation: [{when: {S9: on}, live: [M3], dead: ["M1:1", "M4:2"]}]
readings: [{between: [M1:1, M1:2], when: {S8: on}}]
"""
    named = sorted(one.text.split(", which")[0].split(" names the ")[1] for one in says(text))
    assert named == sorted(
        ["place cap"] * 3 + ["plug X2", "cavity X1:7", "cavity X1:8", "circuit pumb"]
        + [f"item {name}" for name in ("M2", "K9", "S9", "M3", "M4", "S8")]
    )  # fmt: skip


def test_names_that_exist_pass(says: Says) -> None:
    text = """\
places: {cab: {}, mast: {}}
runs: [{between: [cab, mast]}]
items: {M1: {is: load, place: cab}}
plugs: {X1: {face: rect-1x2, place: mast, mates with: X2, empty: [1], legend: {2: a}}, X2: {face: rect-1x2}}
wires: {W1: {from: M1:1, circuit: a}}
circuits: {a: {items: [M1, X1]}}
operation: [{when: {M1: on}, live: ["M1:1"]}]
"""
    assert says(text) == ()


def test_circuits_may_be_left_undescribed(says: Says) -> None:
    assert says("wires: {W1: {circuit: pump}}\n") == ()
