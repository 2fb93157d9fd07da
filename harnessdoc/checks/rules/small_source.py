"""Loads draw more than the source states that it can give.

Why: its voltage falls, or it switches off; relays drop out and electronics start again.

Trips:
    items:
      G1: {is: source, volts: 12 V, amps: 5 A}
      M1: {is: load, amps: 8 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1.5 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 1.5 mm2, length: 1 m}

Passes:
    items:
      G1: {is: source, volts: 12 V, amps: 10 A}
      M1: {is: load, amps: 8 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: M1:1, size: 1.5 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 1.5 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.drawn import amps, assumed_draws, circuits_of, not_settled, worst_words
from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.kinds.sources import Source

RULE = Rule(
    "small-source",
    Severity.FAULT,
    "a source that is asked for more than it gives loses its voltage or switches off",
    CONTRADICTION.replace("what the file says elsewhere", "the figure that the file states"),
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold the worst current of each source against the most that it states."""
    stated = False
    for item in case.harness.items.values():
        if not isinstance(item.kind, Source) or item.kind.amps_max is None:
            continue
        stated = True
        worst = case.study.worst_of_part(item.name)
        if worst is not None and worst.amps > item.kind.amps_max:
            text = f"{item.name} is asked for {worst_words(case, worst)} and gives {amps(item.kind.amps_max)} at most"
            text += assumed_draws(case, item.name)
            severity = Severity.DOUBT if worst.bound else Severity.FAULT
            yield RULE.finding(
                item.name, text, "fit a larger source, or see that not all is on at once", item.mark,
                circuits=circuits_of(case, item.name), severity=severity,
            )  # fmt: skip
    if stated:
        yield from not_settled(case, RULE)
