"""Splices whose stated position can't be."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

RUNS = """\
places: {cab: {}, mast: {}, tank: {}}
runs:
  - {between: [cab, mast], length: 1.4 m}
  - {between: [mast, tank]}
splices:
"""


@pytest.mark.parametrize(
    ("splice", "text"),
    [
        ("between: [cab, tank], after: 1 mm", "J1 is on the run between cab and tank; there is no such run"),
        ("between: [cab, cab], after: 1 mm", "J1 is on the run between cab and cab; there is no such run"),
        (
            "between: [mast, cab], after: 1.5 m",
            "J1 is 1.5 m from mast; the run between mast and cab is 1.4 m long",
        ),
        ("after: 60 mm", "J1 states after: but not between which places"),
        (
            "place: cab, between: [cab, mast], after: 60 mm",
            "J1 is at cab and on the run between cab and mast; it can be in one of them only",
        ),
    ],
)
def test_what_can_not_be(says: Says, splice: str, text: str) -> None:
    (finding,) = says(f"{RUNS}  J1: {{{splice}}}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line, finding.text) == (Severity.FAULT, 7, text)


@pytest.mark.parametrize("splice", ["between: [mast, cab], after: 1.4 m", "between: [tank, mast], after: 9 m", ""])
def test_what_can_be(says: Says, splice: str) -> None:
    """At the very end; on a run whose length nobody knows; nowhere in particular."""
    assert says(f"{RUNS}  J1: {{{splice}}}\n") == ()


def test_two_runs_between_the_same_places(says: Says) -> None:
    text = "places: {a: {}, b: {}}\nruns: [{between: [a, b]}, {between: [b, a]}]\nsplices: {J1: {between: [a, b]}}\n"
    (finding,) = says(text)
    assert finding.text == "J1 is on the run between a and b; there are several"
