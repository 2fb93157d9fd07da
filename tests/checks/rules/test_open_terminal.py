"""Terminals on which nothing lands."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


ITEMS = """\
items:
  S1: {is: switch, contacts: {1-2: on}}
  M1: {is: load, case on chassis: true}
  K1: {is: relay, laid: existing}
  X1: {is: terminal strip, ways: 6}
"""


def test_an_open_terminal_is_doubted_once_an_item(says: Says) -> None:
    (finding,) = says(ITEMS + "wires: {W1: {from: M1:1, to: tail}}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.DOUBT, 3)
    assert finding.text == "S1: terminals left open: 1, 2"


def test_a_stud_without_a_wire(says: Says) -> None:
    assert [one.text for one in says("items: {XE1: {is: earth point}}\n")] == ["XE1: nothing lands on it"]


def test_unused_and_joined_terminals_pass(says: Says) -> None:
    text = ITEMS.replace("{1-2: on}", "{1-2: on}, unused: [1]")
    wires = "plugs: {X4: {face: rect-1x2}}\nstubs: {X4:1: {joined at: S1:2}}\nwires: {W1: {from: M1:1}}\n"
    assert says(text + wires) == ()


def test_unused_is_held_against_the_truth(says: Says) -> None:
    text = ITEMS.replace("{1-2: on}", "{1-2: on}, unused: [1, 9]")
    said = [one.text for one in says(text + "wires: {W1: {from: M1:1, to: S1:1}, W2: {from: S1:2}}\n")]
    assert said == ["S1 lists 1 in unused:, and W1 lands on it", "S1 lists 9 in unused:, and has no such terminal"]
