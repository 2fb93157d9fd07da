"""What is drawn where: a station for each place, with its items, plugs, splices and wire ends. Knows no paper.

Splices on a run have a station of their own. Where no place is stated at all, each plug gets a station with the parts
that wires join to it first, and what no plug is joined to goes by circuit.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from harnessdoc.model.harness import End, Harness, Item, Plug, Splice, Wire
from harnessdoc.model.quantities import format_celsius
from harnessdoc.routing import splice_spot

NOT_STATED = "place not stated"
_Key = tuple[str, str]  # ("place" | "round" | "circuit" | "none" | "run", name or the run's index)
_NOWHERE: _Key = ("none", "")


@dataclass(frozen=True, slots=True)
class EndRow:
    """One wire as listed at a station: the end that is here, the other, and the number of its station."""

    wire: Wire
    here: End
    there: End
    there_station: int | None


@dataclass(frozen=True, slots=True)
class Station:
    """A numbered spot of the drawing. `about`: zone and temperature, as printed.

    `label`: its number as drawn, or those of both places for splices on the run between them; `run`: that run."""

    number: int
    name: str
    about: str
    items: tuple[str, ...]
    plugs: tuple[str, ...]
    splices: tuple[str, ...]
    rows: tuple[EndRow, ...] = ()
    label: str = ""
    run: int | None = None

    @property
    def owners(self) -> tuple[str, ...]:
        """All designations at this station: plugs, items, splices."""
        return (*self.plugs, *self.items, *self.splices)


@dataclass(frozen=True, slots=True)
class Link:
    """Two stations that are joined, by their index: by a run (its index) or, where none is stated, by so many wires.

    Neither: by two plugs that mate."""

    a: int
    b: int
    run: int | None
    wires: int = 0


@dataclass(frozen=True, slots=True)
class Plan:
    """All stations (those on runs last), what links them, and the ends that nobody knows or that are not landed."""

    stations: tuple[Station, ...]
    links: tuple[Link, ...]
    loose: tuple[EndRow, ...]


def plan(harness: Harness) -> Plan:
    """Return the harness spread over stations. Each end of a wire is listed at its station, or as loose."""
    keys = _keys(harness)
    order = _order(harness, keys)
    index = {key: number for number, key in enumerate(order)}
    rows: list[list[EndRow]] = [[] for _ in order]
    loose: list[EndRow] = []
    for wire in harness.wires.values():
        _list_wire(wire, keys, index, rows, loose)
    here: dict[_Key, list[str]] = {key: [] for key in order}
    for owner, key in keys.items():
        here[key].append(owner)
    stations = tuple(_station(harness, index, key, here[key], rows[n]) for n, key in enumerate(order))
    return Plan(stations, _links(harness, index, keys, rows), tuple(loose))


def _keys(harness: Harness) -> Mapping[str, _Key]:
    """Every owner, also one that wires name but nothing describes, to the key of its station."""
    described: dict[str, Item | Plug | Splice] = {**harness.items, **harness.plugs, **harness.splices}
    keys: dict[str, _Key] = {
        name: ("place", part.place) if part.place else _NOWHERE for name, part in described.items()
    }
    for name, splice in harness.splices.items():
        found = splice_spot(harness, splice)
        if found is not None and found.spot is not None:
            keys[name] = ("run", str(found.spot.run))
    for wire in harness.wires.values():
        keys.update({point.owner: _NOWHERE for point in wire.points if point.owner not in keys})
    if not harness.places and not harness.runs and all(key == _NOWHERE for key in keys.values()):
        keys.update(_by_circuit(harness))
        keys.update(_round_plugs(harness))
    return keys


def _by_circuit(harness: Harness) -> dict[str, _Key]:
    """Each part to the circuit that names it, else to that of its first wire."""
    found: dict[str, _Key] = {}
    for circuit in harness.circuits.values():
        for name in circuit.items:
            found.setdefault(name, ("circuit", circuit.name))
    for wire in harness.wires.values():
        for point in wire.points:
            if wire.circuit is not None:
                found.setdefault(point.owner, ("circuit", wire.circuit))
    return {name: key for name, key in found.items() if harness.terminals_of(name) is not None}


def _round_plugs(harness: Harness) -> dict[str, _Key]:
    """Each part to the plug that is the fewest wires away, in a tie to the one named first in the file."""
    joined: dict[str, dict[str, None]] = {}
    for wire in harness.wires.values():
        if wire.a.point and wire.b.point:
            joined.setdefault(wire.a.point.owner, {})[wire.b.point.owner] = None
            joined.setdefault(wire.b.point.owner, {})[wire.a.point.owner] = None
    found: dict[str, _Key] = {name: ("round", name) for name in harness.plugs}
    waiting = deque(found)
    while waiting:
        name = waiting.popleft()
        for other in joined.get(name, ()):
            if other not in found and harness.terminals_of(other) is not None:
                found[other] = found[name]
                waiting.append(other)
    return found


def _order(harness: Harness, keys: Mapping[str, _Key]) -> list[_Key]:
    """Places as in the file, then those that only runs or parts name, then the parts without a place."""
    order: dict[_Key, None] = {("place", name): None for name in harness.places}
    for run in harness.runs:
        order.update({("place", run.a): None, ("place", run.b): None})
    order.update({key: None for key in keys.values() if key != _NOWHERE and key[0] != "run"})
    if _NOWHERE in keys.values():
        order[_NOWHERE] = None
    order.update({("run", str(run)): None for run in range(len(harness.runs)) if ("run", str(run)) in keys.values()})
    return list(order)


def _list_wire(
    wire: Wire,
    keys: Mapping[str, _Key],
    index: Mapping[_Key, int],
    rows: list[list[EndRow]],
    loose: list[EndRow],
) -> None:
    at_a, at_b = (index[keys[end.point.owner]] if end.point is not None and not end.tail else None for end in wire.ends)
    for here, there, at, far in ((wire.a, wire.b, at_a, at_b), (wire.b, wire.a, at_b, at_a)):
        row = EndRow(wire, here, there, None if far is None else far + 1)
        if at is None:
            loose.append(row)
        else:
            rows[at].append(row)


def _station(
    harness: Harness, index: Mapping[_Key, int], key: _Key, here: Sequence[str], rows: list[EndRow]
) -> Station:
    what, name = key
    printed = {"place": name, "round": f"round {name}", "circuit": f"circuit {name}", "none": NOT_STATED}.get(what, "")
    about, label, run = "", str(index[key] + 1), None
    if what == "run":
        run = int(name)
        a, b = harness.runs[run].a, harness.runs[run].b
        printed = f"on the run {a} - {b}"
        label = f"{index['place', a] + 1}–{index['place', b] + 1}"
    if what == "place" and name in harness.places:
        place = harness.places[name]
        warm = format_celsius(place.warm_c) if place.warm_c is not None else ""
        about = ", ".join(filter(None, (place.zone, warm, place.about)))
    station = Station(
        index[key] + 1,
        printed,
        about,
        tuple(owner for owner in here if owner in harness.items),
        tuple(owner for owner in here if owner in harness.plugs),
        tuple(owner for owner in here if owner in harness.splices),
        label=label,
        run=run,
    )
    return replace(station, rows=_in_working_order(harness, station, rows))


def _in_working_order(harness: Harness, station: Station, rows: list[EndRow]) -> tuple[EndRow, ...]:
    """By plug and cavity, then by item and terminal, then splices: the order in which one works at the place."""
    owners = {name: number for number, name in enumerate(station.owners)}

    def place_in_order(row: EndRow) -> tuple[int, int]:
        point = row.here.point
        assert point is not None
        terminals = harness.terminals_of(point.owner) or ()
        terminal = terminals.index(point.terminal) if point.terminal in terminals else len(terminals)
        return owners.get(point.owner, len(owners)), terminal

    return tuple(sorted(rows, key=place_in_order))


def _links(
    harness: Harness, index: Mapping[_Key, int], keys: Mapping[str, _Key], rows: list[list[EndRow]]
) -> tuple[Link, ...]:
    if harness.runs:
        return tuple(
            Link(index["place", run.a], index["place", run.b], number)
            for number, run in enumerate(harness.runs)
            if run.a != run.b
        )
    counts: dict[tuple[int, int], int] = {}
    for at, listed in enumerate(rows):
        for row in listed:
            if row.there_station is not None and row.there_station - 1 > at:
                pair = (at, row.there_station - 1)
                counts[pair] = counts.get(pair, 0) + 1
    for pair in _mated(harness, {owner: index[key] for owner, key in keys.items()}):
        counts.setdefault(pair, 0)
    return _strongest_tree(counts)


def _mated(harness: Harness, station_of: Mapping[str, int]) -> Iterator[tuple[int, int]]:
    """Stations whose plugs mate."""
    for plug in harness.plugs.values():
        a, b = station_of.get(plug.name), station_of.get(plug.mates_with or "")
        if a is not None and b is not None and a != b:
            yield min(a, b), max(a, b)


def _strongest_tree(counts: Mapping[tuple[int, int], int]) -> tuple[Link, ...]:
    """A tree (or several) over the stations by the most wires between two (Kruskal)."""
    top: dict[int, int] = {}

    def head(node: int) -> int:
        while top.setdefault(node, node) != node:
            node = top[node]
        return node

    links = []
    for (a, b), count in sorted(counts.items(), key=lambda entry: (-entry[1], entry[0])):
        if head(a) != head(b):
            top[head(b)] = head(a)
            links.append(Link(a, b, None, count))
    return tuple(links)
