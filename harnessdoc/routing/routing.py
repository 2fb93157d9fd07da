"""The routing of a harness: each wire's way and length, each run's wires and bundle. Pure; gives no verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property
from typing import Literal, NamedTuple

from harnessdoc.model.harness import End, Harness, Wire
from harnessdoc.model.record import record
from harnessdoc.routing.bundles import Bundle, bundle_diameter_mm
from harnessdoc.routing.splice_spots import splice_spot
from harnessdoc.routing.ways import Spot, Ways
from harnessdoc.tables.outside_diameters import outside_diameter_mm

Origin = Literal["stated", "by runs"]


class WireRoute(NamedTuple):
    """One wire's way. `runs`: indices into Harness.runs in order, () within one place, None if not known.

    `length_mm` with its `origin`: "stated" in the file, or "by runs", the sum of the runs' lengths with nothing
    added for ends and slack; both None where nobody knows. Of a run with its splice on it only the share up to there
    counts, though the wire is in that run.
    """

    wire: str
    runs: tuple[int, ...] | None = None
    length_mm: float | None = None
    origin: Origin | None = None


@record(frozen=True)
class Routing:
    """All routes by wire, in the order of the file; `in_run` and `bundles` have one entry a run, by its index."""

    routes: Mapping[str, WireRoute] = field(default_factory=dict)
    in_run: tuple[tuple[str, ...], ...] = ()
    bundles: tuple[Bundle, ...] = ()

    @cached_property
    def unrouted(self) -> tuple[str, ...]:
        """Wires whose way is not known: no bundle counts them."""
        return tuple(name for name, route in self.routes.items() if route.runs is None)

    def length_mm(self, wire: str) -> float | None:
        """The wire's length in mm, stated or by runs, None if unknown. Raises KeyError for no such wire."""
        return self.routes[wire].length_mm


def route_harness(harness: Harness) -> Routing:
    """Return the routing of all wires along the runs, each by the shortest way (see `Ways.between`)."""
    ways = Ways(harness.runs)
    spots = _spots(harness)
    routes = {wire.name: _route(harness, ways, spots, wire) for wire in harness.wires.values()}
    in_run: list[list[str]] = [[] for _ in harness.runs]
    for route in routes.values():
        for run in route.runs or ():
            in_run[run].append(route.wire)
    names = tuple(tuple(wires) for wires in in_run)
    return Routing(routes, names, tuple(_bundle(harness, wires) for wires in names))


def outside_mm(harness: Harness, wire: Wire) -> float | None:
    """Return a wire's outside diameter in mm: as stated, else as printed for its size; None if unknown."""
    if wire.outside_mm is not None:
        return wire.outside_mm
    printed = outside_diameter_mm(wire.size) if wire.size else None
    return printed.value if printed else None


def _route(harness: Harness, ways: Ways, spots: Mapping[str, Spot], wire: Wire) -> WireRoute:
    a, b = (_where(harness, spots, end) for end in wire.ends)
    way = ways.way(a, b) if a is not None and b is not None else None
    runs = way.runs if way else None
    if wire.length_mm is not None:
        return WireRoute(wire.name, runs, wire.length_mm, "stated")
    length_mm = way.length_mm if way else None
    return WireRoute(wire.name, runs, length_mm, "by runs" if length_mm is not None else None)


def _where(harness: Harness, spots: Mapping[str, Spot], end: End) -> str | Spot | None:
    """The spot on a run, or else the place, where an end is."""
    if end.point is None:
        return None
    return spots.get(end.point.owner) or harness.place_of(end.point)


def _spots(harness: Harness) -> dict[str, Spot]:
    found = ((name, splice_spot(harness, splice)) for name, splice in harness.splices.items())
    return {name: on_run.spot for name, on_run in found if on_run is not None and on_run.spot is not None}


def _bundle(harness: Harness, wires: tuple[str, ...]) -> Bundle:
    """A cable counts once, with its jacket's diameter, however many of its cores pass."""
    diameters: dict[str, float | None] = {}
    for name in wires:
        wire = harness.wires[name]
        if wire.cable is not None and wire.cable in harness.cables:
            diameters[wire.cable] = harness.cables[wire.cable].outside_mm
        else:
            diameters[name] = outside_mm(harness, wire)
    known = [diameter for diameter in diameters.values() if diameter is not None]
    return Bundle(
        tuple(diameters),
        bundle_diameter_mm(known) if known else None,
        tuple(name for name, diameter in diameters.items() if diameter is None),
    )
