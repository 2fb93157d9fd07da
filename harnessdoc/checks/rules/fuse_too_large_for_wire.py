"""A fuse lets more through for long than the wires behind it stand.

Why: the fuse protects the wire, not the load; one too large watches the wire burn.

Looked at is every wire that a feed reaches behind a fuse, up to the next one. Where two fuses can feed a wire at one
time their ratings add up; where a smaller fuse stands before a larger, the smaller counts. A controller or a switch
protects no wire.

Trips:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 40 A}, M1: {is: load, amps: 5 A, at: 12 V}}
    wires:
      W1: {from: G1:+, to: F1:1, size: 10 mm2}
      W2: {from: F1:2, to: M1:1, size: 1 mm2, insulation: 105 C}

Passes:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 30 A}, M1: {is: load, amps: 5 A, at: 12 V}}
    wires:
      W1: {from: G1:+, to: F1:1, size: 10 mm2}
      W2: {from: F1:2, to: M1:1, size: 1 mm2, insulation: 105 C}
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harnessdoc.checks.drawn import amps, circuits_of
from harnessdoc.checks.protection import Guard
from harnessdoc.checks.rule import Case, Rule
from harnessdoc.checks.wire_limits import Limit
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Wire
from harnessdoc.tables.fuses import LAW, MOST_SHARE

RULE = Rule(
    "fuse-too-large-for-wire",
    Severity.DANGER,
    "a fuse protects the wire behind it only if it opens before the wire grows too hot",
    f"{LAW}: below 50 V not above 150 % of the Table 5 amperage of the conductor it protects",
)


class _Behind(NamedTuple):
    wire: Wire
    limit: Limit
    passes_a: float

    @property
    def severity(self) -> Severity | None:
        """None where the fuse protects the wire for sure; also where the place is too warm for the insulation that was
        assumed, which is said of the wire itself."""
        least_a = self.limit.most_a if self.limit.too_warm else self.limit.least_a
        if self.passes_a <= MOST_SHARE * least_a:
            return None
        if self.passes_a <= MOST_SHARE * max(self.limit.most_a, self.limit.remembered_a) or self.limit.remembered_a:
            return Severity.DOUBT
        return Severity.DANGER


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """For each group of fuses that feed a wire at one time, hold what they pass against the weakest wire behind."""
    groups: dict[tuple[Guard, ...], list[Wire]] = {}
    bare = case.protection.bare
    for name, wire in case.protection.conductors.items():
        group = case.protection.together(name)
        if group and not any(point in bare for point in wire.points):
            groups.setdefault(tuple(sorted(group)), []).append(wire)
    for group, wires in groups.items():
        yield from _of_group(case, group, wires)


def _of_group(case: Case, group: tuple[Guard, ...], wires: list[Wire]) -> Iterator[Finding | NotVerified]:
    passes = [case.protection.passes[guard] for guard in group]
    known = [one for one in passes if one is not None]
    first = case.harness.items[group[0][0]]
    if len(known) < len(passes):
        unknown = [guard[0] for guard, one in zip(group, passes, strict=True) if one is None]
        text = f"{', '.join(unknown)}: rating not stated, so nothing shows that {_count(wires)} behind it is protected"
        yield RULE.unverified(first.name, text, first.mark)
        return
    passes_a = sum(known)
    behind = [_Behind(wire, limit, passes_a) for wire in wires if (limit := case.limits.of(wire)) is not None]
    unknown_size = [wire.name for wire in wires if wire.size is None and wire.name in case.harness.wires]
    if unknown_size:
        text = f"size of {', '.join(unknown_size)} not known, so nothing shows that {first.name} protects it"
        yield RULE.unverified(first.name, text, first.mark)
    for severity in (Severity.DANGER, Severity.DOUBT):
        found = [one for one in behind if one.severity is severity]
        if found:
            yield _finding(case, group, found, severity)


def _count(wires: list[Wire]) -> str:
    return wires[0].name if len(wires) == 1 else f"{wires[0].name} or any of {len(wires)} wires"


def _finding(case: Case, group: tuple[Guard, ...], found: list[_Behind], severity: Severity) -> Finding:
    weakest = min(found, key=lambda one: one.limit.most_a if severity is Severity.DANGER else one.limit.least_a)
    limit, wire = weakest.limit, weakest.wire
    names = [guard[0] for guard in group]
    others = [one.wire.name for one in found if one is not weakest]
    stands = limit.most_a if severity is Severity.DANGER else limit.least_a
    how = limit.most_how if severity is Severity.DANGER else limit.how
    size = wire.size.written if wire.size else ""
    text = (
        f"{_fuses(case, group)} {amps(weakest.passes_a)} to {wire.name} of {size}, which takes a fuse of"
        f" {amps(MOST_SHARE * stands)} at most (150 % of {how})"
    )
    if others:
        text += f"; also to {', '.join(others)}"
    if severity is Severity.DOUBT:
        text += f"; {limit.assumed}" if limit.assumed else "; what the table is remembered to give decides nothing"
        mend = "state the insulation's temperature, as in `insulation: 105 C`; else take a smaller fuse"
    else:
        mend = f"fit {amps(MOST_SHARE * stands)} or less at {names[0]}, or a fuse where {wire.name} begins"
    mark = case.harness.items[names[0]].mark
    circuits = (*circuits_of(case, names[0]), wire.circuit)
    return RULE.finding(names[0], text, mend, mark, circuits=circuits, severity=severity)


def _fuses(case: Case, group: tuple[Guard, ...]) -> str:
    """`F1 lets`, `F1 and F2 together let`, `F2 of 40 A behind F1 lets`."""
    names = [guard[0] for guard in group]
    if len(names) > 1:
        return f"{', '.join(names[:-1])} and {names[-1]} together let"
    rating, passes = case.protection.rating_a(names[0]), case.protection.passes[group[0]]
    before = ", ".join(guard[0] for guard in case.protection.before[group[0]])
    return f"{names[0]} behind {before} lets" if before and rating != passes else f"{names[0]} lets"
