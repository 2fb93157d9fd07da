"""Cut ends that nobody closed off."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


BASE = (
    "plugs: {{X4: {{face: rect-1x2}}}}\nsplices: {{J1: {{}}}}\nstubs: {{X4:1: {{{}}}}}\nwires: {{W1: {{from: {}}}}}\n"
)


def test_a_stub_that_is_not_capped(says: Says) -> None:
    (finding,) = says(BASE.format("capped: false", "J1"))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.text) == (Severity.FAULT, "stub X4:1 is not capped")


def test_a_stub_of_which_nobody_says_is_doubted(says: Says) -> None:
    for unsaid in ("", "capped: unknown"):
        (finding,) = says(BASE.format(unsaid, "J1"))
        assert isinstance(finding, Finding)
        assert (finding.severity, finding.text) == (Severity.DOUBT, "stub X4:1 does not say whether it is capped")


def test_a_capped_or_joined_stub_passes(says: Says) -> None:
    assert says(BASE.format("capped: true", "J1")) == ()
    assert says(BASE.format("joined at: J1", "J1")) == ()


def test_a_tail_wants_a_cap(says: Says) -> None:
    (finding,) = says(BASE.format("capped: true", "tail, was at: X4:1, ends: [tab 6.3, cap]"))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.text) == (Severity.FAULT, "W1 has a tail, cut from X4:1, with no cap on it")
    assert says(BASE.format("capped: true", "tail, ends: [cap, tab 6.3]")) == ()


def test_an_unknown_end_is_no_tail(says: Says) -> None:
    assert says(BASE.format("capped: true", "unknown")) == ()
