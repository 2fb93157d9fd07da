"""The routing of a harness: each wire's way and length, each run's wires and bundle. Pure; gives no verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property
from typing import Literal, NamedTuple

from harnessdoc.model.harness import Harness, Wire
from harnessdoc.model.record import record
from harnessdoc.routing.bundles import Bundle, bundle_diameter_mm
from harnessdoc.routing.ways import Ways
from harnessdoc.tables.outside_diameters import outside_diameter_mm

Origin = Literal["stated", "by runs"]


class WireRoute(NamedTuple):
    """One wire's way. `runs`: indices into Harness.runs in order, () within one place, None if not known.

    `length_mm` with its `origin`: "stated" in the file, or "by runs", the sum of the runs' lengths with nothing
    added for ends and slack; both None where nobody knows.
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
    routes = {wire.name: _route(harness, ways, wire) for wire in harness.wires.values()}
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


def _route(harness: Harness, ways: Ways, wire: Wire) -> WireRoute:
    a, b = harness.place_of(wire.a.point), harness.place_of(wire.b.point)
    runs = ways.between(a, b) if a is not None and b is not None else None
    if wire.length_mm is not None:
        return WireRoute(wire.name, runs, wire.length_mm, "stated")
    lengths = [harness.runs[run].length_mm for run in runs or ()]
    known = [length for length in lengths if length is not None]
    if not lengths or len(known) < len(lengths):
        return WireRoute(wire.name, runs)
    return WireRoute(wire.name, runs, sum(known), "by runs")


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
