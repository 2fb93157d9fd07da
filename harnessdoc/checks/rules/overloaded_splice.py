"""A splice carries more current than its method is rated for.

Why: a clamp or barrel above its rating loosens as it heats and cools. No published table rates splices; the maker's
figure is stated as `rating:`.

Trips:
    items: {G1: {is: battery, volts: 12 V}, M1: {is: load, amps: 30 A, at: 12 V}}
    splices: {J1: {method: lever clamp, rating: 20 A}}
    wires:
      W1: {from: G1:+, to: J1, size: 6 mm2, length: 100 mm}
      W2: {from: J1, to: M1:1, size: 6 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 6 mm2, length: 100 mm}

Passes:
    items: {G1: {is: battery, volts: 12 V}, M1: {is: load, amps: 15 A, at: 12 V}}
    splices: {J1: {method: lever clamp, rating: 20 A}}
    wires:
      W1: {from: G1:+, to: J1, size: 6 mm2, length: 100 mm}
      W2: {from: J1, to: M1:1, size: 6 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 6 mm2, length: 100 mm}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.drawn import amps, assumed_draws, not_settled, worst_words
from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.points import Point

RULE = Rule(
    "overloaded-splice",
    Severity.DANGER,
    "a joint above its rating loosens as it heats and cools",
    CONTRADICTION.replace("what the file says elsewhere", "the rating that the file states"),
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold the worst current of any wire at a splice against the splice's rating, where it states one."""
    rated = [splice for splice in case.harness.splices.values() if splice.rating_a is not None]
    for splice in rated:
        for wire, _ in case.harness.landings.get(Point(splice.name), ()):
            worst = case.study.worst_of_part(wire.name)
            if worst is not None and splice.rating_a is not None and worst.amps > splice.rating_a:
                yield RULE.finding(
                    splice.name,
                    f"{splice.name} carries {worst_words(case, worst)} by {wire.name}; it is rated "
                    + amps(splice.rating_a)
                    + assumed_draws(case, wire.name),
                    "take a joint of a higher rating, or share the current",
                    splice.mark,
                    circuits=(wire.circuit,),
                    severity=Severity.FAULT if worst.bound else Severity.DANGER,
                )
                break
    if rated:
        yield from not_settled(case, RULE)
