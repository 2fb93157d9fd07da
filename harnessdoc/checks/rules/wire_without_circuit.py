"""A wire is on no circuit.

Why: a label leads to its circuit's record; this wire's label leads nowhere.

Trips:
    circuits: {pump: {}}
    items: {S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    wires: {W1: {from: S1:2, to: M1:1}}

Passes:
    circuits: {pump: {}}
    items: {S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    wires: {W1: {from: S1:2, to: M1:1, circuit: pump}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity

RULE = Rule(
    "wire-without-circuit",
    Severity.DOUBT,
    "its label leads to no record, and no page says what it is for",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Look for wires that name no circuit. Spare existing wires are asked for too."""
    for wire in case.harness.wires.values():
        if wire.circuit is None:
            yield RULE.on_wire(wire, "is on no circuit", "name its circuit, or make one for wires not yet understood")
