"""Two plug halves that are said to mate do not fit each other.

Why: a sheet that shows the wrong half, or a wire that ends at an empty cavity on the other side, sends the meter to
the wrong pin.

Trips:
    plugs: {X5: {face: rect-1x2, mates with: X6}, X6: {face: rect-1x3, mates with: X5}}

Passes:
    plugs:
      X5: {face: rect-1x2, contacts: sockets, mates with: X6}
      X6: {face: rect-1x2, contacts: pins, mates with: X5}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Harness, Plug
from harnessdoc.model.points import Point

RULE = Rule(
    "mates-badly",
    Severity.FAULT,
    "the sheet of one half does not fit the other, and a cavity is counted from the wrong side",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Hold both halves of each pair against each other, each pair once."""
    plugs = case.harness.plugs
    order = {name: number for number, name in enumerate(plugs)}
    for plug in plugs.values():
        mate = plugs.get(plug.mates_with or "")
        if mate is None:
            continue
        if mate is plug:
            yield _finding(plug, f"{plug.name} is said to mate with itself", "name the other half")
        elif mate.mates_with != plug.name:
            says = f"which mates with {mate.mates_with}" if mate.mates_with else "which says nothing of it"
            text = f"{plug.name} mates with {mate.name}, {says}"
            yield _finding(plug, text, f"state `mates with: {plug.name}` there")
        elif order[plug.name] < order[mate.name]:
            yield from _pair(case.harness, plug, mate)


def _pair(harness: Harness, plug: Plug, mate: Plug) -> Iterator[Finding]:
    if set(plug.terminals) != set(mate.terminals):
        yield _finding(plug, f"{plug.name} and its mate {mate.name} have different cavities", "give both the same face")
    if plug.contacts is None and mate.contacts is None:
        yield _finding(
            plug,
            f"{plug.name} and its mate {mate.name} do not say which has the pins; {mate.name} is drawn with pins",
            "state `contacts: sockets` on one and `contacts: pins` on the other, and look at the sheets again",
            Severity.DOUBT,
        )
    elif plug.contacts == mate.contacts:
        yield _finding(plug, f"{plug.name} and its mate {mate.name} both have {plug.contacts}", "correct one of them")
    for cavity in plug.terminals:
        for one, other in ((plug, mate), (mate, plug)):
            if Point(one.name, cavity) in harness.landings and cavity in other.empty:
                yield _finding(
                    one, f"{one.name}:{cavity} has a wire, and {other.name}:{cavity} of its mate is empty",
                    "look at both halves again", Severity.DOUBT,
                )  # fmt: skip


def _finding(plug: Plug, text: str, mend: str, severity: Severity | None = None) -> Finding:
    return RULE.finding(plug.name, text, mend, plug.mark, severity=severity)
