"""A load is switched in its return instead of its feed.

Why: the feed stays live when the switch is off, and any touch of the return to the chassis turns the load on.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      S1: {is: switch, contacts: {1-2: on}}
      M1: {is: load, amps: 5 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
      W2: {from: M1:2, to: S1:1, size: 1 mm2, length: 1 m}
      W3: {from: S1:2, to: G1:-, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      S1: {is: switch, contacts: {1-2: on}}
      M1: {is: load, amps: 5 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
      W2: {from: M1:2, to: S1:1, size: 1 mm2, length: 1 m, drive: low side}
      W3: {from: S1:2, to: G1:-, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.steady import STEADY, steady
from harnessdoc.electrics.network import PASSING
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.kinds.loads import Load, Resistor
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point

RULE = Rule(
    "switched-return",
    Severity.DOUBT,
    "with the return switched the load stays live when it is off, and a chafed return turns it on",
    PRACTICE,
)
POWER_A = 1.0
"""Below this a load is a signal lamp or the like, often fed through a sender that is screwed into the engine."""
CONTACTS = STEADY | {Nature.CONTACT}


def check(case: Case) -> Iterator[Finding]:
    """Each load whose one terminal only contacts join to a return, while the other is fed without a switch.

    An isolator at the battery counts as no switch."""
    network = case.network
    always_fed = steady(case, Side.FEED)
    always_back = steady(case, Side.RETURN)
    for item in case.harness.items.values():
        if not isinstance(item.kind, Load) or isinstance(item.kind, Resistor) or _amps(item.kind) < POWER_A:
            continue
        ends = [network.potential[Point(item.name, terminal)] for terminal in item.kind.named]
        for fed, back in (ends, ends[::-1]):
            if fed in always_fed and back not in always_back | always_fed:
                switch = _switch(case, back, always_fed, always_back)
                if switch is not None and not _low_side(case, back, always_back):
                    yield _finding(case, item, switch)


def _amps(kind: Load) -> float:
    """The load's draw in A, as far as it is stated; large where nobody knows."""
    volts = kind.at_v or 12.0
    if kind.amps is not None:
        return kind.amps
    if kind.watts is not None:
        return kind.watts / volts
    return volts / kind.ohms if kind.ohms else POWER_A


def _switch(case: Case, back: int, always_fed: frozenset[int], always_back: frozenset[int]) -> str | None:
    """The switch or relay in the return; None where no contact leads there, or one leads to a feed as well.

    A contact that joins the load's return to a feed in another position reverses or brakes a motor."""
    network = case.network
    reached = network.reached([back], CONTACTS)
    if not reached & always_back or reached & always_fed:
        return None
    for inner in network.ways.get(back, ()):
        kind = case.harness.items[inner.item].kind
        if inner.path.nature is Nature.CONTACT and isinstance(kind, Switch | Relay | RelayBoard):
            return inner.item
    return None


def _low_side(case: Case, back: int, always_back: frozenset[int]) -> bool:
    """Whether a wire between the load and its return says that it is driven on its low side."""
    between = case.network.reached([back], PASSING) - always_back
    return any(wire.drive == "low side" for number in between for wire in case.network.wires.get(number, ()))


def _finding(case: Case, item: Item, switch: str) -> Finding:
    circuits = (circuit.name for circuit in case.harness.circuits.values() if item.name in circuit.items)
    text = f"{item.name} is switched in its return, by {switch}; its feed stays live"
    mend = f"put {switch} in the feed; or, where it is meant, state `drive: low side` on the wire between"
    return RULE.finding(item.name, text, mend, item.mark, circuits=tuple(circuits))
