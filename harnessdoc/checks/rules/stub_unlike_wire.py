"""A stub belongs to no wire, or its colour or size is not that of the wire it was cut from.

Why: the two halves of one conductor look alike; if they don't, one was noted wrongly or swapped.

Trips:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}}}
    items: {K1: {is: relay}}
    wires: {W1: {from: tail, to: K1:85, colour: yellow, was at: X4:1}}
    stubs: {X4:1: {colour: white, from: W1, capped: true}}

Passes:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}}}
    items: {K1: {is: relay}}
    wires: {W1: {from: tail, to: K1:85, colour: yellow, was at: X4:1}}
    stubs: {X4:1: {colour: yellow, from: W1, capped: true}}
"""

from __future__ import annotations

from collections.abc import Iterator
from math import isclose

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Stub, Wire

RULE = Rule(
    "stub-unlike-wire",
    Severity.FAULT,
    "stub and wire were one conductor; if they differ, one is noted wrongly or the labels are swapped",
    CONTRADICTION,
)

SAME = 0.05
"""Sizes nearer than this are one: a stub noted as 2 mm² is of a wire noted as 14 AWG (2.08 mm²)."""


def check(case: Case) -> Iterator[Finding]:
    """Hold each stub against the wire that it says it was part of."""
    for stub in case.harness.stubs.values():
        about = f"stub {stub.point}"
        if stub.wire is None:
            yield RULE.finding(
                about, f"{about} does not say which wire it was part of", "name the wire (from: W31)", stub.mark,
                severity=Severity.DOUBT,
            )  # fmt: skip
            continue
        wire = case.harness.wires.get(stub.wire)
        if wire is None:
            yield RULE.finding(
                about, f"{about} is from {stub.wire}, and there is no such wire", "correct the wire's name", stub.mark
            )
            continue
        for text in _differences(stub, wire):
            yield RULE.finding(
                about, f"{about} {text}", "look at the stub again, and at the label of the wire", stub.mark,
                circuits=(wire.circuit,),
            )  # fmt: skip


def _differences(stub: Stub, wire: Wire) -> Iterator[str]:
    if stub.colour is not None and wire.colour is not None and stub.colour != wire.colour:
        yield f"is {stub.colour.code}, its wire {wire.name} is {wire.colour.code}"
    if (
        stub.size is not None
        and wire.size is not None
        and not isclose(stub.size.area_mm2, wire.size.area_mm2, rel_tol=SAME)
    ):
        yield f"is {stub.size.written}, its wire {wire.name} is {wire.size.written}"
    if wire.was_at is not None and wire.was_at != stub.point:
        yield f"is said to be from {wire.name}, which was at {wire.was_at}"
