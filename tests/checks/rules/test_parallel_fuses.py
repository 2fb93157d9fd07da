"""Fuses side by side."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ITEMS = """\
items:
  G1: {is: battery}
  F1: {is: fuse, rating: 10 A}
  F2: {is: breaker, rating: 15 A}
  F3: {is: fuse}
  X1: {is: terminal strip, ways: 3, joined: all}
  X2: {is: terminal strip, ways: 3, joined: all}
  M1: {is: load}
wires:
  W0: {from: G1:+, to: X1:1}
  W9: {from: X2:1, to: M1:1}
"""


def test_two_between_the_same_strips(says: Says) -> None:
    text = """\
  W1: {from: X1:2, to: F1:1}
  W2: {from: X1:3, to: F2:2}
  W3: {from: F1:2, to: X2:2}
  W4: {from: F2:1, to: X2:3}
"""
    (finding,) = says(ITEMS + text)
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT
    assert finding.text == "F1 and F2 lie side by side in one feed, 25 A together"


def test_an_unknown_rating_gives_no_sum(says: Says) -> None:
    text = "  W1: {from: F1:1, to: F3:1}\n  W2: {from: F1:2, to: F3:2}\n  W3: {from: F1:1, to: X1:2}\n"
    (finding,) = says(ITEMS + text)
    assert isinstance(finding, Finding)
    assert finding.text == "F1 and F3 lie side by side in one feed"


def test_near_misses(says: Says) -> None:
    """One after the other; from one strip to two loads; a fuse bridged by its own wire."""
    assert says(ITEMS + "  W1: {from: F1:2, to: F2:1}\n") == ()
    text = "  W1: {from: X1:2, to: F1:1}\n  W2: {from: X1:3, to: F2:1}\n  W3: {from: F1:2, to: M1:1}\n"
    assert says(ITEMS + text) == ()
    assert says(ITEMS + "  W1: {from: F1:1, to: F1:2}\n  W2: {from: F2:1, to: F2:2}\n") == ()
