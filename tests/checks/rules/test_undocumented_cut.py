"""Cuts and cavities that the plug does not tell of."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


PLUG = "plugs:\n  X4: {{face: rect-2x2, cut: {{{}}}, empty: [{}]}}\n"


def test_a_cut_cavity_without_a_stub(says: Says) -> None:
    (finding,) = says(PLUG.format("1: 2026-10-11", ""))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.FAULT, 3)
    assert finding.text == "X4:1 is cut and has neither a stub nor stands in `empty:`"


def test_a_plug_cut_whole_is_asked_for_each_cavity(says: Says) -> None:
    said = says("plugs: {X4: {face: rect-2x2, cut: whole 2026-10-11, empty: [2]}}\nstubs: {X4:3: {}}\n")
    assert [one.about for one in said] == ["X4:1", "X4:4"]


def test_a_stub_or_the_word_empty_answers(says: Says) -> None:
    assert says(PLUG.format("1: 2026-10-11, 2: 2026-10-11", "2") + "stubs: {X4:1: {}}\n") == ()


def test_a_cavity_that_is_not_there(says: Says) -> None:
    assert says(PLUG.format("9: 2026-10-11", ""))[0].text == "X4:9 is cut, but the face has no such cavity"


def test_a_wire_that_still_lands_on_a_cut_cavity(says: Says) -> None:
    said = says(PLUG.format("1: 2026-10-11", "") + "stubs: {X4:1: {}}\nwires: {W1: {from: X4:1}}\n")
    assert [one.text for one in said] == ["X4:1 is cut, but W1 still lands on it"]


def test_a_stub_or_a_wire_cut_where_nothing_is_marked(says: Says) -> None:
    said = says(PLUG.format("", "") + "stubs: {X4:1: {}}\nwires: {W1: {from: tail, was at: X4:2}}\n")
    assert [one.text for one in said] == [
        "stub X4:1 sits in a cavity that is not marked as cut",
        "W1 was at X4:2, and that cavity is not marked as cut",
    ]


def test_an_empty_cavity_that_holds_something(says: Says) -> None:
    said = says(PLUG.format("", "1") + "wires: {W1: {from: X4:1}}\n")
    assert [one.text for one in said] == ["X4:1 stands in `empty:`, but holds W1"]
