"""Fuses that are slower than the wire behind them on the least short-circuit current. Worked by hand in each test."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Said = tuple[Finding | NotVerified, ...]
Says = Callable[[str], Said]


def short(fuse: str, size: str, length: str) -> str:
    """12 V, 10 mohm in the battery, 4 mm² up to the fuse, then twice the wire in question."""
    return f"""\
harness: {{title: t, number: N, insulation: 105 C}}
items:
  G1: {{is: battery, volts: 12 V, inner resistance: 10 mohm}}
  F1: {{is: fuse, {fuse}, cold resistance: 5 mohm}}
  M1: {{is: load, amps: 0.1 A, at: 12 V}}
wires:
  W1: {{from: G1:+, to: F1:1, size: 4 mm2, length: 100 mm}}
  W2: {{from: F1:2, to: M1:1, size: {size}, length: {length}}}
  W3: {{from: M1:2, to: G1:-, size: {size}, length: {length}}}
"""


def findings(said: Said) -> list[Finding]:
    return [one for one in said if isinstance(one, Finding)]


def test_a_long_thin_wire_behind_a_large_fuse(says: Says) -> None:
    """0.5 mm², 39 mohm/m, 2 x 2 m: 156 + 15 + 0.5 mohm give 70 A, 233 % of 30 A. The 200 % gate allows 5 s:
    (2 x 30 A)² x 5 s = 18 000 A²s. From 30 to 105 °C copper takes 50 490 ln(339.5/264.5) = 12 600 A²s/mm⁴, so
    0.5 mm² 3150 A²s."""
    (finding,) = findings(says(short("rating: 30 A, style: blade", "0.5 mm2", "2 m")))
    assert finding.severity is Severity.DOUBT
    assert "233 % of its rating" in finding.text
    assert "may take 5 s to open; the 18000 A²s" in finding.text
    assert "warm W2 of 0.5 mm² past 105 °C (315" in finding.text
    assert "PVC is remembered to stand 160 °C" in finding.text


def test_a_fuse_that_is_quick_enough(says: Says) -> None:
    """10 A sees 700 %: the 600 % gate gives (6 x 10 A)² x 0.15 s = 540 A²s, below 3150."""
    assert says(short("rating: 10 A, style: blade", "0.5 mm2", "2 m")) == ()


def test_a_short_that_the_fuse_hardly_notices(says: Says) -> None:
    """2 x 8 m: 624 + 15.5 mohm give 18.8 A, 94 % of 20 A; 0.5 mm² at 105 °C is good for 12.1 A in proportion."""
    (finding,) = findings(says(short("rating: 20 A, style: blade", "0.5 mm2", "8 m")))
    assert finding.severity is Severity.DANGER
    assert "nothing says that it opens" in finding.text
    assert "W2" in finding.text


def test_what_rests_on_an_assumption_is_no_danger(says: Says) -> None:
    text = short("rating: 20 A, style: blade", "0.5 mm2", "8 m").replace(", cold resistance: 5 mohm", "")
    assert [one.severity for one in findings(says(text))] == [Severity.FAULT]


def test_a_slow_opening_that_the_wire_stands_for_long(says: Says) -> None:
    """1 mm², 19.5 mohm/m, 2 x 15 m: 585 + 15.5 mohm give 20 A, 133 %... of 15 A: no gate; 1 mm² stands 20 A."""
    (finding,) = findings(says(short("rating: 15 A, style: blade", "1 mm2", "15.2 m")))
    assert finding.severity is Severity.DOUBT
    assert says(short("rating: 14 A, style: blade", "1 mm2", "15.2 m")) == ()  # 141 %: opens in 600 s, and 20 A last


def test_styles_without_gates_and_breakers_are_not_verified(says: Says) -> None:
    for fuse, word in (("rating: 10 A, style: bolted", "style bolted"), ("rating: 10 A", "style is not stated")):
        (said,) = says(short(fuse, "1 mm2", "1 m"))
        assert isinstance(said, NotVerified)
        assert word in said.text
    (said,) = says(short("rating: 10 A", "1 mm2", "1 m").replace("is: fuse", "is: breaker"))
    assert isinstance(said, NotVerified)
    assert "a breaker" in said.text


def test_assumed_resistances_are_said(says: Says) -> None:
    text = short("rating: 30 A, style: blade", "0.5 mm2", "2 m").replace(", inner resistance: 10 mohm", "")
    (finding,) = findings(says(text))
    assert finding.text.endswith("; assumed: the resistance of G1")
