"""A relay's coil gets a voltage that it is not made for.

Why: a 12 V coil on 5 V never pulls in, a 5 V coil on 12 V burns, and a coil on a sensor's signal never lets go again.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      K1: {is: relay, coil: {volts: 5 V, ohms: 70 ohm}}
    wires:
      W1: {from: G1:+, to: K1:86, size: 1 mm2, length: 1 m}
      W2: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm}}
    wires:
      W1: {from: G1:+, to: K1:86, size: 1 mm2, length: 1 m}
      W2: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import Meter, Seen, assumed, in_state, ranges_of
from harnessdoc.electrics.circuit import Branch, Coil
from harnessdoc.electrics.single_fault import is_fault
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_volts

RULE = Rule(
    "coil-voltage",
    Severity.FAULT,
    "a coil below its pull-in voltage does not switch, and one far above its rating burns out",
    PRACTICE,
)
TOO_HIGH = 1.3
"""Share of its rated voltage that a coil stands for long. Common practice, no source."""
NOTHING_V = 0.1
"""Less than this over a coil counts as not fed."""


def check(case: Case) -> Iterator[Finding]:
    """Look at the voltage over each relay's coil in every state."""
    meter = Meter(case)
    circuit = case.study.circuit
    coils = {coil.device: coil for coil in circuit.coils}
    for branch in circuit.branches:
        if branch.sort == "coil":
            yield from _of_coil(case, branch, coils[branch.part], list(meter.over_nodes(branch.a, branch.b)))


def _of_coil(case: Case, branch: Branch, coil: Coil, seen: list[Seen]) -> Iterator[Finding]:
    item = case.harness.items[branch.part]
    highest = max(seen, key=lambda one: abs(one.volts), default=None)
    if highest is None or not isinstance(item.kind, Relay) or abs(highest.volts) < NOTHING_V:
        return
    rated_v = item.kind.coil.volts if item.kind.coil else None
    most, where = _v(highest), in_state(case, highest.state)
    if rated_v is not None and abs(highest.volts) > TOO_HIGH * rated_v:
        text = f"{item.name}'s coil for {format_volts(rated_v)} gets {most} {where}"
        mend = "fit a relay with a coil for that voltage"
        yield _finding(case, item.name, text, mend, Severity.DANGER)
    if abs(highest.volts) < coil.pulls_v:
        pulls = format_volts(coil.pulls_v)
        text = f"{item.name}'s coil gets {most} at most, {where}; it pulls in at {pulls} and never does"
        mend = "drive it from the voltage it is made for, or fit one that pulls in at what there is"
        yield _finding(case, item.name, text + _assumed(case, item.name), mend, Severity.FAULT)
        return
    held = _held_by_signal(case, branch, coil, seen)
    if held:
        yield _finding(case, item.name, held + _assumed(case, item.name), _WATCH, Severity.DANGER)
        return
    between = [one for one in seen if not one.settled.cycle and coil.releases_v <= abs(one.volts) < coil.pulls_v]
    if between:
        one = min(between, key=lambda one: abs(one.volts))
        text = (
            f"{item.name}'s coil gets {_v(one)} {in_state(case, one.state)}: too little to pull in"
            f" ({format_volts(coil.pulls_v)}), too much to let go ({format_volts(coil.releases_v)})"
        )
        mend = "find what takes the voltage away, or what feeds it by another way"
        yield _finding(case, item.name, text + _assumed(case, item.name), mend, Severity.DOUBT)


_WATCH = "put a relay board between, with its threshold between the two ranges"


def _held_by_signal(case: Case, branch: Branch, coil: Coil, seen: list[Seen]) -> str:
    """What is wrong with a coil that hangs on a signal and is held in all its conditions; empty if nothing is."""
    potential = case.network.potential
    at = {potential[Point(branch.part, terminal)] for terminal in ("86", "85")}
    for device in dict.fromkeys(name for one in seen for name in one.studied.island.devices):
        for terminal, ranges in ranges_of(case, device).items() if device in case.harness.items else ():
            if potential[Point(device, terminal)] not in at:
                continue
            healthy = {name: span for name, span in ranges.items() if not is_fault(name)}
            lowest = {name: _lowest(seen, device, name, span) for name, span in healthy.items()}
            if len(lowest) > 1 and all(volts >= coil.releases_v for volts in lowest.values()):
                listed = ", ".join(f"{format_volts(volts, 3)} {name}" for name, volts in lowest.items())
                return (
                    f"{branch.part}'s coil hangs on {device}:{terminal}, at least {listed}; pulled at"
                    f" {format_volts(coil.pulls_v)} it holds down to {format_volts(coil.releases_v)} and never lets go"
                )
    return ""


def _lowest(seen: list[Seen], device: str, condition: str, span: tuple[float, float]) -> float:
    """The least voltage over the coil that the lower end of a signal's range gives, where it is connected at all."""
    volts = max((abs(one.volts) for one in seen if one.state.get(device) == condition), default=0.0)
    middle = (span[0] + span[1]) / 2
    return volts * span[0] / middle if middle else volts


def _v(seen: Seen) -> str:
    return format_volts(abs(seen.volts), 3)


def _assumed(case: Case, name: str) -> str:
    return assumed(case, name, words="voltage")


def _finding(case: Case, name: str, text: str, mend: str, severity: Severity) -> Finding:
    circuits = (circuit.name for circuit in case.harness.circuits.values() if name in circuit.items)
    return RULE.finding(name, text, mend, case.harness.items[name].mark, circuits=tuple(circuits), severity=severity)
