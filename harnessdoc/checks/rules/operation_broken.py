"""An operation line does not hold: something is live that must be dead, or dead that must be live.

Why: the operation lines say how the machine must run; where the wiring does something else, one of the two is wrong,
and what stays on when it must not can hurt.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: on}}
      M1: {is: load, amps: 2 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
      W3: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W4: {from: S1:2, to: M1:1, size: 1 mm2, length: 1 m}
    operation: [{when: {S1: off}, dead: [M1]}]

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: on}}
      M1: {is: load, amps: 2 A, at: 12 V}
    wires:
      W2: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
      W3: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W4: {from: S1:2, to: M1:1, size: 1 mm2, length: 1 m}
    operation: [{when: {S1: off}, dead: [M1]}, {when: {S1: on}, live: [M1]}]
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.checks.seen import assumed, in_state
from harnessdoc.electrics.operation import Verdict, items_by_circuit, verify
from harnessdoc.model.finding import Finding, NotVerified, Severity

RULE = Rule(
    "operation-broken",
    Severity.FAULT,
    "wiring and operation lines say different things, and what stays on when it must not can hurt",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Each name of each line in every state that matches; positions that are not there are another rule's finding."""
    homes = {name: circuit for circuit, names in items_by_circuit(case.harness).items() for name in names}
    for verdict in verify(case.study, case.harness.operation):
        if verdict.holds is None:
            yield RULE.unverified(verdict.name, f"{verdict.name} in operation: {verdict.why}", verdict.line.mark)
        elif not verdict.holds:
            yield _broken(case, verdict, homes.get(verdict.name))


def _broken(case: Case, verdict: Verdict, circuit: str | None) -> Finding:
    state = in_state(case, verdict.state or {})
    rests_on = assumed(case, verdict.name)
    if verdict.live:
        text = f"{verdict.name} is dead {state}, where operation says live: {verdict.why}{rests_on}"
        mend, level = "close that gap, or correct the line", Severity.FAULT
    else:
        text = f"{verdict.name} is live {state}, where operation says dead, by {verdict.why}{rests_on}"
        mend, level = "open that way in this state, or correct the line", Severity.DANGER
    return RULE.finding(verdict.name, text, mend, verdict.line.mark, circuits=(circuit,), severity=level)
