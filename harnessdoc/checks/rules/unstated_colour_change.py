"""The colour changes along one potential at a joint that does not say so.

Why: whoever follows a yellow wire from the plug looks for yellow behind the joint and cuts the wrong one.

Trips:
    items: {S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    splices: {J1: {}}
    wires: {W1: {from: S1:2, to: J1, colour: yellow}, W2: {from: J1, to: M1:1, colour: white}}

Passes:
    items: {S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    splices: {J1: {colour change: yellow from the switch goes on as white}}
    wires: {W1: {from: S1:2, to: J1, colour: yellow}, W2: {from: J1, to: M1:1, colour: white}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.colours import Colour
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.points import Point

RULE = Rule(
    "unstated-colour-change",
    Severity.DOUBT,
    "whoever follows a colour through the joint takes the wrong wire behind it",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Compare the colours of all wires and stubs that meet at each splice."""
    harness = case.harness
    at_stub: dict[Point, list[tuple[str, Colour | None]]] = {}
    for stub in harness.stubs.values():
        if stub.joined_at is not None:
            at_stub.setdefault(stub.joined_at, []).append((f"stub {stub.point}", stub.colour))
    for name, splice in harness.splices.items():
        if splice.colour_change:
            continue
        ends = harness.landings.get(Point(name), ())
        meeting = [(wire.name, wire.colour) for wire, _ in ends] + at_stub.get(Point(name), [])
        known = dict.fromkeys((about, colour.code) for about, colour in meeting if colour is not None)
        codes = tuple(dict.fromkeys(code for _, code in known))
        if len(codes) > 1:
            wires = ", ".join(f"{about} {code}" for about, code in known)
            yield RULE.finding(
                name,
                f"{name} joins {' and '.join(codes)} ({wires}) and does not state a colour change",
                "state it at the joint, as in `colour change: yellow goes on as white`, or lay one colour",
                splice.mark,
                circuits=tuple(wire.circuit for wire, _ in ends),
            )
