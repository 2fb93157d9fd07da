"""What a removed module did must be done or waived."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


ITEMS = "items: {B1: {is: sensor}, K5: {is: relay board}}\nlost functions:\n"


def test_neither_replaced_nor_waived_is_a_danger(says: Says) -> None:
    (finding,) = says(ITEMS + "  dry stop: {module: A1}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.DANGER, 4)
    assert finding.text == "lost function dry stop of A1 is neither replaced nor waived"


def test_ignorance_is_no_answer(says: Says) -> None:
    for answer in ("waived: unknown", "waived: ''", "waived: ' '", "replaced by: unknown", "replaced by: []"):
        assert [one.about for one in says(ITEMS + f"  dry stop: {{{answer}}}\n")] == ["lost function dry stop"]


def test_a_replacement_that_nobody_describes_replaces_nothing(says: Says) -> None:
    assert len(says(ITEMS + "  dry stop: {replaced by: [K6]}\n")) == 1
    assert says(ITEMS + "  dry stop: {replaced by: [K6, K5]}\n") == ()


def test_replaced_or_waived_passes(says: Says) -> None:
    assert says(ITEMS + "  a: {replaced by: [K5, B1]}\n  b: {waived: not wanted}\n") == ()
