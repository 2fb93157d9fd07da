"""Which labels of a harness are wanted: of a plug before it is cut, of some names only, of what changed.

Knows labels and harnesses, no stock.
"""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from harnessdoc.labels.label import Label, Role
from harnessdoc.labels.says import labels
from harnessdoc.model.harness import End, Harness, Stub, Wire
from harnessdoc.model.points import Point
from harnessdoc.routing import Routing, route_harness


class UnknownNameError(ValueError):
    """A name that nothing in the harness has; the message says what was meant perhaps."""


def as_if_cut(harness: Harness, plug: str) -> Harness:
    """Return the harness as it will be when every wire that sits in a plug is cut there: a stub and a tail for each.

    A wire that was cut already, or whose both ends sit in the plug, stays as it is. Raises UnknownNameError.
    """
    if plug not in harness.plugs:
        raise UnknownNameError(_unknown(plug, harness.plugs, "plug"))
    wires, stubs = dict(harness.wires), dict(harness.stubs)
    for wire in harness.wires.values():
        here = [point for point in wire.points if point.owner == plug]
        if wire.was_at is None and len(here) == 1 and here[0] not in harness.stubs:
            wires[wire.name] = _cut(wire, here[0])
            stubs.setdefault(here[0], Stub(here[0], wire.colour, wire.size, wire=wire.name))
    return replace(harness, wires=wires, stubs=stubs)


def _cut(wire: Wire, point: Point) -> Wire:
    a, b = (End(tail=True) if end.point == point else end for end in wire.ends)
    return replace(wire, a=a, b=b, was_at=point)


def of_plug(harness: Harness, plug: str, routing: Routing | None = None) -> tuple[Label, ...]:
    """Return what is tied on before a plug is cut, cavity by cavity: its own label, stubs, and wires' loom sides.

    `harness`: as `as_if_cut` gives it.
    """
    return tuple(one for one in labels(harness, routing) if one.at is not None and one.at.owner == plug)


def named(harness: Harness, found: Iterable[Label], names: Sequence[str]) -> tuple[Label, ...]:
    """Return the labels that have to do with one of these names: wires, cables, plugs, cavities, joints, items,

    circuits, places, runs, or roles (`stub`). Raises UnknownNameError for a name that is nothing here.
    """
    known = _names(harness)
    for name in names:
        if name not in known:
            raise UnknownNameError(_unknown(name, known, "wire, plug, item, circuit, place or run"))
    wanted = frozenset(names)
    return tuple(one for one in found if wanted & _names_of(harness, one))


def differing(now: Iterable[Label], before: Iterable[Label]) -> tuple[Label, ...]:
    """Return the labels that say something that none of `before` says; of equal ones as many as there are more."""
    left = Counter(one.content for one in before)
    found = []
    for one in now:
        if left[one.content]:
            left[one.content] -= 1
        else:
            found.append(one)
    return tuple(found)


def select(
    harness: Harness,
    routing: Routing,
    *,
    before_cut: str | None = None,
    only: Sequence[str] = (),
    changed_since: Harness | None = None,
) -> tuple[Harness, Routing, tuple[Label, ...]]:
    """Return the wanted labels in working order, and the harness and routing that they speak of.

    Raises UnknownNameError.
    """
    if before_cut is not None:
        harness = as_if_cut(harness, before_cut)
        routing = route_harness(harness)
        found = of_plug(harness, before_cut, routing)
    else:
        found = labels(harness, routing)
    if only:
        found = named(harness, found, only)
    if changed_since is not None:
        old = changed_since
        if before_cut is not None and before_cut in old.plugs:
            old = as_if_cut(old, before_cut)
        found = differing(found, labels(old))
    return harness, routing, found


def _names_of(harness: Harness, one: Label) -> set[str]:
    wire = harness.wires.get(one.wire)
    names = {one.wire, one.role.value, one.place or "", *one.circuits, (wire.cable if wire else None) or ""}
    for point in (one.point, one.at):
        if point is not None:
            names |= {point.owner, str(point)}
    return names - {""}


def _names(harness: Harness) -> set[str]:
    many = (harness.wires, harness.cables, harness.plugs, harness.items, harness.splices, harness.by_circuit)
    names = {name for group in (*many, harness.places) for name in group}
    names |= {run.name for run in harness.runs} | {role.value for role in Role} | set(map(str, harness.points()))
    return names


def _unknown(name: str, known: Iterable[str], what: str) -> str:
    near = difflib.get_close_matches(name, sorted(known), 1)
    return f"no {what} is called {name!r:.60}" + (f"; did you mean {near[0]}?" if near else "")
