"""More wire ends land on a terminal or in a cavity than it takes.

Why: the second wire sits loose, or the contact is forced and never closes on the first again.

Trips:
    items: {F1: {is: fuse, rating: 5 A}, M1: {is: load}, M2: {is: load}}
    wires: {W1: {from: F1:2, to: M1:1}, W2: {from: F1:2, to: M2:1}}

Passes:
    items: {F1: {is: fuse, rating: 5 A, takes: 2}, M1: {is: load}, M2: {is: load}}
    wires: {W1: {from: F1:2, to: M1:1}, W2: {from: F1:2, to: M2:1}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.model.finding import Finding, Severity

RULE = Rule(
    "crowded-terminal",
    Severity.FAULT,
    "a terminal made for one wire holds two badly",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding]:
    """Count the ends on each terminal; `takes:` of the item or plug says how many it is made for."""
    harness = case.harness
    for point, ends in harness.landings.items():
        if len(ends) == 1:
            continue
        item, plug = harness.items.get(point.owner), harness.plugs.get(point.owner)
        if item is not None:
            takes, mark = item.takes or item.kind.takes, item.mark
        elif plug is not None:
            takes, mark = plug.takes, plug.mark
        else:
            continue
        if len(ends) > takes:
            names = ", ".join(wire.name for wire, _ in ends)
            yield RULE.finding(
                str(point),
                f"{point} holds {len(ends)} ends ({names}); it takes {takes}",
                f"join them in a splice before it, or state `takes: {len(ends)}` if it is made for that",
                mark,
                circuits=tuple(wire.circuit for wire, _ in ends),
            )
