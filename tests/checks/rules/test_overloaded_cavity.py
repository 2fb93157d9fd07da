"""Cavities of a plug that states what one contact carries."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

TEXT = """\
items:
  G1: {is: battery, volts: 12 V}
  M1: {is: load, amps: 15 A, at: 12 V}
  M2: {is: load, amps: 2 A, at: 12 V}
plugs:
  X1: {face: rect-1x2RATING, mates with: X2}
  X2: {face: rect-1x2, mates with: X1}
wires:
  W1: {from: G1:+, to: X1:1, size: 4 mm2, length: 100 mm}
  W2: {from: X2:1, to: M1:1, size: 4 mm2, length: 100 mm}
  W3: {from: M1:2, to: G1:-, size: 4 mm2, length: 100 mm}
  W4: {from: G1:+, to: X1:2, size: 4 mm2, length: 100 mm}
  W5: {from: X2:2, to: M2:1, size: 4 mm2, length: 100 mm}
  W6: {from: M2:2, to: G1:-, size: 4 mm2, length: 100 mm}
"""


def test_one_cavity_above_its_rating(says: Says) -> None:
    (finding,) = says(TEXT.replace("RATING", ", rating: 10 A"))
    assert isinstance(finding, Finding)
    assert (finding.about, finding.severity) == ("X1:1", Severity.DANGER)
    assert finding.text.endswith("by W1; X1's cavities are rated 10 A")


def test_within_its_rating_or_none_stated(says: Says) -> None:
    assert says(TEXT.replace("RATING", ", rating: 15 A")) == ()
    assert says(TEXT.replace("RATING", "")) == ()
