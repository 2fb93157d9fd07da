"""Something draws current with every switch off.

Why: what draws all night empties the battery, and a part that is thought dead is not.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V, capacity: 70 Ah}
      K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm}}
    wires:
      W1: {from: G1:+, to: K1:86, size: 1 mm2, length: 1 m}
      W2: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V, capacity: 70 Ah}
      S1: {is: switch, contacts: {1-2: on}}
      K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm}}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}
      W3: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator
from math import isnan

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import assumed
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Studied
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds.sources import Battery, Source
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.quantities import format_amps, plain_number

RULE = Rule(
    "off-state-draw",
    Severity.DOUBT,
    "what draws all night empties the battery, and shows that something thought dead is not",
    PRACTICE,
)
MOST_A = 0.05
"""A parked vehicle may draw so much. Common practice, no source."""
NIGHT_H = 12
LEAST_A = 1e-4
"""A part that draws less is not named."""
SHOWN = 4


def check(case: Case) -> Iterator[Finding]:
    """Add up what each part takes with all switches at rest, whatever sensors say, and hold the sum against 50 mA."""
    source = next((item for item in case.harness.items.values() if isinstance(item.kind, Source)), None)
    branches = case.study.circuit.branches
    volts = next((branch.volts for branch in branches if branch.sort == "source" and branch.gate is None), 0.0)
    if source is None or volts <= 0:
        return
    taken_w = _taken_w(case)
    total_a = sum(taken_w.values()) / volts
    if total_a > MOST_A:
        yield _finding(case, source, {part: watts / volts for part, watts in taken_w.items()}, total_a)


def _taken_w(case: Case) -> dict[str, float]:
    """Power that each part takes in W, in the worst state of what is no switch; what gives it is negative."""
    found: dict[str, float] = {}
    for studied in case.study.studied:
        worst: dict[str, float] = {}
        for settled in _at_rest(case, studied):
            taken = _of_outcome(case, studied, settled)
            if sum(taken.values()) > sum(worst.values()):
                worst = taken
        for part, watts in worst.items():
            found[part] = found.get(part, 0.0) + watts
    return found


def _at_rest(case: Case, studied: Studied) -> Iterator[Settled]:
    circuit = case.study.circuit
    switches = [name for name in studied.island.devices if isinstance(case.harness.items[name].kind, Switch)]
    for state, settled in studied.outcomes:
        if settled.exact and not settled.cycle and all(state[name] == circuit.devices[name][0] for name in switches):
            yield settled


def _of_outcome(case: Case, studied: Studied, settled: Settled) -> dict[str, float]:
    taken: dict[str, float] = {}
    for index in sorted(studied.island.own):
        branch = case.study.circuit.branches[index]
        if branch.sort in ("load", "coil", "input", "signal") or (branch.sort == "source" and branch.gate is not None):
            watts = case.study.across(index, settled) * settled.amps[index]
            if not isnan(watts) and watts:
                taken[branch.part] = taken.get(branch.part, 0.0) + watts
    return taken


def _finding(case: Case, source: Item, taken_a: dict[str, float], total_a: float) -> Finding:
    parts = [
        (name, amps) for name, amps in sorted(taken_a.items(), key=lambda one: -round(one[1], 9)) if amps >= LEAST_A
    ]
    named = ", ".join(f"{name} {_milli(amps)}" for name, amps in parts[:SHOWN])
    more = f" and {len(parts) - SHOWN} more" if len(parts) > SHOWN else ""
    night_ah = total_a * NIGHT_H
    share = ""
    if isinstance(source.kind, Battery) and source.kind.capacity_ah:
        share = f", {plain_number(100 * night_ah / source.kind.capacity_ah, 2)} % of {source.name}"
    text = (
        f"{source.name} gives {_milli(total_a)} with every switch off, {plain_number(night_ah, 2)} Ah in a night of"
        f" {NIGHT_H} h{share}: {named}{more}"
    )
    text += assumed(case, *(name for name, _ in parts[:SHOWN]), words="draw")
    mend = "feed what need not stay on from behind a switch, or open the isolator at night"
    return RULE.finding(source.name, text, mend, source.mark)


def _milli(amps: float) -> str:
    return f"{plain_number(1000 * amps, 2)} mA" if amps < 1 else format_amps(amps, 2)
