"""A stub or a tail is not capped.

Why: bare strands behind a panel touch what is next to them; a tail may be live.

Trips:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}}}
    items: {K1: {is: relay}}
    wires: {W1: {from: tail, to: K1:85, was at: X4:1, ends: [cap, tab 6.3]}}
    stubs: {X4:1: {from: W1, capped: false}}

Passes:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}}}
    items: {K1: {is: relay}}
    wires: {W1: {from: tail, to: K1:85, was at: X4:1, ends: [cap, tab 6.3]}}
    stubs: {X4:1: {from: W1, capped: true}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.model.finding import Finding, Severity

RULE = Rule(
    "uncapped-end",
    Severity.FAULT,
    "bare strands touch what is next to them, and a cut end may still be live",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding]:
    """Look at each stub that is not joined on, and at each tail."""
    for stub in case.harness.stubs.values():
        if not stub.capped and stub.joined_at is None:
            told = stub.capped is False
            state = "is not capped" if told else "does not say whether it is capped"
            wire = case.harness.wires.get(stub.wire or "")
            yield RULE.finding(
                f"stub {stub.point}", f"stub {stub.point} {state}", "cap it, then state `capped: true`", stub.mark,
                circuits=(wire.circuit,) if wire else (), severity=Severity.FAULT if told else Severity.DOUBT,
            )  # fmt: skip
    for wire in case.harness.wires.values():
        for end in wire.ends:
            if end.tail and (end.hardware is None or end.hardware.form != "cap"):
                was = f", cut from {wire.was_at}," if wire.was_at else ""
                yield RULE.on_wire(
                    wire, f"has a tail{was} with no cap on it", "cap it, then state `cap` in its `ends:`"
                )
