"""A part of the circuit that was not computed, or rests on a figure that nobody stated.

Why: what was not computed must not pass for sound. Finds nothing; it says what the other rules could not look at.

Trips:
    items: {G1: {is: battery, volts: 12.6 V}, M1: {is: load}}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}

Passes:
    items: {G1: {is: battery, volts: 12.6 V}, M1: {is: load, amps: 1 A, at: 12 V}}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import Case, Rule
from harnessdoc.checks.seen import in_state
from harnessdoc.electrics.islands import MOST_STATES, Island
from harnessdoc.model.finding import NotVerified, Severity
from harnessdoc.model.mark import NOWHERE, Mark
from harnessdoc.model.quantities import format_amps, plain_number

RULE = Rule(
    "not-settled",
    Severity.DOUBT,
    "what was not computed must not pass for sound",
    f"most states settled in one island: {MOST_STATES}; no outside limit",
)
MATTERS_A = 1.0
"""A wire of unknown size or length that carries less changes little. Common practice, no source."""
MANY = 1_000_000
SHOWN = 6
"""So many names are listed, then how many more there are."""


def check(case: Case) -> Iterator[NotVerified]:
    """Islands with too many states; outcomes that did not converge; parts left out; wires on assumed figures."""
    grouped: dict[frozenset[str], list[Island]] = {}
    for island in case.study.too_many:
        grouped.setdefault(frozenset(island.devices), []).append(island)
    for islands in grouped.values():
        yield _too_many(case, islands)
    yield from _inexact(case)
    for note in case.study.circuit.left_out:
        if note.about in case.harness.items:  # unknown ends of wires are asked for already
            yield RULE.unverified(
                note.about, f"{note.about} is left out of all that is computed: {note.text}", _mark(case, note.about)
            )
    yield from _assumed(case)


def _too_many(case: Case, islands: list[Island]) -> NotVerified:
    """One line for all islands that hang on the same devices."""
    devices = list(islands[0].devices)
    own = {case.study.circuit.branches[index].part for island in islands for index in island.own}
    parts = [name for name in case.harness.items if name in own and name not in devices]
    states = plain_number(islands[0].states) if islands[0].states < MANY else "over a million"
    text = (
        f"{_listed(devices)} have {states} positions together, more than {MOST_STATES}:"
        f" currents and voltages of {_listed(parts) or 'what they switch'} are not computed in any"
    )
    about = devices[0]
    return RULE.unverified(about, text, _mark(case, about))


def _inexact(case: Case) -> Iterator[NotVerified]:
    for studied in case.study.studied:
        state = next((state for state, settled in studied.outcomes if not settled.exact), None)
        if state is not None:
            name = studied.island.name
            text = f"{name} and what goes with it settle to no figures {in_state(case, state)}: can the supply give it?"
            yield RULE.unverified(name, text, _mark(case, name))


def _assumed(case: Case) -> Iterator[NotVerified]:
    for note in case.study.circuit.assumptions:
        if note.about not in case.harness.wires:
            continue
        worst = case.study.worst_of_part(note.about)
        if worst is not None and worst.amps >= MATTERS_A:
            text = f"{note.about} carries {format_amps(worst.amps, 2)}: {note.text}"
            yield RULE.unverified(note.about, text, _mark(case, note.about))


def _listed(names: list[str]) -> str:
    more = f" and {len(names) - SHOWN} more" if len(names) > SHOWN else ""
    return ", ".join(names[:SHOWN]) + more


def _mark(case: Case, name: str) -> Mark:
    part = case.harness.items.get(name) or case.harness.wires.get(name)
    return part.mark if part is not None else NOWHERE
