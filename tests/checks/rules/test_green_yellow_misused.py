"""Green-and-yellow is protective earth and nothing else."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


ITEMS = "items: {G1: {is: battery}, F1: {is: fuse}, M1: {is: load}, XE1: {is: earth point}}\n"


def test_a_feed_in_green_and_yellow(says: Says) -> None:
    (finding,) = says(ITEMS + "wires: {W1: {from: G1:+, to: F1:1, colour: gn/ye}}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.text) == (Severity.FAULT, "W1 is green-and-yellow and is a feed")
    assert "IEC 60445" in finding.source


def test_a_return_to_the_chassis_is_no_protective_earth(says: Says) -> None:
    assert says(ITEMS + "wires: {W1: {from: M1:2, to: XE1, colour: green-yellow}}\n")[0].text.endswith("is a return")


def test_stated_earth_old_wires_and_plain_green_pass(says: Says) -> None:
    wires = "wires: {W1: {from: M1:2, to: XE1, colour: green-yellow, role: earth}, \
W2: {from: G1:+, colour: green-yellow, laid: existing}, W3: {from: G1:+, colour: green/white}, W4: {from: G1:+}}\n"
    assert says(ITEMS + wires) == ()
