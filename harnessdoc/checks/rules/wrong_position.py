"""An operation line or a reading names a position that the switch or sensor does not have.

Why: a line about a state that can't be is checked against nothing, and a reading can't be held against the network.

Trips:
    items: {S1: {is: switch, contacts: {1-2: on}}}
    operation:
      - {when: {S1: onn}, dead: []}

Passes:
    items: {S1: {is: switch, contacts: {1-2: on}}}
    operation:
      - {when: {S1: off}, dead: []}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import State
from harnessdoc.model.kinds import Kind
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.relays import AT_REST, PULLED, Relay, RelayBoard
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.mark import Mark

RULE = Rule(
    "wrong-position",
    Severity.FAULT,
    "what is said of a state that can't be is checked against nothing",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Hold each position in a `when:` against those that the item has."""
    for line in case.harness.operation:
        yield from _of_state(case, "operation", line.when, line.mark)
    for reading in case.harness.readings:
        yield from _of_state(case, "a reading", reading.when, reading.mark)


def _of_state(case: Case, about: str, when: State, mark: Mark) -> Iterator[Finding]:
    for name, position in when.items():
        item = case.harness.items.get(name)
        if item is None:
            continue  # missing-name says so
        there = positions_of(item.kind)
        if position in there:
            continue
        if there:
            import difflib  # only where something is wrong: it loads slowly

            close = difflib.get_close_matches(position, there, n=1, cutoff=0.5)
            hint = f"; did you mean {close[0]}?" if close else ""
            text = f"{about} names {name} {position}; {name} has {', '.join(there)}{hint}"
            mend = "correct the position, or describe it at the item"
        else:
            text = f"{about} names {name} {position}; {name} is a {item.kind.name} with no positions"
            mend = f"name the switch or sensor that is meant, or state the signal of {name} by condition"
        yield RULE.finding(about, text, mend, mark)


def positions_of(kind: Kind) -> tuple[str, ...]:
    """The positions of a switch, the conditions of a sensor or module, what a relay can be; none for the rest."""
    if isinstance(kind, Switch):
        return kind.positions()
    if isinstance(kind, Sensor):
        return tuple(kind.signal_v)
    if isinstance(kind, Module):
        return tuple(dict.fromkeys(name for output in kind.output.values() for name in output.conditions_v))
    return (AT_REST, PULLED) if isinstance(kind, Relay | RelayBoard) else ()
