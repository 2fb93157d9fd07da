"""A load's return is missing, or thinner than its feed.

Why: what flows in must flow out; the thin half of the loop gets as warm as the current makes it, whatever feeds it.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      M1: {is: load, amps: 10 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 4 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 1.5 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      M1: {is: load, amps: 10 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 4 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 4 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harnessdoc.checks.flow_path import Flow
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.electrics.network import PASSING
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Item, Wire
from harnessdoc.model.kinds.base import Kind
from harnessdoc.model.kinds.controls import Regulator, SpeedController
from harnessdoc.model.kinds.electronics import Sensor
from harnessdoc.model.kinds.loads import Load, Resistor
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_amps

RULE = Rule(
    "thin-return",
    Severity.DOUBT,
    "what flows in must flow out; the thinner half of the loop gets warmer than the half that the fuse was chosen for",
    PRACTICE,
)
NO_STEP = 0.95
"""A wire counts as thinner below this share of the copper: 14 AWG after 2 mm² is no step."""
POWER_A = 1.0
"""Signals and coils below this may return in any size. Common practice, no source."""


class _Way(NamedTuple):
    """The wires of a load's feed and of its return, and what flows in the return's first part, in A."""

    feed: list[Wire]
    back: list[Wire]
    amps: float


def check(case: Case) -> Iterator[Finding]:
    """Each load that has a feed and reaches no return in any position; then each whose return is the thinner way."""
    for name, item in case.harness.items.items():
        terminals = _loaded(item.kind)
        if terminals and (at := _without_return(case, item, terminals)):
            text = f"{name}'s {at} reaches no return in any position, though it is fed"
            yield _finding(case, item, text, f"lay a return from {Point(name, at)}", Severity.FAULT)
    flow = Flow(case)
    for index, branch in enumerate(case.study.circuit.branches):
        load = case.harness.items.get(branch.part)
        if branch.sort != "load" or load is None or not isinstance(load.kind, Load) or isinstance(load.kind, Resistor):
            continue
        way = _way(case, flow, index)
        if way is not None:
            yield from _thinner(case, load, way)


def _loaded(kind: Kind) -> tuple[str, str] | None:
    """The two terminals between which an item draws."""
    if isinstance(kind, Load):
        return kind.named[0], kind.named[1]
    if isinstance(kind, Relay):
        return "86", "85"
    if isinstance(kind, RelayBoard):
        return "+", "-"
    if isinstance(kind, Sensor) and kind.wires == 3:
        return "+", "-"
    return ("IN+", "IN-") if isinstance(kind, Regulator | SpeedController) else None


def _without_return(case: Case, item: Item, terminals: tuple[str, str]) -> str:
    """The terminal that reaches neither feed nor return, where the other is fed; empty if it may yet reach one.

    Nothing is said where an end on the way is unknown, or where it leads on through another load."""
    network = case.network
    for here, there in (terminals, terminals[::-1]):
        potential = network.potential[Point(item.name, here)]
        fed = network.potential[Point(item.name, there)] in network.fed
        if not fed or potential in network.fed or potential in network.returning:
            continue
        reached = network.reached([potential], PASSING)
        if any(_loose(wire) for number in reached for wire in network.wires.get(number, ())):
            continue
        if not any(network.wires.get(number) for number in reached):
            return "" if here in item.left_open else here
        if not _meets_others(case, reached, item.name):
            return here
    return ""


def _loose(wire: Wire) -> bool:
    return any(end.point is None and not end.tail for end in wire.ends)


def _meets_others(case: Case, reached: frozenset[int], name: str) -> bool:
    """Whether another item's load, coil or black box hangs on what is reached: the current may go on through it."""
    there = {point.owner for number in reached for point in case.network.members.get(number, ())} - {name}
    kinds = [case.harness.items[owner].kind for owner in there if owner in case.harness.items]
    return any(_loaded(kind) or not kind.paths() for kind in kinds)


def _way(case: Case, flow: Flow, index: int) -> _Way | None:
    """The way of the load's largest current."""
    studied = case.study.home.get(index)
    if studied is None or not studied.outcomes:
        return None
    _, settled = max(studied.outcomes, key=lambda outcome: abs(outcome[1].amps[index]))
    if not settled.exact or abs(settled.amps[index]) < POWER_A:
        return None
    way = flow.way(index, studied, settled)
    if way is None:
        return None
    feed, back, _ = way
    return _Way(_wires(case, feed), _wires(case, back), abs(settled.amps[back[0]]) if back else 0.0)


def _wires(case: Case, indices: list[int]) -> list[Wire]:
    branches = case.study.circuit.branches
    return [case.harness.wires[branches[index].part] for index in indices if branches[index].sort == "wire"]


def _thinner(case: Case, item: Item, way: _Way) -> Iterator[Finding]:
    feed, back = _thinnest(way.feed), _thinnest(way.back)
    if feed is None or back is None or feed.size is None or back.size is None:
        return
    if back.size.area_mm2 < NO_STEP * feed.size.area_mm2 and not (feed.existing and back.existing):
        amps = format_amps(way.amps, 2)
        text = (
            f"{item.name} returns {amps} through {back.name} of {back.size.written}; its feed is nowhere thinner than"
            f" {feed.size.written} ({feed.name})"
        )
        yield _finding(case, item, text, f"lay {feed.size.written} for {back.name}", Severity.DOUBT)


def _thinnest(wires: list[Wire]) -> Wire | None:
    """The wire of known size with least copper; None where a size on the way is unknown or there is no wire."""
    if not wires or any(wire.size is None for wire in wires):
        return None
    return min(wires, key=lambda wire: wire.size.area_mm2 if wire.size else 0.0)


def _finding(case: Case, item: Item, text: str, mend: str, severity: Severity) -> Finding:
    circuits = (circuit.name for circuit in case.harness.circuits.values() if item.name in circuit.items)
    return RULE.finding(item.name, text, mend, item.mark, circuits=tuple(circuits), severity=severity)
