"""A plug's cavity carries more than the plug states for one of its contacts.

Why: a contact that is too small for its current grows hot, loses its spring, and melts the housing.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      M1: {is: load, amps: 15 A, at: 12 V}
    plugs:
      X1: {face: rect-1x2, rating: 10 A, mates with: X2}
      X2: {face: rect-1x2, mates with: X1}
    wires:
      W1: {from: G1:+, to: X1:1, size: 4 mm2, length: 100 mm}
      W2: {from: X2:1, to: M1:1, size: 4 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 4 mm2, length: 100 mm}

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      M1: {is: load, amps: 15 A, at: 12 V}
    plugs:
      X1: {face: rect-1x2, rating: 20 A, mates with: X2}
      X2: {face: rect-1x2, mates with: X1}
    wires:
      W1: {from: G1:+, to: X1:1, size: 4 mm2, length: 100 mm}
      W2: {from: X2:1, to: M1:1, size: 4 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 4 mm2, length: 100 mm}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.drawn import amps, assumed_draws, not_settled, worst_words
from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Plug
from harnessdoc.model.points import Point

RULE = Rule(
    "overloaded-cavity",
    Severity.DANGER,
    "a plug's contact that carries more than it is made for melts its housing",
    CONTRADICTION.replace("what the file says elsewhere", "the rating that the file states"),
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold the worst current of the wires in each cavity against the plug's rating, where it states one."""
    rated = [plug for plug in case.harness.plugs.values() if plug.rating_a is not None]
    for plug in rated:
        for cavity in plug.terminals:
            yield from _of_cavity(case, plug, Point(plug.name, cavity))
    if rated:
        yield from not_settled(case, RULE)


def _of_cavity(case: Case, plug: Plug, point: Point) -> Iterator[Finding]:
    for wire, _ in case.harness.landings.get(point, ()):
        worst = case.study.worst_of_part(wire.name)
        if worst is not None and plug.rating_a is not None and worst.amps > plug.rating_a:
            text = f"{point} carries {worst_words(case, worst)} by {wire.name}; {plug.name}'s cavities are rated "
            text += amps(plug.rating_a) + assumed_draws(case, wire.name)
            mend = "share the current between cavities with a wire each, or take it past the plug"
            severity = Severity.FAULT if worst.bound else Severity.DANGER
            yield RULE.finding(str(point), text, mend, plug.mark, circuits=(wire.circuit,), severity=severity)
