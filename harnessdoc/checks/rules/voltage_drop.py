"""Too much of the supply's voltage is lost on the way to a load and back.

Why: a motor pulls less, a lamp grows dim, electronics drop out; and what is lost warms a wire or a bad contact.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      M1: {is: load, amps: 10 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1 mm2, length: 5 m}
      W2: {from: M1:2, to: G1:-, size: 1 mm2, length: 5 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      M1: {is: load, amps: 10 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 2.5 mm2, length: 5 m}
      W2: {from: M1:2, to: G1:-, size: 2.5 mm2, length: 5 m}
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from heapq import nsmallest

from harnessdoc.checks.flow_path import Flow, FlowPath, Lost
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import Assumed, in_state
from harnessdoc.electrics.assemble import AREA_MM2, ohm_per_m
from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Studied, is_live
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import State
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.loads import Load, Resistor
from harnessdoc.model.kinds.relays import RelayBoard
from harnessdoc.model.quantities import format_volts, plain_number
from harnessdoc.model.record import record

RULE = Rule(
    "voltage-drop",
    Severity.FAULT,
    "what is lost on the way does not arrive, and warms the place where it is lost",
    "tables for a loss of 3 % and of 10 %: wiring pages 52-53, Holland Marine catalogue; which load needs which is "
    + PRACTICE,
)
OTHERS_PERCENT, CRITICAL_PERCENT = 10.0, 3.0
NOMINAL_V = 12.0
LITTLE_V = 0.04
"""Less than this in fuses and contacts is not worth a word."""
LITTLE_SHARE = 0.05
"""A wire with less of the loss than this is left as it is."""
SIZES_MM2 = (0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120)
"""Metric sizes of IEC 60228 and ISO 6722, from which the one that would pass is chosen."""
TRIES = 4
"""So many of a load's worst states are looked at: the first may lead through another load, which is no wiring."""


@record(frozen=True)
class _Drop:
    """The worst way to one load, with the state it was found in. `counted`: what is known of it: copper, and fuses of
    stated resistance; `guessed_v`: what the rest loses as assumed, which decides nothing."""

    branch: Branch
    supply_v: float
    counted: tuple[Lost, ...]
    guessed_v: float
    state: State
    limit_percent: float
    stated: str

    @property
    def own_percent(self) -> float:
        return 100 * sum(part.volts for part in self.counted) / self.supply_v

    @cached_property
    def all_v(self) -> float:
        """What is lost with all others on, in V."""
        return sum(part.all_v for part in self.counted)

    @property
    def all_percent(self) -> float:
        return 100 * self.all_v / self.supply_v

    @cached_property
    def wires(self) -> list[Lost]:
        """Those that lose most first."""
        wires = (part for part in self.counted if part.branch.sort == "wire")
        return sorted(wires, key=lambda part: -round(part.all_v, 9))

    @cached_property
    def chief(self) -> list[Lost]:
        """The wires that matter, those that lose most first."""
        return [part for part in self.wires if part.all_v >= LITTLE_SHARE * self.all_v]


def check(case: Case) -> Iterator[Finding]:
    """Follow the current to each load that works, in the state in which least arrives."""
    flow = Flow(case)
    limits = _limits(case)
    guessed = Assumed(case)
    circuits = _circuits(case)
    for studied in case.study.studied:
        for index in sorted(studied.island.own):
            branch = case.study.circuit.branches[index]
            rated_v = _rated_v(case, branch)
            if rated_v is None:
                continue
            percent, stated = limits.get(branch.part, (_usual(case, branch), ""))
            worst = _worst(flow, studied, index, rated_v)
            if worst is not None and worst[0].supply.volts > 0:
                drop = _drop(guessed, branch, worst[0], worst[1], percent, stated)
                if drop.all_percent > percent:
                    yield _finding(case, drop, guessed, circuits.get(branch.part, ()))


def _rated_v(case: Case, branch: Branch) -> float | None:
    """The voltage at which a load is rated; None for what is none, or is put in the way on purpose."""
    item = case.harness.items.get(branch.part)
    if item is None or branch.sort != "load" or branch.copies >= 0:
        return None
    if isinstance(item.kind, Load):
        return None if isinstance(item.kind, Resistor) else item.kind.at_v or NOMINAL_V
    if isinstance(item.kind, RelayBoard | Sensor):
        return item.kind.supply_v or NOMINAL_V
    return None


def _usual(case: Case, branch: Branch) -> float:
    """Electronics are critical, the rest is not."""
    critical = isinstance(case.harness.items[branch.part].kind, RelayBoard | Sensor | Module)
    return CRITICAL_PERCENT if critical else OTHERS_PERCENT


