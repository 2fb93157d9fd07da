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

from collections.abc import Iterator, Mapping

from harnessdoc.checks.joined import Joined, Positions
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import in_state
from harnessdoc.electrics.circuit import Coil
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Studied
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import State

RULE = Rule(
    "unstable-relay",
    Severity.FAULT,
    "a relay that breaks its own coil's current buzzes and burns; one that holds itself remembers what nobody sees",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding]:
    """Report each cycle that the study met; then look for relays that would stay pulled where they rest."""
    yield from _buzzing(case)
    homes: dict[int, tuple[Studied, list[Coil]]] = {}
    coils = {coil.device: coil for coil in case.study.circuit.coils}
    for index, branch in enumerate(case.study.circuit.branches):
        if branch.sort == "coil" and (studied := case.study.home.get(index)) is not None and studied.outcomes:
            homes.setdefault(id(studied), (studied, []))[1].append(coils[branch.part])
    for studied, in_it in homes.values():
        yield from _holding(case, studied, in_it)


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


def _holding(case: Case, studied: Studied, coils: list[Coil]) -> Iterator[Finding]:
    """Relays at rest in a state in which they would stay pulled, had they been."""
    joined = Joined(case, studied)
    moved = {link.device for link in joined.links}
    inside = [coil for coil in coils if coil.plus in joined.piece and coil.minus in joined.piece]
    for coil in inside:
        if coil.device not in moved:
            continue
        tried: set[tuple[bool, ...]] = set()
        for state, settled in studied.outcomes:
            if settled.cycle or settled.positions.get(coil.device) != coil.rest:
                continue
            key = tuple(settled.positions.get(link.device) in link.closed for link in joined.switched)
            if key in tried:
                continue
            tried.add(key)
            if _might_hold(joined, inside, coil, settled) and _holds(studied, coil, state):
                text = (
                    f"{coil.device} stays as it was {in_state(case, state)}: at rest it rests, pulled it holds itself"
                )
                mend = "if that is wanted, say so in its remarks; if not, feed its coil from before its own contact"
                yield _finding(case, [coil.device], text, mend, Severity.DOUBT)
                break


def _might_hold(joined: Joined, coils: list[Coil], held: Coil, settled: Settled) -> bool:
    """Whether contacts alone feed the coil once it is pulled and the others have followed. Knows no voltages."""
    positions: dict[str, str] = {**settled.positions, held.device: held.pulled}
    for _ in range(len(coils) + 1):
        fed, back = joined.fed(positions), joined.returning(positions)
        follow = {c.device: c.pulled for c in coils if c is not held and _driven(joined, c, fed, back)}
        if all(positions.get(name) == position for name, position in follow.items()):
            return _driven(joined, held, fed, back)
        positions.update(follow)
    return False


def _driven(joined: Joined, coil: Coil, fed: set[int], back: set[int]) -> bool:
    plus, minus = joined.piece[coil.plus], joined.piece[coil.minus]
    return (plus in fed and minus in back) or (not coil.polarised and minus in fed and plus in back)


def _holds(studied: Studied, coil: Coil, state: State) -> bool:
    """Settle once more from pulled: whether it stays."""
    start: Positions = {c.device: c.pulled for c in studied.plant.coils if c.device not in state}
    return _stays(studied, coil, state, {coil.device: coil.pulled}) or _stays(studied, coil, state, start)


def _stays(studied: Studied, coil: Coil, state: State, start: Mapping[str, str]) -> bool:
    settled = studied.plant.settle(state, start)
    return not settled.cycle and settled.positions.get(coil.device) == coil.pulled


def _finding(case: Case, names: list[str], text: str, mend: str, severity: Severity) -> Finding:
    item = case.harness.items[names[0]]
    circuits = (circuit.name for circuit in case.harness.circuits.values() if set(names) & set(circuit.items))
    return RULE.finding(item.name, text, mend, item.mark, circuits=tuple(circuits), severity=severity)
