"""Two halves of a plug must fit, and say which has the pins."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

PAIR = """plugs:
  X5: {face: rect-1x2, contacts: sockets, mates with: X6}
  X6: {face: rect-1x2, contacts: pins, mates with: X5}
"""


def texts(said: tuple[Finding | NotVerified, ...]) -> list[str]:
    return [one.text for one in said]


def test_a_pair_that_fits_passes(says: Says) -> None:
    assert says(PAIR) == ()


def test_different_faces_do_not_fit(says: Says) -> None:
    (finding,) = says(PAIR.replace("X6: {face: rect-1x2", "X6: {face: rect-1x3"))
    assert finding.text == "X5 and its mate X6 have different cavities"
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT


def test_both_must_say_that_they_mate(says: Says) -> None:
    assert texts(says(PAIR.replace(", mates with: X5", ""))) == ["X5 mates with X6, which says nothing of it"]
    itself = says("plugs: {X5: {face: rect-1x2, mates with: X5}}")
    assert texts(itself) == ["X5 is said to mate with itself"]


def test_pins_do_not_mate_with_pins(says: Says) -> None:
    assert texts(says(PAIR.replace("sockets", "pins"))) == ["X5 and its mate X6 both have pins"]


def test_nobody_says_which_has_the_pins_is_a_doubt(says: Says) -> None:
    (finding,) = says(PAIR.replace("contacts: sockets, ", "").replace("contacts: pins, ", ""))
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DOUBT
    assert "X6 is drawn with pins" in finding.text


def test_a_wire_against_an_empty_cavity(says: Says) -> None:
    harness = PAIR.replace("mates with: X5", "mates with: X5, empty: ['2']")
    harness += "items: {M1: {is: motor}}\nwires: {W1: {from: X5:2, to: M1:1}}\n"
    assert texts(says(harness)) == ["X5:2 has a wire, and X6:2 of its mate is empty"]
