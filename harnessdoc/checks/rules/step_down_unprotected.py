"""A feed goes on in thinner wire with no fuse or breaker between.

Why: the fuse was chosen for the thicker wire; a short at the end of the thin one heats it before the fuse opens.

Trips:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 30 A}, S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    wires:
      W1: {from: F1:2, to: J1, size: 6 mm2}
      W2: {from: J1, to: S1:1, size: 1 mm2}
      W3: {from: G1:+, to: F1:1, size: 6 mm2}
    splices: {J1: {}}

Passes:
    items:
      G1: {is: battery}
      F1: {is: fuse, rating: 30 A}
      F2: {is: fuse, rating: 10 A}
      S1: {is: switch, contacts: {1-2: on}}
    wires:
      W1: {from: F1:2, to: F2:1, size: 6 mm2}
      W2: {from: F2:2, to: S1:1, size: 1 mm2}
      W3: {from: G1:+, to: F1:1, size: 6 mm2}
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.electrics.network import Inner
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Wire
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.points import Point

RULE = Rule(
    "step-down-unprotected",
    Severity.DOUBT,
    "a fuse protects the wire it was chosen for; thinner wire behind it can burn before the fuse opens",
    PRACTICE,
)
NO_STEP = 0.95
"""A wire counts as thinner below this share of the copper before it: 14 AWG after 2 mm² is no step."""
LEAD_MM = 178
_BY_LAW = "33 CFR 183.455: protection within 7 in (178 mm) of where a conductor begins"
_GOES_ON = frozenset({Nature.CONTACT, Nature.JOINED, Nature.PROTECTED})

Step = tuple[Wire, Wire, str]
"""The thinner wire, the thicker one before it, and what protects both ("" for nothing but the source)."""


def check(case: Case) -> Iterator[Finding]:
    """Follow each feed outward from its source and watch the copper get thinner; a fuse begins anew."""
    for thin, thick, fuse in _steps(case):
        if thin.existing and thick.existing:
            continue
        text = f"carries a feed on in {_size(thin)} behind {thick.name} of {_size(thick)} with no fuse between"
        if fuse:
            mend = f"show that {fuse} protects {_size(thin)}, or put a fuse where {thin.name} begins"
            yield RULE.on_wire(thin, f"{text}, both behind {fuse}", mend)
        else:
            mend = f"put a fuse for {_size(thin)} where {thin.name} begins"
            yield RULE.finding(
                thin.name, f"{thin.name} {text}, and none before", mend, thin.mark,
                circuits=(thin.circuit,), source=_BY_LAW, severity=Severity.FAULT,
            )  # fmt: skip


def _size(wire: Wire) -> str:
    return wire.size.written if wire.size else "unknown size"


def _steps(case: Case) -> Iterator[Step]:
    """Walk outward from all sources; each wire is named once, with the thickest wire found before it."""
    landings, ways = case.harness.landings, _ways(case)
    seen: dict[tuple[Point, str], float] = {}
    found: dict[str, Step] = {}
    todo: deque[tuple[Point, Wire | None, str]] = deque((start, None, "") for start in _sources(case))
    while todo:
        point, before, fuse = todo.popleft()
        copper = before.size.area_mm2 if before and before.size else 0.0
        if seen.get((point, fuse), -1.0) >= copper:
            continue
        seen[point, fuse] = copper
        for wire, end in landings.get(point, ()):
            if wire is before:
                continue
            other = wire.b if end is wire.a else wire.a
            if wire.size and before and wire.size.area_mm2 < copper * NO_STEP and not _is_lead(case, wire, other.point):
                found.setdefault(wire.name, (wire, before, fuse))
            if other.point is not None:
                todo.append((other.point, wire if wire.size else before, fuse))
        for inner in ways.get(point, ()):
            far = inner.b if inner.a == point else inner.a
            opens = inner.path.nature is Nature.PROTECTED
            todo.append((far, None if opens else before, inner.item if opens else fuse))
    yield from found.values()


def _is_lead(case: Case, wire: Wire, far: Point | None) -> bool:
    """A short lead to a fuse is what the law allows."""
    item = case.harness.items.get(far.owner) if far else None
    return isinstance(item and item.kind, Fuse) and wire.length_mm is not None and wire.length_mm <= LEAD_MM


def _sources(case: Case) -> Iterator[Point]:
    for name, item in case.harness.items.items():
        for terminal, side in item.kind.sides().items():
            if side is Side.FEED:
                yield Point(name, terminal)


def _ways(case: Case) -> dict[Point, list[Inner]]:
    ways: dict[Point, list[Inner]] = {}
    for inner in case.network.inner:
        if inner.path.nature in _GOES_ON:
            ways.setdefault(inner.a, []).append(inner)
            ways.setdefault(inner.b, []).append(inner)
    return ways
