"""A splice joins more copper than its method holds.

Why: strands that are cut off to fit, or a barrel that can't close, make a joint that heats and falls apart.

Trips:
    splices: {J1: {method: crimp, barrel: blue}}
    items: {M1: {is: load}, M2: {is: load}, S1: {is: switch, contacts: {1-2: on}}}
    wires:
      W1: {from: S1:2, to: J1, size: 4 mm2}
      W2: {from: J1, to: M1:1, size: 1.5 mm2}

Passes:
    splices: {J1: {method: crimp, barrel: blue}}
    items: {M1: {is: load}, S1: {is: switch, contacts: {1-2: on}}}
    wires:
      W1: {from: S1:2, to: J1, size: 2.5 mm2}
      W2: {from: J1, to: M1:1, size: 2.5 mm2}
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from harnessdoc.checks.rule import Case, Rule
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Harness, Splice
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import plain_number
from harnessdoc.tables.barrels import SUM_OF_AREAS, most_copper_mm2

RULE = Rule(
    "overfull-splice",
    Severity.FAULT,
    "a barrel that can't close over all strands, or strands cut off to fit, make a joint that heats",
    SUM_OF_AREAS,
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Add up the copper at each splice and compare it with what the method holds."""
    for splice in case.harness.splices.values():
        areas, unknown = _copper(case.harness, splice)
        if len(areas) + unknown < 2:
            continue
        limit, source, sides = _limit(splice)
        if limit is None:
            if splice.method == "crimp":
                text = f"{splice.name}: neither barrel: nor holds: says how much copper the crimp takes"
                yield RULE.unverified(splice.name, text, splice.mark)
        elif unknown:
            yield RULE.unverified(splice.name, f"{splice.name}: {unknown} wires of unknown size", splice.mark)
        else:
            needed = _smallest_side(areas) if sides == 2 else sum(areas)
            if needed > limit * 1.001:
                parts = " + ".join(plain_number(area, 3) for area in areas)
                yield RULE.finding(
                    splice.name,
                    f"{splice.name} joins {parts} mm², at best {plain_number(needed, 3)} mm² on a side; "
                    f"it holds {plain_number(limit, 3)} mm²",
                    "take a larger barrel or another method, or make two joints",
                    splice.mark,
                    source=source,
                )


def _copper(harness: Harness, splice: Splice) -> tuple[list[float], int]:
    """Areas in mm² of all wires and stubs at the splice, and how many are unknown."""
    point = Point(splice.name)
    sizes = [wire.size for wire, _ in harness.landings.get(point, ())]
    sizes += [stub.size for stub in harness.stubs.values() if stub.joined_at == point]
    return [size.area_mm2 for size in sizes if size is not None], sum(size is None for size in sizes)


def _limit(splice: Splice) -> tuple[float | None, str, int]:
    """Copper in mm² that one side takes, its source, and how many sides the joint has."""
    if splice.holds_mm2 is not None:
        return splice.holds_mm2, f"{splice.name} states holds: {plain_number(splice.holds_mm2, 3)} mm²", 1
    figure = most_copper_mm2(splice.barrel) if splice.barrel else None
    if figure is None:
        return None, "", 1
    return figure.value, f"{figure.source}; {SUM_OF_AREAS}", 1 if splice.method == "closed end" else 2


def _smallest_side(areas: list[float]) -> float:
    """Of all ways to part the wires on the two sides of a butt barrel, the one whose fuller side is least full."""
    total = sum(areas)
    if len(areas) > 12:
        return total / 2
    picks = (sum(pick) for n in range(1, len(areas)) for pick in combinations(areas, n))
    return min(max(side, total - side) for side in picks)
