"""A wire, stub or reading names a point that does not exist.

Why: a wire to nowhere is on no drawing and on no label, and the circuit it closes is open on paper.

Trips:
    items: {K1: {is: relay}, F1: {is: fuse, rating: 5 A}}
    wires: {W1: {from: F1:2, to: K1:78}}

Passes:
    items: {K1: {is: relay}, F1: {is: fuse, rating: 5 A}}
    wires: {W1: {from: F1:2, to: K1:87}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Harness
from harnessdoc.model.mark import Mark
from harnessdoc.model.points import CHASSIS, Point

RULE = Rule(
    "missing-point",
    Severity.FAULT,
    "a wire to a point that does not exist is open, and no sheet shows where it should land",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Hold every point that the file names against the terminals that exist."""
    harness = case.harness
    for item in harness.items.values():
        for path in item.kind.paths():
            for terminal in (path.a, path.b):
                if terminal not in item.terminals:
                    text = f"{item.name} joins {path.a} and {path.b}, and has no terminal {terminal}"
                    yield RULE.finding(item.name, text, "correct `joined:`", item.mark)
    for about, point, mark, circuit in _named(harness):
        fault = _fault(harness, point)
        if fault:
            yield RULE.finding(about, f"{about} names {point}, {fault[0]}", fault[1], mark, circuits=(circuit,))


def _named(harness: Harness) -> Iterator[tuple[str, Point, Mark, str | None]]:
    for wire in harness.wires.values():
        yield from ((wire.name, point, wire.mark, wire.circuit) for point in wire.points)
        if wire.was_at is not None:
            yield wire.name, wire.was_at, wire.mark, wire.circuit
    for stub in harness.stubs.values():
        yield f"stub {stub.point}", stub.point, stub.mark, None
        if stub.joined_at is not None:
            yield f"stub {stub.point}", stub.joined_at, stub.mark, None
    for reading in harness.readings:
        yield from (("a reading", point, reading.mark, None) for point in reading.between if point != CHASSIS)


def _fault(harness: Harness, point: Point) -> tuple[str, str] | None:
    """What is wrong with a point and what to do, None if it exists."""
    terminals = harness.terminals_of(point.owner)
    if point.owner == CHASSIS.owner:
        mend = "describe the stud, as in XE1: {is: earth point}, and let the wire land on it"
        return "and a wire lands on the chassis at some earth point", mend
    if terminals is None:
        known = (*harness.items, *harness.plugs, *harness.splices)
        import difflib

        close = difflib.get_close_matches(point.owner, known, n=1, cutoff=0.5)
        hint = f"; did you mean {close[0]}?" if close else ""
        return (
            f"but no item, plug or splice is called {point.owner}{hint}",
            f"describe {point.owner}, or correct the name",
        )
    if point.terminal in terminals:
        return None
    if terminals == ("",):
        return f"but {point.owner} has no terminals", f"write {point.owner} alone"
    shown = ", ".join(terminals) if len(terminals) <= 24 else f"{terminals[0]} to {terminals[-1]}"
    what = "names no terminal" if not point.terminal else "which has no such terminal"
    return f"{what}; {point.owner} has {shown or 'none'}", "take one of these, or correct the item"
