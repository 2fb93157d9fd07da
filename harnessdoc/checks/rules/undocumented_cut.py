"""A cavity is marked as cut and has neither a stub nor the word that it is empty; or something sits, or was cut, where
the plug says otherwise.

Why: two years on nobody knows whether that cavity can be used, or what still hangs on it.

Trips:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}}}

Passes:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}, empty: [1]}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Harness
from harnessdoc.model.points import Point

RULE = Rule(
    "undocumented-cut",
    Severity.FAULT,
    "nobody will know what the cavity held or whether it can be used again",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Hold the cut cavities of each plug against its stubs, its empty cavities, and the wires still in it."""
    yield from _of_cavities(case.harness)
    yield from _of_stubs(case.harness)
    yield from _of_wires(case.harness)


def _of_cavities(harness: Harness) -> Iterator[Finding]:
    for plug in harness.plugs.values():
        for cavity in plug.empty:
            point = Point(plug.name, cavity)
            held = [wire.name for wire, _ in harness.landings.get(point, ())]
            held += [f"stub {point}"] if point in harness.stubs else []
            if held and cavity not in plug.cut:
                text = f"{point} stands in `empty:`, but holds {', '.join(held)}"
                yield RULE.finding(str(point), text, "take it out of `empty:`, or correct the point", plug.mark)
        for cavity in plug.cut:
            point = Point(plug.name, cavity)
            if cavity not in plug.terminals:
                text, mend = "is cut, but the face has no such cavity", "correct the cavity's name"
            elif point in harness.landings:
                names = ", ".join(wire.name for wire, _ in harness.landings[point])
                text = f"is cut, but {names} still lands on it"
                mend = "let the wire begin at its new point and say `was at:`, or take the cavity out of `cut:`"
            elif point not in harness.stubs and cavity not in plug.empty:
                text = "is cut and has neither a stub nor stands in `empty:`"
                mend = "describe the stub that was left, or put the cavity in `empty:`"
            else:
                continue
            yield RULE.finding(str(point), f"{point} {text}", mend, plug.mark)


def _of_stubs(harness: Harness) -> Iterator[Finding]:
    for point, stub in harness.stubs.items():
        owner = harness.plugs.get(point.owner)
        if owner is not None and point.terminal not in owner.cut:
            yield RULE.finding(
                f"stub {point}", f"stub {point} sits in a cavity that is not marked as cut",
                f"add it to `cut:` of {point.owner} with the date", stub.mark,
            )  # fmt: skip


def _of_wires(harness: Harness) -> Iterator[Finding]:
    for wire in harness.wires.values():
        plug = harness.plugs.get(wire.was_at.owner) if wire.was_at else None
        if plug is None or wire.was_at is None or wire.was_at.terminal in plug.cut:
            continue
        if wire.was_at.terminal in plug.terminals:
            text = f"was at {wire.was_at}, and that cavity is not marked as cut"
            yield RULE.on_wire(wire, text, f"add it to `cut:` of {plug.name} with the date")
