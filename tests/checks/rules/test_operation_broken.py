"""Operation lines that the wiring does not keep."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity
from tests.electrics.written import TO_RUN

Says = Callable[[str], tuple[Finding | NotVerified, ...]]
WIRING = TO_RUN.partition("operation:")[0]


def test_live_where_it_must_be_dead_is_a_danger(says: Says) -> None:
    (finding,) = says(WIRING + "operation: [{when: {S1: wet}, dead: [M1]}]\n")
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DANGER
    assert finding.text.startswith(
        "M1 is live with S1 wet, where operation says dead, by G1 - W1 - F1 - W2 - W6 - K1:30-87"
    )


def test_dead_where_it_must_be_live_is_a_fault(says: Says) -> None:
    (finding,) = says(WIRING + "operation: [{when: {S1: dry}, live: [M1]}]\n")
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT
    assert finding.text == (
        "M1 is dead with everything at rest, where operation says live: "
        "K1:30-87 is open (K1 at rest), for S1:1-2 is open (S1 dry)"
    )


def test_what_holds_says_nothing(says: Says) -> None:
    assert says(TO_RUN) == ()


def test_what_can_not_be_computed_is_not_verified(says: Says) -> None:
    (said,) = says(
        WIRING.replace("{is: load, ohms: 6 ohm, at: 12 V}", "{is: load}")
        + "operation: [{when: {S1: wet}, live: [M1]}]\n"
    )
    assert isinstance(said, NotVerified)
    assert said.text == "M1 in operation: the draw of M1 is not stated"
