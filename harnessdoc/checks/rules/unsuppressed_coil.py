"""A coil without suppression shares a switched node with electronics.

Why: when the switch opens, the coil lifts the node to hundreds of volts for an instant, and electronics on it fail.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      S1: {is: switch, contacts: {1-2: on}}
      K1: {is: relay, coil: {volts: 12 V, suppression: none}}
      K5: {is: relay board, supply: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}
      W3: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
      W4: {from: K1:86, to: K5:+, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      S1: {is: switch, contacts: {1-2: on}}
      K1: {is: relay, coil: {volts: 12 V, suppression: diode}}
      K5: {is: relay board, supply: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}
      W3: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
      W4: {from: K1:86, to: K5:+, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.steady import STEADY, steady
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.kinds import Kind
from harnessdoc.model.kinds.base import Side
from harnessdoc.model.kinds.controls import Regulator, SpeedController
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.points import Point

RULE = Rule(
    "unsuppressed-coil",
    Severity.DOUBT,
    "a coil that is switched off lifts its node to hundreds of volts for an instant, and electronics there fail",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Each relay whose coil is not known to be suppressed, on a node that no source holds still."""
    stiff: frozenset[int] | None = None
    for name, item in case.harness.items.items():
        if not isinstance(item.kind, Relay):
            continue
        suppression = item.kind.coil.suppression if item.kind.coil else None
        if suppression in ("diode", "resistor"):
            continue
        stiff = steady(case, Side.FEED) | steady(case, Side.RETURN) if stiff is None else stiff
        near = _electronics(case, name, stiff)
        if not near:
            continue
        beside = f"{' and '.join(near)} on the same switched node"
        if suppression is None:
            question = f"{name}: is its coil suppressed, by a diode or a resistor? It has {beside}"
            yield RULE.unverified(name, question, item.mark)
        else:
            circuits = (circuit.name for circuit in case.harness.circuits.values() if name in circuit.items)
            text = f"{name}'s coil has no suppression, and {beside}"
            mend = "fit a relay with a resistor or a diode across its coil, or give the electronics a feed of their own"
            yield RULE.finding(name, text, mend, item.mark, circuits=tuple(circuits))


def _electronics(case: Case, relay: str, stiff: frozenset[int]) -> list[str]:
    """Terminals of electronics that copper and fuses alone join to either end of the coil, where it is switched."""
    potential = case.network.potential
    ends = {potential[Point(relay, terminal)] for terminal in ("86", "85")} - stiff
    reached = case.network.reached(ends, STEADY) - stiff
    points = (point for number in sorted(reached) for point in case.network.members[number])
    return [str(point) for point in points if _suffers(case, point)]


def _suffers(case: Case, point: Point) -> bool:
    item = case.harness.items.get(point.owner)
    return item is not None and point.terminal in _inputs(item.kind)


def _inputs(kind: Kind) -> tuple[str, ...]:
    """The terminals behind which there are semiconductors; a board's contacts are none."""
    if isinstance(kind, Sensor | Module | SpeedController | Regulator):
        return kind.terminals()
    return ("+", "-", "IN") if isinstance(kind, RelayBoard) else ()
