"""A fuse carries more than it is rated for, or more than the habitual four fifths of it for long.

Why: it opens in use, or ages until it does; then somebody puts in a larger one.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      F1: {is: fuse, rating: 10 A}
      M1: {is: load, amps: 12 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 2.5 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 2.5 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 2.5 mm2, length: 100 mm}

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      F1: {is: fuse, rating: 15 A}
      M1: {is: load, amps: 12 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 2.5 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 2.5 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 2.5 mm2, length: 100 mm}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from harnessdoc.checks.drawn import LEAST_A, amps, assumed_draws, circuits_of, not_settled, worst_words
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.electrics.settle import Positions
from harnessdoc.electrics.study import Studied, Worst
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.switches import Switch

RULE = Rule(
    "fuse-too-small",
    Severity.FAULT,
    "a fuse that carries more than its rating opens in use, and near its rating it ages until it does",
    PRACTICE,
)
LONG_SHARE = 0.8
"""Share of its rating that a fuse carries for long. Common practice, no source."""


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold the worst current through each fuse against its rating."""
    fed, rests = _fed(case), _rests(case)
    for item in case.harness.items.values():
        kind = item.kind
        worst = case.study.worst_of_part(item.name) if isinstance(kind, Fuse) else None
        if not isinstance(kind, Fuse) or worst is None or worst.amps < LEAST_A:
            continue
        if kind.rating_a is None:
            text = f"{item.name} carries {worst_words(case, worst)}; its rating is not stated"
            yield RULE.unverified(item.name, text, item.mark)
        elif worst.amps > kind.rating_a:
            text = f"{item.name} of {amps(kind.rating_a)} carries {worst_words(case, worst)}"
            mend = "share its loads between two fuses, each with its own wires, or fit wires and a fuse for the current"
            yield _finding(case, item, text, mend, Severity.DOUBT if worst.bound else Severity.FAULT)
        elif worst.amps > LONG_SHARE * kind.rating_a:
            yield from _for_long(case, item, kind.rating_a, fed, rests)
    yield from not_settled(case, RULE)


def _fed(case: Case) -> Mapping[int, Sequence[Studied]]:
    """A fuse's branch to the islands that it is part of or on the way to."""
    study = case.study
    fuses = {index for index, branch in enumerate(study.circuit.branches) if branch.sort == "fuse"}
    found: dict[int, list[Studied]] = {}
    for studied in study.studied:
        island = studied.island
        for index in island.kept:
            if index in fuses and (index in island.own or index in island.way):
                found.setdefault(index, []).append(studied)
    return found


def _rests(case: Case) -> Mapping[str, str]:
    """Momentary switches with the position in which nobody holds them."""
    switches = ((item.name, item.kind) for item in case.harness.items.values())
    return {name: kind.rest for name, kind in switches if isinstance(kind, Switch) and kind.momentary}


def _for_long(
    case: Case, item: Item, rating_a: float, fed: Mapping[int, Sequence[Studied]], rests: Mapping[str, str]
) -> Iterator[Finding]:
    """What it carries while nobody holds a momentary switch: only that is for long."""
    long = _without_momentary(case, item.name, fed, rests)
    if long is not None and long.amps > LONG_SHARE * rating_a:
        text = f"{item.name} of {amps(rating_a)} carries {worst_words(case, long)}, above 80 % of it for long"
        yield _finding(case, item, text, "take a load off it, or the next rating that its wires allow", Severity.DOUBT)


def _without_momentary(
    case: Case, fuse: str, fed: Mapping[int, Sequence[Studied]], rests: Mapping[str, str]
) -> Worst | None:
    parts: list[tuple[float, Positions]] = []
    for index in case.study.by_part.get(fuse, ()):
        for studied in fed.get(index, ()):
            held = [
                (abs(settled.amps[index]), state)
                for state, settled in studied.outcomes
                if all(rests.get(name, position) == position for name, position in state.items())
            ]
            parts += [max(held, key=lambda one: one[0])] if held else []
    parts = [part for part in parts if part[0] > 0]
    if not parts:
        return None
    return Worst(sum(part[0] for part in parts), max(parts, key=lambda one: one[0])[1], len(parts) > 1)


def _finding(case: Case, item: Item, text: str, mend: str, severity: Severity) -> Finding:
    said = text + assumed_draws(case, item.name)
    return RULE.finding(item.name, said, mend, item.mark, circuits=circuits_of(case, item.name), severity=severity)
