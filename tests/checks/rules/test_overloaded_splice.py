"""Splices that state what they carry."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

TEXT = """\
items: {G1: {is: battery, volts: 12 V}, M1: {is: load, amps: 15 A, at: 12 V}}
splices: {J1: {method: lever clampRATING}}
wires:
  W1: {from: G1:+, to: J1, size: 6 mm2, length: 100 mm}
  W2: {from: J1, to: M1:1, size: 6 mm2, length: 100 mm}
  W3: {from: M1:2, to: G1:-, size: 6 mm2, length: 100 mm}
"""


def test_one_finding_a_splice_above_its_rating(says: Says) -> None:
    """15 A at 12 V is 0.8 ohm; behind the battery's assumed 0.01 ohm nearly 15 A flow."""
    (finding,) = says(TEXT.replace("RATING", ", rating: 10 A"))
    assert isinstance(finding, Finding)
    assert (finding.about, finding.severity) == ("J1", Severity.DANGER)
    assert "by W1; it is rated 10 A" in finding.text


def test_within_its_rating_or_none_stated(says: Says) -> None:
    assert says(TEXT.replace("RATING", ", rating: 15 A")) == ()
    assert says(TEXT.replace("RATING", "")) == ()
