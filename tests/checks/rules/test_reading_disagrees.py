"""Readings that the network does not predict."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity
from tests.electrics.written import TO_RUN

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


def test_a_doubt_with_what_would_explain_it(says: Says) -> None:
    (finding,) = says(TO_RUN + "readings: [{between: [M1:1, M1:2], when: {S1: dry}, volts: 11.8 V}]\n")
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DOUBT
    assert finding.text == "reading M1:1 to M1:2 with S1 dry is 11.8 V, expected 0 V"
    assert finding.mend.endswith("it would read so with K1 stuck pulled")


def test_an_open_coil(says: Says) -> None:
    (finding,) = says(TO_RUN + "readings: [{between: [K1:86, K1:85], when: {S1: dry}, ohms: 2 ohm}]\n")
    assert isinstance(finding, Finding)
    assert finding.text == "reading K1:86 to K1:85 with S1 dry is 2 Ω, expected 80 Ω"


def test_a_reading_that_can_not_be_told_is_not_verified(says: Says) -> None:
    (said,) = says(TO_RUN + "readings: [{between: [M1:1, M1:2], volts: 11.8 V}]\n")
    assert isinstance(said, NotVerified)
    assert said.text == "reading M1:1 to M1:2: the reading does not say how S1 stood"


def test_a_reading_that_agrees_says_nothing(says: Says) -> None:
    assert says(TO_RUN + "readings: [{between: [M1:1, M1:2], when: {S1: wet}, volts: 12.1 V}]\n") == ()
