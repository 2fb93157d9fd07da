"""A supply reaches another supply.

Why: two regulators on one rail push against each other, and 12 V on a 5 V rail burns all that hangs on it.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      T1: {is: regulator, gives: 5 V}
      S1: {is: switch, contacts: {1-2: on}}
    wires:
      W1: {from: G1:+, to: T1:IN+, size: 1 mm2, length: 1 m}
      W2: {from: T1:IN-, to: G1:-, size: 1 mm2, length: 1 m}
      W3: {from: T1:OUT+, to: S1:1, size: 1 mm2, length: 1 m}
      W4: {from: S1:2, to: G1:+, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      T1: {is: regulator, gives: 5 V}
      S1: {is: switch, contacts: {1-2: five, 3-2: twelve}}
      B1: {is: sensor}
    wires:
      W1: {from: G1:+, to: T1:IN+, size: 1 mm2, length: 1 m}
      W2: {from: T1:IN-, to: G1:-, size: 1 mm2, length: 1 m}
      W3: {from: T1:OUT+, to: S1:1, size: 1 mm2, length: 1 m}
      W4: {from: G1:+, to: S1:3, size: 1 mm2, length: 1 m}
      W5: {from: S1:2, to: B1:+, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from harnessdoc.checks.joined import Joined
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import Meter, in_state
from harnessdoc.electrics.circuit import Branch
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import State
from harnessdoc.model.quantities import format_volts

RULE = Rule(
    "supplies-joined",
    Severity.FAULT,
    "two supplies on one conductor push current into each other; the higher one burns what the lower one feeds",
    PRACTICE,
)
MOST_APART = 1.25
"""A battery and its charger may differ by this factor: 12.0 V at rest, 14.8 V charging. Common practice, no source."""


class _Supply(NamedTuple):
    name: str
    node: int
    volts: float
    regulates: bool


def check(case: Case) -> Iterator[Finding]:
    """For each pair of supplies, look for a state in which conductors alone join their feeds. Diodes part them."""
    supplies = [_supply(branch) for branch in case.study.circuit.branches if branch.sort == "source"]
    if len(supplies) < 2:
        return
    meter = Meter(case)
    for one, other in combinations(supplies, 2):
        severity = _severity(one, other)
        if severity is not None:
            state = _joined_in(case, meter, one, other)
            if state is not None:
                yield _finding(case, one, other, state, severity)


def _supply(branch: Branch) -> _Supply:
    return _Supply(branch.part, branch.a, branch.volts, branch.gate is not None)


def _severity(one: _Supply, other: _Supply) -> Severity | None:
    """How bad it is for two supplies to be joined; None for sources of one voltage: a battery and its charger."""
    high, low = max(one.volts, other.volts), min(one.volts, other.volts)
    if high > MOST_APART * low:
        return Severity.DANGER
    return Severity.FAULT if one.regulates or other.regulates else None


def _joined_in(case: Case, meter: Meter, one: _Supply, other: _Supply) -> State | None:
    """The first state in which the two are joined, None if there is none."""
    for studied in meter.homes(one.node, other.node):
        joined = Joined(case, studied, through_resistors=False)
        start, end = joined.piece[one.node], joined.piece[other.node]
        if end not in joined.reached({start}):
            continue
        for state, settled in studied.outcomes:
            if end in joined.reached({start}, settled.positions):
                return state
    return None


def _finding(case: Case, one: _Supply, other: _Supply, state: State, severity: Severity) -> Finding:
    names = f"{one.name} ({format_volts(one.volts)}) and {other.name} ({format_volts(other.volts)})"
    always = "" if not any(state.values()) else f" {in_state(case, state)}"
    item = case.harness.items[(other if other.regulates else one).name]
    circuits = (c.name for c in case.harness.circuits.values() if {one.name, other.name} & set(c.items))
    mend = "part them: a rail of its own for each, a changeover contact, or a diode in each feed"
    text = f"{item.name}'s feed is joined to another's: {names}{always}"
    return RULE.finding(item.name, text, mend, item.mark, circuits=tuple(circuits), severity=severity)
