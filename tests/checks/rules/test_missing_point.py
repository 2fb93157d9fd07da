"""Points that do not exist."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


ITEMS = "items: {K1: {is: relay}, F1: {is: fuse}, XE1: {is: earth point}}\nplugs: {X4: {face: rect-2x12}}\n"


def test_a_terminal_that_the_relay_has_not(says: Says) -> None:
    (finding,) = says(ITEMS + "wires:\n  W1: {from: F1:2, to: K1:78}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.FAULT, 5)
    assert finding.text == "W1 names K1:78, which has no such terminal; K1 has 30, 85, 86, 87, 87a"


def test_each_way_to_name_a_point_is_followed(says: Says) -> None:
    text = """\
wires: {W1: {from: F2:1, to: F1}, W2: {from: XE1:1, was at: X4:25}, W3: {from: J9}}
stubs: {X9:1: {joined at: J8}}
readings: [{between: [F1:3, chassis]}]
"""
    said = [one.text for one in says(ITEMS + text)]
    for words in (
        "W1 names F2:1, but no item, plug or splice is called F2; did you mean F1?",
        "W1 names F1, names no terminal; F1 has 1, 2",
        "W2 names XE1:1, but XE1 has no terminals",
        "W2 names X4:25, which has no such terminal; X4 has 1, 2, 3,",
        "W3 names J9, but no item, plug or splice is called J9",
        "stub X9:1 names X9:1, but no item",
        "stub X9:1 names J8, but no item",
        "a reading names F1:3, which has no such terminal",
    ):
        assert any(text.startswith(words) for text in said), (words, said)
    assert len(said) == 8


def test_points_that_exist_pass(says: Says) -> None:
    text = "wires: {W1: {from: F1:1, to: XE1}, W2: {from: tail, to: X4:24}, W3: {from: unknown}}\n"
    assert says(ITEMS + text + "readings: [{between: [F1:1, chassis]}]\n") == ()


def test_a_wire_to_the_chassis_is_told_of_earth_points(says: Says) -> None:
    (finding,) = says(ITEMS + "wires: {W1: {from: F1:1, to: chassis}}\n")
    assert isinstance(finding, Finding)
    assert "earth point" in finding.mend


def test_a_bridge_to_a_way_that_the_strip_has_not(says: Says) -> None:
    (finding,) = says("items: {X1: {is: terminal strip, ways: 3, joined: [1-2, 3-9]}}\n")
    assert finding.text == "X1 joins 3 and 9, and has no terminal 9"