def _limits(case: Case) -> dict[str, tuple[float, str]]:
    """Item to the smallest limit that a circuit of it states, and that circuit."""
    found: dict[str, tuple[float, str]] = {}
    for circuit in case.harness.circuits.values():
        limit = circuit.drop_limit_percent
        if limit is None:
            continue
        wires = case.harness.by_circuit.get(circuit.name, ())
        for name in (*circuit.items, *(point.owner for wire in wires for point in wire.points)):
            if name not in found or limit < found[name][0]:
                found[name] = (limit, circuit.name)
    return found


def _circuits(case: Case) -> dict[str, tuple[str, ...]]:
    """Item to the circuits that name it."""
    found: dict[str, tuple[str, ...]] = {}
    for circuit in case.harness.circuits.values():
        for name in dict.fromkeys(circuit.items):
            found[name] = (*found.get(name, ()), circuit.name)
    return found


def _worst(flow: Flow, studied: Studied, index: int, rated_v: float) -> tuple[FlowPath, State] | None:
    """The way to the load in the state in which least arrives at it while it works."""
    branch = flow.study.circuit.branches[index]

    def live() -> Iterator[tuple[float, int, State, Settled]]:
        for number, (state, settled) in enumerate(studied.outcomes):
            across = flow.study.across(index, settled)
            if settled.exact and not settled.cycle and is_live(branch, across, rated_v):
                yield round(abs(across), 6), number, state, settled

    for _, _, state, settled in nsmallest(TRIES, live()):
        path = flow.path(index, studied, settled)
        if path is not None and not any(part.branch.sort in ("load", "coil", "input") for part in path.parts):
            return path, state
    return None


def _drop(guessed: Assumed, branch: Branch, path: FlowPath, state: State, percent: float, stated: str) -> _Drop:
    counted = tuple(
        part
        for part in path.parts
        if part.branch.sort == "wire" or (part.branch.sort == "fuse" and part.branch.part not in guessed)
    )
    guessed_v = sum(part.all_v for part in path.parts) - sum(part.all_v for part in counted)
    return _Drop(branch, path.supply.volts, counted, guessed_v, state, percent, stated)


def _finding(case: Case, drop: _Drop, guessed: Assumed, circuits: tuple[str, ...]) -> Finding:
    item = case.harness.items[drop.branch.part]
    most = ", ".join(f"{part.branch.part} {format_volts(part.all_v, 2)}" for part in drop.chief[:3])
    limit = f"circuit {drop.stated} allows" if drop.stated else "the limit is"
    text = (
        f"{item.name}'s wiring loses {format_volts(drop.all_v, 3)} of {format_volts(drop.supply_v, 3)}"
        f" {in_state(case, drop.state)}: {_percent(drop.all_percent)}, {limit} {_percent(drop.limit_percent)}"
    )
    if drop.own_percent <= drop.limit_percent:
        text += f"; {_percent(drop.own_percent)} by itself, the rest when all that shares its way is on"
    text += f"; most in {most}" if most else ""
    if drop.guessed_v >= LITTLE_V:
        text += f"; about {format_volts(drop.guessed_v, 2)} more in fuses and contacts, as assumed"
    unsure = guessed.of(part.branch.part for part in drop.wires)
    sure = drop.own_percent > drop.limit_percent and not unsure
    source = f"circuit {drop.stated} states its limit" if drop.stated else ""
    return RULE.finding(
        item.name, text + unsure, _mend(case, drop), item.mark, circuits=circuits,
        source=source, severity=Severity.FAULT if sure else Severity.DOUBT,
    )  # fmt: skip


def _percent(value: float) -> str:
    return f"{plain_number(value, 3)} %"


def _mend(case: Case, drop: _Drop) -> str:
    """The smallest size with which the wires on the way would pass, those already thicker left as they are."""
    chief = [(part, _area(case, part)) for part in drop.chief]
    rest_v = sum(part.all_v for part in drop.wires) - sum(part.all_v for part, _ in chief)
    fixed_v = sum(part.all_v for part in drop.counted if part.branch.sort != "wire")
    allowed_v = drop.limit_percent / 100 * drop.supply_v - fixed_v
    for area in SIZES_MM2:
        thinner = [part.branch.part for part, own in chief if own < area]
        if thinner and rest_v + sum(_with(part, own, area) for part, own in chief) <= allowed_v:
            names = ", ".join(thinner)
            return f"lay {plain_number(area)} mm² instead of {names}, or take a shorter way"
    return "no size of wire helps: feed it by a shorter way, or find what is lost elsewhere"


def _area(case: Case, part: Lost) -> float:
    size = case.harness.wires[part.branch.part].size
    return size.area_mm2 if size is not None else 0.0


def _with(part: Lost, own: float, area_mm2: float) -> float:
    """What a wire on the way would lose with at least so much copper, as warm as it is, in V; `own`: what it has."""
    if own >= area_mm2:
        return part.all_v
    return part.all_v * ohm_per_m(area_mm2) / ohm_per_m(own or AREA_MM2)
