"""A switch, a relay's contact, a controller, a regulator, a diode or a strip carries more than it is rated for.

Why: a contact that carries too much grows hot and welds shut, so that it stays on when it must not.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: on}, rating: 10 A}
      M1: {is: load, amps: 15 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 4 mm2, length: 100 mm}
      W2: {from: S1:2, to: M1:1, size: 4 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 4 mm2, length: 100 mm}

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: on}, rating: 20 A}
      M1: {is: load, amps: 15 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 4 mm2, length: 100 mm}
      W2: {from: S1:2, to: M1:1, size: 4 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 4 mm2, length: 100 mm}
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harnessdoc.checks.drawn import LEAST_A, amps, assumed_draws, circuits_of, not_settled, worst_words
from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.study import Worst
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Item, Wire
from harnessdoc.model.kinds.controls import Regulator, SpeedController
from harnessdoc.model.kinds.joints import TerminalStrip
from harnessdoc.model.kinds.loads import Diode
from harnessdoc.model.kinds.relays import PULLED, Relay, RelayBoard
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point

RULE = Rule(
    "overloaded-contact",
    Severity.DANGER,
    "a contact or power stage that carries more than its rating grows hot, and welds or burns",
    CONTRADICTION.replace("what the file says elsewhere", "the rating that the file states"),
)


class _Carried(NamedTuple):
    """A current through a part of an item, and the rating stated for that part; None for none."""

    what: str
    rating_a: float | None
    worst: Worst


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold the worst current through each contact, power stage and strip against its rating."""
    unrated: list[Item] = []
    for item in case.harness.items.values():
        carried = [one for one in _carried(case, item) if one.worst.amps >= LEAST_A]
        if any(one.rating_a is None for one in carried):
            unrated.append(item)
        above = [one for one in carried if one.rating_a is not None and one.worst.amps > one.rating_a]
        if above:
            yield _finding(case, item, max(above, key=lambda one: one.worst.amps / (one.rating_a or 1.0)))
    if unrated:
        names = ", ".join(item.name for item in unrated)
        yield RULE.unverified(unrated[0].name, f"rating not stated of {names}", unrated[0].mark)
    yield from not_settled(case, RULE)


def _carried(case: Case, item: Item) -> Iterator[_Carried]:
    if isinstance(item.kind, TerminalStrip):
        landing = [case.study.worst_of_part(w.name) for w in _wires_at(case, item)]
        known = [worst for worst in landing if worst is not None]
        if known:
            yield _Carried(item.name, item.kind.rating_a, max(known, key=lambda worst: worst.amps))
        return
    for index in case.study.by_part.get(item.name, ()):
        branch = case.study.circuit.branches[index]
        if index in case.study.worst and _carries(item, branch):
            yield _Carried(branch.name, _rating_a(item, branch), case.study.worst[index])


def _wires_at(case: Case, item: Item) -> Iterator[Wire]:
    for terminal in item.terminals:
        for wire, _ in case.harness.landings.get(Point(item.name, terminal), ()):
            yield wire


def _carries(item: Item, branch: Branch) -> bool:
    """Whether a branch is what the item's rating is about, not a coil or an input."""
    if isinstance(item.kind, Regulator):
        return branch.sort == "source"
    return branch.sort in ("contact", "drive") and isinstance(
        item.kind, Switch | Relay | RelayBoard | SpeedController | Diode
    )


def _rating_a(item: Item, branch: Branch) -> float | None:
    kind = item.kind
    if isinstance(kind, RelayBoard):
        if kind.rating is None:
            return None
        makes = branch.gate is not None and PULLED in branch.gate.closed
        return kind.rating.no_a if makes else kind.rating.nc_a
    if isinstance(kind, Switch | Relay | SpeedController | Diode | Regulator):
        return kind.rating_a
    return None


def _finding(case: Case, item: Item, one: _Carried) -> Finding:
    text = f"{one.what} carries {worst_words(case, one.worst)}; it is rated {amps(one.rating_a or 0.0)}"
    text += assumed_draws(case, item.name)
    mend = "take a load off it, let it work a relay rated for the current, or fit one that is"
    severity = Severity.FAULT if one.worst.bound or isinstance(item.kind, Regulator) else Severity.DANGER
    return RULE.finding(item.name, text, mend, item.mark, circuits=circuits_of(case, item.name), severity=severity)
