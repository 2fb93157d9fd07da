"""A feed goes on in thinner wire with no fuse or breaker between, and the fuse before does not protect the thin one.

Why: the fuse was chosen for the thicker wire; a short at the end of the thin one heats it before the fuse opens.

A step is no fault where the fuse before protects the thin wire too: what it passes is at most 150 % (33 CFR 183.455) of
what the table gives for the wire. A feed with no fuse at all is said by the rule on unprotected feeds.

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
from typing import NamedTuple

from harnessdoc.checks.drawn import amps
from harnessdoc.checks.rule import Case, Rule
from harnessdoc.electrics.network import Inner, never_together
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Wire
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.points import Point
from harnessdoc.tables.fuses import LAW, MOST_SHARE

RULE = Rule(
    "step-down-unprotected",
    Severity.DOUBT,
    "a fuse protects the wire it was chosen for; thinner wire behind it can burn before the fuse opens",
    f"{LAW}: below 50 V not above 150 % of the Table 5 amperage of the conductor it protects",
)
NO_STEP = 0.95
"""A wire counts as thinner below this share of the copper before it: 14 AWG after 2 mm² is no step."""
_GOES_ON = frozenset({Nature.CONTACT, Nature.JOINED, Nature.PROTECTED})


class _Way(NamedTuple):
    """How far a walk has come: the thickest wire since the last fuse, that fuse, and the last contact passed."""

    before: Wire | None = None
    fuse: str = ""
    contact: Inner | None = None

    @property
    def copper_mm2(self) -> float:
        return self.before.size.area_mm2 if self.before and self.before.size else 0.0


class _Step(NamedTuple):
    """A wire that is thinner than the one before it, and the fuse before both; "" for none."""

    thin: Wire
    thick: Wire
    fuse: str


def check(case: Case) -> Iterator[Finding]:
    """Follow each feed outward from its source and watch the copper get thinner; a fuse begins anew."""
    for step in _steps(case):
        thin, thick = step.thin, step.thick
        if not step.fuse or (thin.existing and thick.existing):
            continue
        passes, limit = _passes_a(case, step), case.limits.of(thin)
        takes = None if limit is None else MOST_SHARE * (limit.most_a if limit.too_warm else limit.least_a)
        if passes is not None and takes is not None and passes <= takes:
            continue
        text = f"carries a feed on in {_size(thin)} behind {thick.name} of {_size(thick)} with no fuse between, both"
        text += f" behind {step.fuse}" + (
            f", which passes {amps(passes)}" if passes is not None else ", of unknown rating"
        )
        if limit is not None and takes is not None:
            text += f"; {_size(thin)} takes {amps(takes)} at most" + (f"; {limit.assumed}" if limit.assumed else "")
        yield RULE.on_wire(thin, text, f"put a fuse for {_size(thin)} where {thin.name} begins")


def _passes_a(case: Case, step: _Step) -> float | None:
    """What the fuse before the thin wire passes for long, in A; None if unknown."""
    guards = case.protection.guards.get(step.thin.name, {})
    passes = [case.protection.passes[guard] for guard in guards if guard[0] == step.fuse]
    return passes[0] if passes else case.protection.rating_a(step.fuse)


def _size(wire: Wire) -> str:
    return wire.size.written if wire.size else "unknown size"


def _steps(case: Case) -> Iterator[_Step]:
    """Walk outward from all sources; each wire is named once, with the thickest wire found before it."""
    conductors, ways = _conductors(case), _ways(case)
    seen: dict[tuple[Point, str, Inner | None], float] = {}
    found: dict[str, _Step] = {}
    todo: deque[tuple[Point, _Way]] = deque((start, _Way()) for start in _sources(case))
    while todo:
        point, way = todo.popleft()
        key = (point, way.fuse, way.contact)
        if seen.get(key, -1.0) >= way.copper_mm2:
            continue
        seen[key] = way.copper_mm2
        for wire, far in conductors.get(point, ()):
            if wire is way.before:
                continue
            if wire.size and way.before and wire.size.area_mm2 < way.copper_mm2 * NO_STEP:
                found.setdefault(wire.name, _Step(wire, way.before, way.fuse))
            if far is not None:
                todo.append((far, _Way(wire if wire.size else way.before, way.fuse, way.contact)))
        for inner in ways.get(point, ()):
            # No way back through the fuse just passed: the other side was walked before it.
            if inner.item != way.fuse and not never_together(way.contact, inner):
                todo.append((inner.b if inner.a == point else inner.a, _through(inner, way)))
    yield from found.values()


def _through(inner: Inner, way: _Way) -> _Way:
    nature = inner.path.nature
    if nature is Nature.PROTECTED:
        return _Way(None, inner.item, way.contact)
    return _Way(way.before, way.fuse, inner if nature is Nature.CONTACT else way.contact)


def _conductors(case: Case) -> dict[Point, list[tuple[Wire, Point | None]]]:
    """Point to the wires and stubs there, each with its far point. Mated cavities are ends of a wire of any size."""
    found: dict[Point, list[tuple[Wire, Point | None]]] = {}
    for wire in case.protection.conductors.values():
        for near, far in ((wire.a.point, wire.b.point), (wire.b.point, wire.a.point)):
            if near is not None:
                found.setdefault(near, []).append((wire, far))
    return found


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
