"""Two fuses lie side by side in one feed.

Why: they never share the current evenly, so one opens early and the other right after it; and until then both together
let through what no wire behind them was chosen for.

Trips:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 10 A}, F2: {is: fuse, rating: 10 A}, M1: {is: load}}
    wires:
      W1: {from: G1:+, to: F1:1}
      W2: {from: F1:1, to: F2:1}
      W3: {from: F1:2, to: F2:2}
      W4: {from: F2:2, to: M1:1}

Passes:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 10 A}, F2: {is: fuse, rating: 10 A}, M1: {is: load}}
    wires:
      W1: {from: G1:+, to: F1:1}
      W2: {from: F1:1, to: F2:1}
      W4: {from: F2:2, to: M1:1}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.drawn import amps, circuits_of
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.points import Point

RULE = Rule(
    "parallel-fuses",
    Severity.FAULT,
    "fuses side by side do not share evenly, and together let through the sum of their ratings",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding]:
    """Find fuses and breakers whose two terminals are on the same two potentials."""
    between: dict[frozenset[int], list[str]] = {}
    for name, item in case.harness.items.items():
        if isinstance(item.kind, Fuse):
            sides = frozenset(case.network.potential[Point(name, terminal)] for terminal in ("1", "2"))
            between.setdefault(sides, []).append(name)
    for sides, names in between.items():
        if len(names) > 1 and len(sides) == 2:
            first = case.harness.items[names[0]]
            ratings = [case.protection.rating_a(name) for name in names]
            known = [rating for rating in ratings if rating is not None]
            total = f", {amps(sum(known))} together" if len(known) == len(ratings) else ""
            text = f"{', '.join(names[:-1])} and {names[-1]} lie side by side in one feed{total}"
            mend = "take one fuse of the rating that the wires behind it stand, or give each its own wires"
            yield RULE.finding(names[0], text, mend, first.mark, circuits=circuits_of(case, names[0]))
