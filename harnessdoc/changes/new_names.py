"""A harness told in other names: every place where a name stands, from wires' ends to readings. Finds no names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TypeVar

from harnessdoc.model.harness import End, Harness
from harnessdoc.model.points import Point

Names = Mapping[str, str]
"""Old name to new name."""
T = TypeVar("T")


def in_new_names(harness: Harness, owners: Names, circuits: Names, places: Names) -> Harness:
    """The harness with its items, plugs, splices, circuits and places called by their new names."""
    if not (owners or circuits or places):
        return harness
    name = _namer(owners)
    place, circuit = _namer(places), _namer(circuits)

    def point(at: Point) -> Point:
        return Point(name(at.owner), at.terminal) if at.owner in owners else at

    def end(one: End) -> End:
        return replace(one, point=point(one.point)) if one.point is not None else one

    def named(text: str) -> str:
        owner, colon, terminal = text.partition(":")
        return f"{name(owner)}{colon}{terminal}"

    def maybe(make: Callable[[T], T], value: T | None) -> T | None:
        return None if value is None else make(value)

    return replace(
        harness,
        places={place(n): replace(p, name=place(n)) for n, p in harness.places.items()},
        runs=tuple(replace(run, a=place(run.a), b=place(run.b)) for run in harness.runs),
        items={name(n): replace(p, name=name(n), place=maybe(place, p.place)) for n, p in harness.items.items()},
        plugs={
            name(n): replace(p, name=name(n), place=maybe(place, p.place), mates_with=maybe(name, p.mates_with))
            for n, p in harness.plugs.items()
        },
        wires={
            n: replace(w, a=end(w.a), b=end(w.b), circuit=maybe(circuit, w.circuit), was_at=maybe(point, w.was_at))
            for n, w in harness.wires.items()
        },
        splices={
            name(n): replace(
                p,
                name=name(n),
                place=maybe(place, p.place),
                between=(place(p.between[0]), place(p.between[1])) if p.between else None,
            )
            for n, p in harness.splices.items()
        },
        stubs={
            point(at): replace(s, point=point(at), joined_at=maybe(point, s.joined_at))
            for at, s in harness.stubs.items()
        },
        circuits={
            circuit(n): replace(c, name=circuit(n), items=tuple(map(name, c.items)))
            for n, c in harness.circuits.items()
        },
        lost_functions={
            n: replace(lost, module=maybe(name, lost.module), replaced_by=tuple(map(name, lost.replaced_by)))
            for n, lost in harness.lost_functions.items()
        },
        operation=tuple(
            replace(
                line,
                when={name(device): position for device, position in line.when.items()},
                live=tuple(map(named, line.live)),
                dead=tuple(map(named, line.dead)),
            )
            for line in harness.operation
        ),
        readings=tuple(
            replace(
                one,
                between=(point(one.between[0]), point(one.between[1])),
                when={name(device): position for device, position in one.when.items()},
            )
            for one in harness.readings
        ),
    )  # fmt: skip


def with_wire_names(harness: Harness, wires: Names, cables: Names) -> Harness:
    wire, cable = _namer(wires), _namer(cables)
    return replace(
        harness,
        wires={
            wire(n): replace(w, name=wire(n), cable=cable(w.cable) if w.cable is not None else None)
            for n, w in harness.wires.items()
        },
        cables={cable(n): replace(c, name=cable(n)) for n, c in harness.cables.items()},
        stubs={
            at: replace(s, wire=wire(s.wire)) if s.wire is not None else s for at, s in harness.stubs.items()
        },
    )  # fmt: skip


def _namer(names: Names) -> Callable[[str], str]:
    return lambda name: names.get(name, name)
