"""Words and figures that the rules on currents share: the worst current of a part, the state, what was assumed of it.

Values and words only; what they are held against is the rules' own."""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import Case, Rule
from harnessdoc.checks.seen import in_state
from harnessdoc.electrics.islands import Island
from harnessdoc.electrics.study import Worst
from harnessdoc.model.finding import NotVerified
from harnessdoc.model.mark import Mark
from harnessdoc.model.quantities import format_amps

LEAST_A = 0.01
"""Less than this counts as no current for wires and ratings."""


def amps(value: float) -> str:
    """A current as findings print it."""
    return format_amps(value, 3)


def worst_words(case: Case, worst: Worst) -> str:
    """`13.3 A with S1 on`, or for a sum `up to 57.9 A with all on at once`."""
    if worst.bound:
        return f"up to {amps(worst.amps)} with all on at once"
    return f"{amps(worst.amps)} {in_state(case, worst.state)}"


def assumed_draws(case: Case, part: str) -> str:
    """Which loads that draw while a part carries its worst current have an assumed draw, as a clause to put behind a
    text; "" if none has."""
    study, worst = case.study, case.study.worst_of_part(part)
    if worst is None:
        return ""
    own, drawing = set(study.by_part[part]), set()
    for load, indices in case.assumed_draws.items():
        home = next((study.home[i] for i in indices if i in study.home), None)
        if home is None or (own.isdisjoint(home.island.own) and own.isdisjoint(home.island.way)):
            continue
        seen = (settled for state, settled in home.outcomes if state is worst.state or worst.bound)
        if any(abs(settled.amps[i]) >= LEAST_A for settled in seen for i in indices):
            drawing.add(load)
    noted = [load for load in case.assumed_draws if load in drawing]
    return f"; assumed: what {', '.join(noted)} draw{'s' if len(noted) == 1 else ''}" if noted else ""


def mark_of(case: Case, name: str) -> Mark:
    """Where a wire or an item stands in the file."""
    owner = case.harness.wires.get(name) or case.harness.items.get(name)
    return owner.mark if owner else case.harness.title.mark


def circuits_of(case: Case, name: str) -> tuple[str, ...]:
    """The circuits that name an item."""
    return tuple(circuit.name for circuit in case.harness.circuits.values() if name in circuit.items)


def not_settled(case: Case, rule: Rule) -> Iterator[NotVerified]:
    """One line for each island whose currents are not known."""
    for island in case.study.too_many:
        text = f"{_named(case, island)}: {island.states} positions together are too many to compute its currents"
        yield rule.unverified(island.name, text, mark_of(case, island.name))


def _named(case: Case, island: Island) -> str:
    parts = sorted({case.study.circuit.branches[index].part for index in island.own})
    return f"{island.name} and {len(parts) - 1} more" if len(parts) > 1 else island.name
