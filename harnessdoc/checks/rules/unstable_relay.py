"""A relay that never comes to rest, or one that stays where it was, whichever that is.

Why: a relay that breaks its own coil's current buzzes and burns its contacts; one that holds itself remembers what
nobody sees.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm}}
    wires:
      W1: {from: G1:+, to: K1:30, size: 1 mm2, length: 1 m}
      W2: {from: K1:87a, to: K1:86, size: 1 mm2, length: 1 m}
      W3: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm}}
      S1: {is: switch, contacts: {1-2: on}}
      E1: {is: lamp, watts: 5 W, at: 12 V}
    wires:
      W1: {from: G1:+, to: K1:30, size: 1 mm2, length: 1 m}
      W2: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W3: {from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}
      W4: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
      W5: {from: K1:87, to: E1:1, size: 1 mm2, length: 1 m}
      W6: {from: E1:2, to: G1:-, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import in_state
from harnessdoc.model.finding import Finding, Severity

RULE = Rule(
    "unstable-relay",
    Severity.FAULT,
    "a relay that breaks its own coil's current buzzes and burns; one that holds itself remembers what nobody sees",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding]:
    """Report each cycle that the study met, then each relay that has two answers in one state."""
    yield from _buzzing(case)
    yield from _holding(case)


def _buzzing(case: Case) -> Iterator[Finding]:
    told: set[frozenset[str]] = set()
    for studied in case.study.studied:
        for state, settled in studied.outcomes:
            if not settled.cycle:
                continue
            moving = [name for name in settled.cycle[0] if len({step[name] for step in settled.cycle}) > 1]
            if not moving or frozenset(moving) in told:
                continue
            told.add(frozenset(moving))
            steps = ", then ".join(" and ".join(f"{name} {step[name]}" for name in moving) for step in settled.cycle)
            verb = "never come to rest" if len(moving) > 1 else "never comes to rest"
            text = f"{' and '.join(moving)} {verb} {in_state(case, state)}: {steps}, and so on"
            mend = "feed the coil from before its own contact, or by a contact that it does not move"
            yield _finding(case, moving, text, mend, Severity.FAULT)


def _holding(case: Case) -> Iterator[Finding]:
    """Relays that stay as they were: found at rest from rest, and pulled from pulled."""
    told: set[str] = set()
    for _, state, first, other in case.study.second_answers:
        held = [coil.device for coil in case.study.circuit.coils if coil.device in first.positions]
        held = [name for name in held if first.positions[name] != other.positions.get(name) and name not in told]
        for name in held:
            told.add(name)
            text = f"{name} stays as it was {in_state(case, state)}: {first.positions[name]} or {other.positions[name]}"
            mend = "if that is wanted, say so in its remarks; if not, feed its coil from before its own contact"
            yield _finding(case, [name], text, mend, Severity.DOUBT)


def _finding(case: Case, names: list[str], text: str, mend: str, severity: Severity) -> Finding:
    item = case.harness.items[names[0]]
    circuits = (circuit.name for circuit in case.harness.circuits.values() if set(names) & set(circuit.items))
    return RULE.finding(item.name, text, mend, item.mark, circuits=tuple(circuits), severity=severity)
