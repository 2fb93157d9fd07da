"""A function of a removed module is neither replaced nor waived.

Why: the box that is gone also stopped things: dry running, overheating, a timer. What nobody replaced does not
happen any more, and the machine stays on when it must not.

Trips:
    lost functions: {pump stops when dry: {}}

Passes:
    lost functions: {pump stops when dry: {waived: the tank has a sight glass and the pump runs wet only}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.model.finding import Finding, Severity

RULE = Rule(
    "lost-function",
    Severity.DANGER,
    "what the removed module did is done by nothing now, and it may have been what switched off",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding]:
    """Ask of each lost function what replaces it, or why it is not wanted; what nobody describes replaces nothing."""
    harness = case.harness
    for lost in harness.lost_functions.values():
        does_it = [name for name in lost.replaced_by if harness.terminals_of(name) is not None]
        if not does_it and not (lost.waived or "").strip():
            module = f" of {lost.module}" if lost.module else ""
            yield RULE.finding(
                f"lost function {lost.name}",
                f"lost function {lost.name}{module} is neither replaced nor waived",
                "name the items that do it now (replaced by: [...]) or say why it is not needed (waived: ...)",
                lost.mark,
            )
