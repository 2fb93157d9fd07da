"""Two wires where one fits."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


ITEMS = "items: {F1: {is: fuse}, G1: {is: battery}, M1: {is: load}, XE1: {is: earth point}}\nsplices: {J1: {}}\n"


def test_two_wires_on_a_fuse_s_terminal(says: Says) -> None:
    (finding,) = says(ITEMS + "wires: {W1: {from: F1:2, to: J1}, W2: {from: F1:2, to: M1:1}}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.FAULT, 2)
    assert finding.text == "F1:2 holds 2 ends (W1, W2); it takes 1"


def test_two_wires_in_a_cavity(says: Says) -> None:
    text = "plugs: {X1: {face: rect-1x2}}\nwires: {W1: {from: X1:1, to: J1}, W2: {from: X1:1, to: M1:1}}\n"
    (finding,) = says(ITEMS + text)
    assert finding.about == "X1:1"
    assert says(ITEMS + text.replace("rect-1x2", "rect-1x2, takes: 2")) == ()


def test_a_loop_back_to_its_own_terminal_counts_twice(says: Says) -> None:
    assert [one.about for one in says(ITEMS + "wires: {W1: {from: F1:2, to: F1:2}}\n")] == ["F1:2"]


def test_studs_posts_and_splices_hold_more(says: Says) -> None:
    wires = "".join(f"  A{n}: {{from: G1:-, to: XE1}}\n  B{n}: {{from: J1}}\n" for n in range(4))
    assert says(ITEMS + "wires:\n" + wires) == ()
    assert [one.about for one in says(ITEMS + "wires:\n" + wires + "  A9: {from: XE1}\n")] == ["XE1"]


def test_cores_count_as_wires_do(says: Says) -> None:
    text = "cables: {W1: {cores: {red: {from: F1:1}, black: {from: F1:1}}}}\n"
    assert "W1.red, W1.black" in says(ITEMS + text)[0].text
