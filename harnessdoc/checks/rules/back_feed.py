"""A load turns on through another load, by a way that no contact, fuse or wire alone gives.

Why: current finds its way backwards through a lamp, a motor or a coil, and what is switched off runs.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      S1: {is: switch, contacts: {1-2: on}}
      S2: {is: switch, contacts: {1-2: on}}
      P1: {is: lamp, watts: 55 W, at: 12 V}
      K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm}}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: G1:+, to: S2:1, size: 1 mm2, length: 1 m}
      W3: {from: S1:2, to: P1:1, size: 1 mm2, length: 1 m}
      W4: {from: P1:2, to: K1:86, size: 1 mm2, length: 1 m}
      W5: {from: S2:2, to: K1:86, size: 1 mm2, length: 1 m}
      W6: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      S1: {is: switch, contacts: {1-2: on}}
      S2: {is: switch, contacts: {1-2: on}}
      P1: {is: lamp, watts: 55 W, at: 12 V}
      K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm}}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: G1:+, to: S2:1, size: 1 mm2, length: 1 m}
      W3: {from: S1:2, to: P1:1, size: 1 mm2, length: 1 m}
      W4: {from: P1:2, to: G1:-, size: 1 mm2, length: 1 m}
      W5: {from: S2:2, to: K1:86, size: 1 mm2, length: 1 m}
      W6: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from harnessdoc.checks.joined import Joined
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import in_state
from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Studied, is_live
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import State
from harnessdoc.model.kinds.controls import Potentiometer
from harnessdoc.model.kinds.loads import Load, Resistor

RULE = Rule(
    "back-feed",
    Severity.FAULT,
    "current that comes backwards through another load turns on what is switched off",
    PRACTICE,
)
NOMINAL_V = 12.0
FLOWS_A = 1e-4
"""A load that carries less is no part of the way."""


@dataclass
class _Seen:
    """What was seen of one load: ever fed by itself, and the first state in which it lives through others."""

    direct: bool = False
    through: tuple[State, tuple[str, ...]] | None = field(default=None)


def check(case: Case) -> Iterator[Finding]:
    """In every state, look for live loads that closed contacts, fuses and wires join to no feed or no return."""
    for studied in case.study.studied:
        loads = _loads(case, studied)
        if not loads or not studied.outcomes:
            continue
        for index, seen in _seen(case, studied, loads).items():
            if seen.direct and seen.through is not None:
                yield _finding(case, case.study.circuit.branches[index], *seen.through)


def _loads(case: Case, studied: Studied) -> list[int]:
    """Branches of the island's own loads and coils; what is put in series on purpose is none."""
    found = []
    for index in sorted(studied.island.own):
        branch = case.study.circuit.branches[index]
        item = case.harness.items.get(branch.part)
        series = item is not None and isinstance(item.kind, Resistor | Potentiometer)
        if branch.sort in ("load", "coil") and branch.copies < 0 and not series:
            found.append(index)
    return found


def _seen(case: Case, studied: Studied, loads: list[int]) -> dict[int, _Seen]:
    circuit = case.study.circuit
    joined = Joined(case, studied)
    pulled = {coil.device: coil.pulled for coil in circuit.coils}
    ends = [(i, *(joined.piece[node] for node in circuit.branches[i][:2])) for i in loads]
    reached: dict[tuple[bool, ...], tuple[set[int], set[int]]] = {}
    found = {index: _Seen() for index in loads}
    for state, settled in studied.outcomes:
        if settled.cycle or not settled.exact:
            continue
        live = [end for end in ends if _is_live(case, end[0], settled, pulled)]
        if not live:
            continue
        positions = settled.positions
        key = tuple(positions.get(link.device) in link.closed for link in joined.switched)
        if key not in reached:
            reached[key] = (joined.fed(positions), joined.returning(positions))
        fed, back = reached[key]
        for index, a, b in live:
            if (a in fed and b in back) or (b in fed and a in back):
                found[index].direct = True
            elif found[index].through is None and not _wanted(case, circuit.branches[index].part, state):
                found[index].through = (state, _others(case, studied, joined, index, settled, fed, back))
    return found


def _is_live(case: Case, index: int, settled: Settled, pulled: dict[str, str]) -> bool:
    branch = case.study.circuit.branches[index]
    if branch.sort == "coil":
        return settled.positions.get(branch.part) == pulled.get(branch.part)
    item = case.harness.items.get(branch.part)
    rated_v = item.kind.at_v if item is not None and isinstance(item.kind, Load) else None
    return is_live(branch, case.study.across(index, settled), rated_v or NOMINAL_V)


def _wanted(case: Case, part: str, state: State) -> bool:
    """Whether an operation line wants the load live in that state: loads in series on purpose."""
    return any(
        part in line.live and all(state.get(name, position) == position for name, position in line.when.items())
        for line in case.harness.operation
    )


def _others(
    case: Case, studied: Studied, joined: Joined, index: int, settled: Settled, fed: set[int], back: set[int]
) -> tuple[str, ...]:
    """Loads that carry current and join the load's own loose end to a feed or a return."""
    branches = case.study.circuit.branches
    loose = {joined.piece[node] for node in branches[index][:2]} - fed - back
    names = []
    for other in sorted(studied.island.kept):
        branch = branches[other]
        if other != index and branch.sort in ("load", "coil", "input"):
            ends = {joined.piece[branch.a], joined.piece[branch.b]}
            if ends & loose and abs(settled.amps[other]) > FLOWS_A:
                names.append(branch.part)
    return tuple(dict.fromkeys(names))


def _finding(case: Case, branch: Branch, state: State, others: tuple[str, ...]) -> Finding:
    item = case.harness.items[branch.part]
    works = "pulls in" if branch.sort == "coil" else "is live"
    through = f" through {' and '.join(others)}" if others else " through another load"
    text = f"{item.name} {works}{through} {in_state(case, state)}; no contact joins it to feed and return"
    safe = any(line.fails_safe and item.name in line.dead for line in case.harness.operation)
    circuits = (circuit.name for circuit in case.harness.circuits.values() if item.name in circuit.items)
    mend = "give each its own contact, or put a diode where the current comes back"
    severity = Severity.DANGER if safe else Severity.FAULT
    return RULE.finding(item.name, text, mend, item.mark, circuits=tuple(circuits), severity=severity)
