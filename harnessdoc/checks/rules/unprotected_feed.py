"""A feed goes further from its source than the first stretch before a fuse or breaker stands in it, or has none at all.

Why: a source gives hundreds of amperes into a short, and nothing but the wire itself stops them.

The law for boats allows 7 in along the conductor, or 40 in where it is sheathed or enclosed all the way to the fuse:
in a cable's jacket, in runs that state a cover, or in a place whose zone is an enclosure (box, cabinet, panel). No
switch and no controller is protection. A source that states the most it gives, and wires that stand that, need no fuse.

Trips:
    items:
      G1: {is: battery}
      M1: {is: load}
    wires:
      W1: {from: G1:+, to: M1:1, size: 2.5 mm2, length: 1 m}
      W2: {from: M1:2, to: G1:-, size: 2.5 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery}
      F1: {is: fuse, rating: 20 A}
      M1: {is: load}
    wires:
      W1: {from: G1:+, to: F1:1, size: 2.5 mm2, length: 150 mm}
      W2: {from: F1:2, to: M1:1, size: 2.5 mm2, length: 1 m}
      W3: {from: M1:2, to: G1:-, size: 2.5 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.drawn import amps, circuits_of
from harnessdoc.checks.protection import Way
from harnessdoc.checks.rule import Case, Rule
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds.base import Nature
from harnessdoc.model.kinds.electronics import Module
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.sources import Battery, Source
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_length
from harnessdoc.tables.fuses import BATTERY_STRETCH_MM, FIRST_STRETCH_MM, LAW, SHEATHED_STRETCH_MM

RULE = Rule(
    "unprotected-feed",
    Severity.DANGER,
    "between source and fuse nothing but the wire itself stops a short circuit's current",
    f"{LAW}: within 7 in of the source along the conductor, 40 in if sheathed or enclosed all the way",
)
SLACK_MM = 0.5
"""Lengths are measured with a rule: 178 mm is 7 in, 1016 mm is 40 in."""
_STARTER = ("starter", "crank")


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Look at every fuse, every consumer and every open end that a source reaches with no fuse between."""
    harness, bare = case.harness, case.protection.bare
    done: set[str] = set()
    for point, way in bare.items():
        item = harness.items.get(point.owner)
        if item is None or item.name in done or not way.wires or _self_limiting(case, way):
            continue
        if isinstance(item.kind, Fuse):
            done.add(item.name)
            yield from _lead(case, item, way)
        elif _consumes(case, item, point) and not isinstance(item.kind, Source):
            done.add(item.name)
            yield _nothing(case, item, way)
    yield from _ends_and_joins(case)


def _self_limiting(case: Case, way: Way) -> bool:
    """Whether its source can't give more than each wire on the way stands."""
    kind = case.harness.items[way.source.owner].kind
    if not isinstance(kind, Source) or kind.amps_max is None:
        return False
    limits = [case.limits.of(case.protection.conductors[name]) for name in way.wires]
    return all(limit is not None and limit.least_a >= kind.amps_max for limit in limits)


def _consumes(case: Case, item: Item, point: Point) -> bool:
    """Whether the item draws at this terminal; what only passes a feed on does not."""
    if isinstance(item.kind, Module):
        return True
    return not case.protection.own_fuse_at(point) and any(
        path.nature is Nature.LOADED and point.terminal in (path.a, path.b) for path in item.kind.paths()
    )


def _along(way: Way) -> str:
    return f"from {way.source} along {', '.join(way.wires)}"


def _lead(case: Case, item: Item, way: Way) -> Iterator[Finding | NotVerified]:
    """The way from a source to a fuse."""
    if way.length_mm is None:
        yield RULE.unverified(item.name, f"{item.name}: how long is the way {_along(way)}?", item.mark)
        return
    judged = _judged(case, way, way.length_mm)
    if judged is not None:
        severity, why = judged
        text = f"{item.name} stands {format_length(way.length_mm)} {_along(way)}; {why}"
        yield _finding(case, item.name, text, f"set {item.name} nearer to {way.source}, or sheathe the way", severity)


