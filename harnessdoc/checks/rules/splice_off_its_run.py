"""A splice states a position on a run that isn't there, or beyond the run's end.

Why: the drawing's dimension for it would be wrong, and nobody finds a joint under a covering where the paper has none.

Trips:
    places: {cab: {}, mast: {}, tank: {}}
    runs: [{between: [cab, mast], length: 1.4 m}]
    splices: {J1: {between: [cab, mast], after: 1.5 m}}

Passes:
    places: {cab: {}, mast: {}, tank: {}}
    runs: [{between: [cab, mast], length: 1.4 m}]
    splices: {J1: {between: [cab, mast], after: 340 mm}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Harness, Splice
from harnessdoc.model.quantities import format_length
from harnessdoc.routing import splice_spot

RULE = Rule(
    "splice-off-its-run",
    Severity.FAULT,
    "a joint under a covering is looked for where the paper has it",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Hold each splice's position against the run it names."""
    for splice in case.harness.splices.values():
        text = _wrong(case.harness, splice)
        if text:
            yield RULE.finding(splice.name, text, "correct between: or after:, or describe the run", splice.mark)


def _wrong(harness: Harness, splice: Splice) -> str:
    found = splice_spot(harness, splice)
    if found is None or splice.between is None:
        return f"{splice.name} states after: but not between which places" if splice.after_mm is not None else ""
    way = " and ".join(splice.between)
    if splice.place is not None:
        return f"{splice.name} is at {splice.place} and on the run between {way}; it can be in one of them only"
    if found.trouble == "no run":
        return f"{splice.name} is on the run between {way}; there is no such run"
    if found.trouble == "several runs":
        return f"{splice.name} is on the run between {way}; there are several"
    if found.trouble == "beyond" and found.spot is not None and splice.after_mm is not None:
        length_mm = harness.runs[found.spot.run].length_mm
        assert length_mm is not None  # else nothing is beyond it
        far, length = format_length(splice.after_mm), format_length(length_mm)
        return f"{splice.name} is {far} from {splice.between[0]}; the run between {way} is {length} long"
    return ""
