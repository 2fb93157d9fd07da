"""A green-and-yellow wire is used for something other than protective earth.

Why: whoever opens the loom takes green-and-yellow for earth and bonds it, or touches it.

Trips:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 5 A}}
    wires: {W1: {from: G1:+, to: F1:1, colour: green-yellow}}

Passes:
    items: {XE1: {is: earth point}, M1: {is: load}}
    wires: {W1: {from: XE1, to: M1:2, colour: green-yellow, role: earth}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import Case, Rule
from harnessdoc.model.finding import Finding, Severity

RULE = Rule(
    "green-yellow-misused",
    Severity.FAULT,
    "green-and-yellow means protective earth everywhere; as a feed or a signal it will be bonded or touched",
    "IEC 60445: green-and-yellow only for the protective conductor",
)


def check(case: Case) -> Iterator[Finding]:
    """Look at each green-and-yellow wire that is not stated to be earth."""
    for wire in case.harness.wires.values():
        if wire.colour is not None and wire.colour.is_green_yellow and not wire.existing and wire.role != "earth":
            role = case.network.role(wire) or "wire of unknown role"
            yield RULE.on_wire(
                wire,
                f"is green-and-yellow and is a {role}",
                "take another colour, or state role: earth if it is the protective conductor",
            )