def _judged(case: Case, way: Way, length_mm: float) -> tuple[Severity, str] | None:
    """How bad a bare way of that length is, and why; None if the law allows it."""
    if length_mm <= FIRST_STRETCH_MM + SLACK_MM:
        return None
    if length_mm <= SHEATHED_STRETCH_MM + SLACK_MM:
        if way.sheathed is None:
            return Severity.DOUBT, "that is allowed only sheathed or enclosed all the way, which nothing says"
        return None if way.sheathed else (Severity.FAULT, "that is allowed only sheathed or enclosed all the way")
    if length_mm <= BATTERY_STRETCH_MM and isinstance(case.harness.items[way.source.owner].kind, Battery):
        why = (
            "allowed are 40 in (1016 mm) sheathed; 72 in (1829 mm) from a battery are remembered, which decides nothing"
        )
        return Severity.FAULT, why
    return Severity.DANGER, "allowed are 40 in (1016 mm) sheathed, else 7 in"


def _nothing(case: Case, item: Item, way: Way) -> Finding | NotVerified:
    """A consumer with no fuse before it at all."""
    named = f"{item.name} {item.title}".casefold()
    text = f"{item.name} is fed {_along(way)} with no fuse or breaker on the way"
    if any(word in named for word in _STARTER):
        return RULE.unverified(item.name, f"{text}; the law is remembered to except starter motors", item.mark)
    worst = case.study.worst_of_part(item.name)
    if worst is not None and worst.amps >= 0.1:
        text += f"; what it draws itself, {amps(worst.amps)}, limits nothing in a short"
    mend = f"put a fuse for {_smallest(case, way)} at {way.source}"
    return _finding(case, item.name, text, mend, Severity.DANGER)


def _smallest(case: Case, way: Way) -> str:
    wires = [case.protection.conductors[name] for name in way.wires]
    sized = [wire for wire in wires if wire.size is not None]
    thin = min(sized, key=lambda wire: wire.size.area_mm2 if wire.size else 0.0, default=None)
    return f"{thin.name} of {thin.size}" if thin else f"{wires[0].name}"


def _ends_and_joins(case: Case) -> Iterator[Finding | NotVerified]:
    """Tails that are live and bare, ends that nobody knows, and ways that join two sources."""
    bare = case.protection.bare
    joined: set[frozenset[str]] = set()
    for wire in case.harness.wires.values():
        ways = [bare[point] for point in wire.points if point in bare]
        if len(ways) == 1 and len(wire.points) == 1 and not _self_limiting(case, ways[0]):
            text = f"{wire.name} hangs on {ways[0].source} with no fuse between"
            if any(end.tail for end in wire.ends):
                yield RULE.on_wire(wire, f"{text[len(wire.name) + 1 :]}, and ends in a tail", "take it off, or fuse it")
            else:
                yield RULE.unverified(wire.name, f"{text}; nobody knows where it goes", wire.mark)
        owners = frozenset(way.source.owner for way in ways)
        if len(owners) == 2 and owners not in joined:
            joined.add(owners)
            yield from _join(case, wire.name, ways)


def _join(case: Case, wire: str, ways: list[Way]) -> Iterator[Finding | NotVerified]:
    one, other = ways[:2]
    if _self_limiting(case, one) or _self_limiting(case, other):
        return
    names = tuple(dict.fromkeys((*one.wires, wire, *reversed(other.wires))))
    lengths = [case.protection.length_mm(case.protection.conductors[name]) for name in names]
    about = f"{one.source} and {other.source} are joined by {', '.join(names)} with no fuse between"
    known = [length for length in lengths if length is not None]
    if len(known) < len(lengths):
        yield RULE.unverified(wire, f"{about}; how long is that?", case.harness.wires[wire].mark)
        return
    sheathed = [case.protection.sheathed(case.protection.conductors[name]) for name in names]
    whole = Way(one.source, names, sum(known), False if False in sheathed else None if None in sheathed else True)
    judged = _judged(case, whole, sum(known))
    if judged is not None:
        mend = f"put a fuse at each of {one.source} and {other.source}"
        yield _finding(case, one.source.owner, f"{about}; {judged[1]}", mend, judged[0])


def _finding(case: Case, name: str, text: str, mend: str, severity: Severity) -> Finding:
    mark = case.harness.items[name].mark
    return RULE.finding(name, text, mend, mark, circuits=circuits_of(case, name), severity=severity)
