"""What is joined to a source's feed or return with no switch between. An isolator at the battery counts as no switch.

By potentials of the network; knows no voltages and no states."""

from __future__ import annotations

from harnessdoc.checks.rule import Case
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import CHASSIS, Point

STEADY = frozenset({Nature.JOINED, Nature.PROTECTED})
LEAST_BEHIND = 2
"""An isolator in the return has more items behind it than itself and one load."""


def steady(case: Case, side: Side) -> frozenset[int]:
    """Potentials that copper, fuses and isolators alone join to a source's feed, or to its return and the chassis."""
    potential = case.network.potential
    found = [
        potential[Point(name, terminal)]
        for name, item in case.harness.items.items()
        for terminal, its_side in item.kind.sides().items()
        if its_side is side
    ]
    for number in tuple(found):
        found += _behind_isolator(case, number, side)
    if side is Side.RETURN and CHASSIS in potential:
        found.append(potential[CHASSIS])
    return case.network.reached(found, STEADY)


def _behind_isolator(case: Case, number: int, side: Side) -> list[int]:
    """Potentials behind a switch right at the source, with fuses behind it, which is left on while the machine works.

    On the return side it is an isolator only where nothing else returns to the source but through it."""
    if side is Side.RETURN and not _only_contacts(case, number):
        return []
    found: list[int] = []
    for inner in case.network.ways.get(number, ()):
        if inner.path.nature is Nature.CONTACT and isinstance(case.harness.items[inner.item].kind, Switch):
            far = {case.network.potential[inner.a], case.network.potential[inner.b]} - {number}
            found += [one for one in far if _shared(case, one, side)]
    return found


def _shared(case: Case, number: int, side: Side) -> bool:
    """Whether what lies behind a switch serves more than one load: fuses on the feed side, many items on the other."""
    there = owners(case, number)
    if side is Side.FEED:
        return any(isinstance(case.harness.items[name].kind, Fuse) for name in there)
    return len(there) > LEAST_BEHIND


def _only_contacts(case: Case, number: int) -> bool:
    """Whether a source's potential meets nothing but the source and contacts of one switch."""
    others = [item for item in map(case.harness.items.get, owners(case, number)) if item and not item.kind.sides()]
    chassis = case.network.potential.get(CHASSIS) == number
    return not chassis and len(others) == 1 and isinstance(others[0].kind, Switch)


def owners(case: Case, number: int) -> set[str]:
    """Items that have a terminal on a potential."""
    return {point.owner for point in case.network.members[number]} & set(case.harness.items)
