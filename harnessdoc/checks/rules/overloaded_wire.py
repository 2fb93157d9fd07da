"""A wire carries more than the table allows for its size, its insulation and where it lies.

Why: copper that carries too much for long grows hotter than its insulation stands, inside a loom where nobody sees it.

The limit: 33 CFR 183.425 Table 5, or ISO 10133 where the harness says `ampacity rule: ISO 10133`; at the warmest place
on the wire's way, an engine space counting at least as 50 °C. `insulation` of the wire, else of the harness, else the
lowest there is. Bundling factors are law from 50 V up; below they give no more than a doubt, and none about wires that
were there before.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      F1: {is: fuse, rating: 30 A}
      M1: {is: load, amps: 30 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 6 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 1 mm2, length: 100 mm, insulation: 105 C}
      W3: {from: M1:2, to: G1:-, size: 6 mm2, length: 100 mm}

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      F1: {is: fuse, rating: 30 A}
      M1: {is: load, amps: 18 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 6 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 1 mm2, length: 100 mm, insulation: 105 C}
      W3: {from: M1:2, to: G1:-, size: 6 mm2, length: 100 mm}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.drawn import LEAST_A, amps, assumed_draws, not_settled, worst_words
from harnessdoc.checks.rule import Case, Rule
from harnessdoc.checks.wire_limits import Limit, grouped_a, loaded_beside
from harnessdoc.electrics.study import Worst
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Wire
from harnessdoc.model.quantities import format_celsius
from harnessdoc.tables.ampacity import LOWEST_C

RULE = Rule(
    "overloaded-wire",
    Severity.DANGER,
    "copper that carries too much for long grows hotter than its insulation stands",
    "33 CFR 183.425 Table 5, or ISO 10133 Table A.1 if the harness asks for it",
)
_GROUPED = "33 CFR 183.425 Table 5 note 2: law from 50 V up, below it common practice"


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold each wire's worst current against what it may carry."""
    worst: dict[str, Worst] = {}
    for name in case.harness.wires:
        found = case.study.worst_of_part(name)
        if found is not None and found.amps >= LEAST_A:
            worst[name] = found
    beside = loaded_beside(case.limits, {name: one.amps for name, one in worst.items()})
    for name, one in worst.items():
        yield from _of_wire(case, case.harness.wires[name], one, beside.get(name, 1))
    yield from _too_warm(case)
    for note in case.study.circuit.left_out:
        if "draw is not stated" in note.text:
            item = case.harness.items[note.about]
            yield RULE.unverified(item.name, f"{item.name}: {note.text}, nor is what its wires carry", item.mark)
    yield from not_settled(case, RULE)


def _of_wire(case: Case, wire: Wire, worst: Worst, beside: int) -> Iterator[Finding | NotVerified]:
    carries = f"{wire.name} carries {worst_words(case, worst)}"
    limit = case.limits.of(wire)
    if limit is None:
        yield RULE.unverified(wire.name, f"{carries}; {_unknown(case, wire)}", wire.mark)
    elif worst.amps > limit.most_a:
        yield _above(case, wire, worst, limit)
    elif worst.amps > limit.least_a and not limit.too_warm:
        text = f"{carries}; {_size(wire)} is good for {_allowed(limit.least_a, limit.how)}, or {amps(limit.most_a)}"
        text += f" with insulation for 105 °C; {limit.assumed}{assumed_draws(case, wire.name)}"
        mend = f"read the insulation's temperature off {wire.name} or its reel and state it, as in `insulation: 105 C`"
        yield _finding(wire, text, mend, limit.source, Severity.DOUBT)
    elif worst.amps > grouped_a(limit.most_a, beside) and not (wire.existing or worst.bound):
        most = grouped_a(limit.most_a, beside)
        text = f"{carries} among {beside} wires that carry current in one run: good for {amps(most)} there"
        yield _finding(wire, text, "take it out of the bundle, or lay a thicker one", _GROUPED, Severity.DOUBT)


def _too_warm(case: Case) -> Iterator[Finding]:
    """One doubt for all wires that lie too warm for the lowest insulation, where none is stated."""
    found = []
    for wire in case.harness.wires.values():
        limit = case.limits.of(wire)
        if limit is not None and limit.too_warm:
            found.append(wire)
    if found:
        warmest = max(case.limits.ambient_c(wire) for wire in found)
        names = ", ".join(wire.name for wire in found[:12]) + (
            f" and {len(found) - 12} more" if len(found) > 12 else ""
        )
        text = f"{names} {'lies' if len(found) == 1 else 'lie'} where it is up to {format_celsius(warmest)} warm; "
        text += f"insulation not stated, and one for {format_celsius(LOWEST_C)} would not stand it"
        mend = "read the temperature off the wires or their reel and state it, as in `insulation: 105 C`; "
        mend += "in the section `harness` for all that state none"
        yield _finding(found[0], text, mend, RULE.source, Severity.DOUBT)


def _unknown(case: Case, wire: Wire) -> str:
    if wire.size is None:
        return "its size is not known"
    stands = case.limits.insulation_c(wire)
    return f"no table gives insulation for {format_celsius(stands or 0.0)}"


def _above(case: Case, wire: Wire, worst: Worst, limit: Limit) -> Finding | NotVerified:
    carries = f"{wire.name} carries {worst_words(case, worst)}"
    if limit.remembered_a >= worst.amps:
        text = f"{carries}; {case.limits.rule} is remembered to give {amps(limit.remembered_a)}, which decides nothing"
        return RULE.unverified(wire.name, text, wire.mark)
    text = f"{carries}; {_size(wire)} is good for {_allowed(limit.most_a, limit.most_how)}"
    text += assumed_draws(case, wire.name)
    larger = case.limits.size_for(wire, worst.amps)
    mend = f"lay {larger} or thicker" if larger else "take the load down, or share it between circuits"
    severity = Severity.DOUBT if limit.remembered_a else Severity.FAULT if worst.bound else Severity.DANGER
    return _finding(wire, text, mend, limit.source, severity)


def _allowed(limit_a: float, how: str) -> str:
    return f"{amps(limit_a)} ({how})"


def _size(wire: Wire) -> str:
    return wire.size.written if wire.size else "unknown size"


def _finding(wire: Wire, text: str, mend: str, source: str, severity: Severity) -> Finding:
    return RULE.finding(
        wire.name, text, mend, wire.mark, circuits=(wire.circuit,), source=source, severity=severity
    )  # fmt: skip
