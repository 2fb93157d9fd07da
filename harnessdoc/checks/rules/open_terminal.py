"""A terminal of an item is left open.

Why: either a wire is missing from the file, or something that should be joined is not.

Trips:
    items: {S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    wires: {W1: {from: S1:2, to: M1:1}}

Passes:
    items: {S1: {is: switch, contacts: {1-2: on}, unused: [1]}, M1: {is: load, case on chassis: true}}
    wires: {W1: {from: S1:2, to: M1:1}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.kinds.joints import EarthPoint, TerminalStrip
from harnessdoc.model.points import Point

RULE = Rule(
    "open-terminal",
    Severity.DOUBT,
    "a wire is missing from the file, or from the machine",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Look for terminals on which nothing lands. Ways of a strip may be spare; existing items may hide their wires."""
    harness = case.harness
    at_stub = {stub.joined_at for stub in harness.stubs.values()}
    for item in harness.items.values():
        if isinstance(item.kind, TerminalStrip) or item.existing:
            continue
        bolted = () if isinstance(item.kind, EarthPoint) else item.kind.on_chassis()
        for terminal in item.left_open:
            if terminal not in item.terminals:
                text = f"{item.name} lists {terminal} in unused:, and has no such terminal"
            elif Point(item.name, terminal) in harness.landings:
                wires = ", ".join(wire.name for wire, _ in harness.landings[Point(item.name, terminal)])
                text = f"{item.name} lists {terminal or 'its stud'} in unused:, and {wires} lands on it"
            else:
                continue
            yield RULE.finding(item.name, text, "correct `unused:`", item.mark)
        empty = [
            terminal
            for terminal in item.terminals
            if terminal not in item.left_open
            and terminal not in bolted
            and Point(item.name, terminal) not in harness.landings
            and Point(item.name, terminal) not in at_stub
        ]
        if empty:
            names = ", ".join(name or "its stud" for name in empty)
            what = "nothing lands on it" if empty == [""] else f"terminals left open: {names}"
            yield RULE.finding(
                item.name,
                f"{item.name}: {what}",
                "describe the wires, or list the terminals in `unused:`",
                item.mark,
            )
