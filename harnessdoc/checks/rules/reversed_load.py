"""Something with a plus and a minus is fed the wrong way round.

Why: electronics fed backwards burn, a relay's diode shorts the feed, and a motor runs the wrong way.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      M1: {is: load, amps: 5 A, terminals: [+, -]}
    wires:
      W1: {from: G1:+, to: M1:-, size: 2.5 mm2, length: 1 m}
      W2: {from: M1:+, to: G1:-, size: 2.5 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      M1: {is: load, amps: 5 A, terminals: [+, -]}
    wires:
      W1: {from: G1:+, to: M1:+, size: 2.5 mm2, length: 1 m}
      W2: {from: M1:-, to: G1:-, size: 2.5 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import Meter, in_state
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds.controls import Regulator, SpeedController
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_volts

RULE = Rule(
    "reversed-load",
    Severity.FAULT,
    "electronics fed backwards burn, a relay's diode shorts its feed, and a motor runs the wrong way",
    PRACTICE,
)
BACKWARDS_V = 1.0
"""Less than this the wrong way round is leakage, no feed. Common practice, no source."""
COIL_MARKS = "DIN 72552 as excerpted on one page: 86 is the coil's positive side, 85 its negative or ground side"


def check(case: Case) -> Iterator[Finding]:
    """For each item with a plus and a minus, look for a state in which the minus is higher, and none the right way."""
    meter: Meter | None = None
    for item in case.harness.items.values():
        polarity = _polarity(item)
        if polarity is None:
            continue
        meter = meter or Meter(case)
        plus, minus, severity = polarity
        seen = list(meter.over(Point(item.name, plus), Point(item.name, minus)))
        if not seen or max(one.volts for one in seen) >= BACKWARDS_V:
            continue  # fed both ways, as a motor that reverses, is meant
        worst = min(seen, key=lambda one: one.volts)
        if worst.volts <= -BACKWARDS_V:
            text = (
                f"{item.name} is fed the wrong way round: {minus} is {format_volts(-worst.volts, 3)} above {plus}"
                f" {in_state(case, worst.state)}"
            )
            circuits = (circuit.name for circuit in case.harness.circuits.values() if item.name in circuit.items)
            source = COIL_MARKS if isinstance(item.kind, Relay) else ""
            yield RULE.finding(
                item.name, text, f"swap the wires of {plus} and {minus}", item.mark,
                circuits=tuple(circuits), severity=severity, source=source,
            )  # fmt: skip


def _polarity(item: Item) -> tuple[str, str, Severity] | None:
    """Plus, minus, and how bad it is the other way round; None for what has no polarity."""
    kind = item.kind
    if isinstance(kind, Load):
        return ("+", "-", Severity.FAULT) if {"+", "-"} <= set(kind.terminals()) else None
    if isinstance(kind, Relay):
        diode = kind.coil is not None and kind.coil.suppression == "diode"
        return ("86", "85", Severity.DANGER) if diode else None
    if isinstance(kind, Regulator | SpeedController):
        return "IN+", "IN-", Severity.DANGER
    if isinstance(kind, RelayBoard | Sensor | Module):
        return ("+", "-", Severity.DANGER) if {"+", "-"} <= set(kind.terminals()) else None
    return None
