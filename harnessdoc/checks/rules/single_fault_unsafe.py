"""A line that says `fails safe` does not: one fault makes live what must stay dead.

Why: wires break, fuses blow and plugs come off. A cut-out relay that is energised to stop the pump lets it run on when
its signal wire breaks, and nobody sees it until the tank is dry.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: dry}, rest: wet}
      K1: {is: relay, coil: {volts: 12 V, amps: 0.15 A}}
      M1: {is: load, amps: 2 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: K1:86, size: 1 mm2, length: 1 m}
      W3: {from: K1:85, to: G1:-, size: 1 mm2, length: 1 m}
      W4: {from: G1:+, to: K1:30, size: 1 mm2, length: 1 m}
      W5: {from: K1:87a, to: M1:1, size: 1 mm2, length: 1 m}
      W6: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
    operation: [{when: {S1: dry}, dead: [M1], fails safe: true}]

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: on}}
      M1: {is: load, amps: 2 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: M1:1, size: 1 mm2, length: 1 m}
      W3: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
    operation: [{when: {S1: off}, dead: [M1], fails safe: true}]
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import assumed, in_state
from harnessdoc.electrics.faults import Effect, single_faults
from harnessdoc.electrics.operation import items_by_circuit, unknown_positions, verify
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Operation

RULE = Rule(
    "single-fault-unsafe",
    Severity.DANGER,
    "one broken wire, blown fuse, pulled plug or shorted signal lets it run when it must stop",
    PRACTICE,
)
MOST_NAMED = 5
_RUN = "energise that relay to run, so that what breaks stops it"
_WINDOW = "watch the signal's window, so that one that is missing or shorted counts as a trip"
_SERIES = "put a pressure or level switch in series"
_NOT = "swapping the contacts alone only moves the fault"


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Try each single fault on each line that says `fails safe`; a contact that welds is a doubt, told once."""
    lines = [line for line in case.harness.operation if line.fails_safe and line.dead]
    lines = [line for line in lines if not unknown_positions(case.study, line.when)]
    if not lines:
        return
    broken = {(id(v.line), v.name) for v in verify(case.study, lines) if v.holds is False}
    homes = {name: circuit for circuit, names in items_by_circuit(case.harness).items() for name in names}
    welded: dict[str, list[Effect]] = {}
    for searched in single_faults(case.study, lines, only_dead=True):
        if (id(searched.line), searched.name) in broken:
            continue
        if searched.unverified:
            text = f"{searched.name} after single faults: {searched.unverified}"
            yield RULE.unverified(searched.name, text, searched.line.mark)
        unsafe = [effect for effect in searched.effects if effect.fault.sort != "stuck"]
        stuck = [effect for effect in searched.effects if effect.fault.sort == "stuck"]
        if unsafe:
            yield _unsafe(case, searched.line, unsafe, homes.get(searched.name))
        if stuck:
            welded.setdefault(searched.name, []).extend(stuck)
    for names, effects in _alike(welded):
        yield _welded(names, effects, homes)


def _unsafe(case: Case, line: Operation, effects: Sequence[Effect], circuit: str | None) -> Finding:
    first = effects[0]
    shorted = all(effect.fault.sort == "shorted" for effect in effects)
    hold = [_WINDOW, _SERIES] if shorted else [_RUN, _WINDOW, _SERIES]
    relays = [name for name in case.harness.items if f"{name}:" in first.why]
    text = (
        f"{first.name} runs on with {_named(effects)}, {in_state(case, first.state)}, where operation says dead and "
        f"fails safe, by {first.why}{assumed(case, *relays, words='pull-in')}"
    )
    mend = f"{', or '.join(hold)}; {_NOT}"
    return RULE.finding(first.name, text, mend, line.mark, circuits=(circuit,))


def _alike(welded: Mapping[str, list[Effect]]) -> Iterator[tuple[list[str], list[Effect]]]:
    """Loads that the same stuck relays keep on in the same lines, together."""
    groups: dict[tuple[tuple[str, int], ...], list[str]] = {}
    for name, effects in welded.items():
        key = tuple((effect.fault.text, effect.line.mark.line) for effect in effects)
        groups.setdefault(key, []).append(name)
    yield from ((names, welded[names[0]]) for names in groups.values())


def _welded(names: Sequence[str], effects: Sequence[Effect], homes: Mapping[str, str]) -> Finding:
    stuck = " or ".join(dict.fromkeys(effect.fault.text for effect in effects))
    lines = list(dict.fromkeys(str(effect.line.mark.line) for effect in effects))
    where = f"{'lines' if len(lines) > 1 else 'line'} {', '.join(lines)}"
    who = f"{' and '.join(names)} {'run' if len(names) > 1 else 'runs'} on"
    mend = "put a second contact in series that another coil moves, or show that a main switch within reach stops it"
    text = f"{who} with {stuck}, where operation says dead and fails safe ({where})"
    circuits = tuple(homes.get(name) for name in names)
    return RULE.finding(names[0], text, mend, effects[0].line.mark, circuits=circuits, severity=Severity.DOUBT)


def _named(effects: Iterable[Effect]) -> str:
    texts = list(dict.fromkeys(effect.fault.text for effect in effects))
    more = f" or {len(texts) - MOST_NAMED} more single faults" if len(texts) > MOST_NAMED else ""
    return " or ".join(texts[:MOST_NAMED]) + more
