"""From a harness to its circuit: wires as resistances, items by their behaviour, joined points as one node."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from harnessdoc.electrics.behaviour import BEHAVIOUR, Builder
from harnessdoc.electrics.circuit import Assumption, Branch, Circuit
from harnessdoc.electrics.joining import Joining
from harnessdoc.electrics.network import Network, bonds
from harnessdoc.model.harness import Harness, Wire
from harnessdoc.model.kinds.base import Side
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import plain_number
from harnessdoc.routing.routing import Routing
from harnessdoc.tables.resistance import published_ohm_per_km, resistance_factor, solid_copper_ohm_per_km

LENGTH_MM = 1000.0
AREA_MM2 = 1.0
LEAST_OHM = 1e-5
STRANDED = 1.02
"""Stranded wire has about 2 % more than solid copper of the same area (conductor tables' note)."""


def build_circuit(network: Network, routing: Routing) -> Circuit:
    """The whole circuit at 20 °C or at what a wire's run is warm. Raises nothing: what can't be had is noted."""
    harness = network.harness
    nodes = _nodes(network)
    to = Builder(lambda point: nodes[point])
    for wire in harness.wires.values():
        _wire(to, harness, wire, routing)
    for item in harness.items.values():
        behaviour = BEHAVIOUR.get(type(item.kind))
        if behaviour is None:
            to.leave_out(item, f"nothing is known of the behaviour of a {item.kind.name}")
        else:
            behaviour(to, item, item.kind)
    grounds = tuple(dict.fromkeys(nodes[point] for point in _grounds(network) if point in nodes))
    return Circuit(
        nodes,
        max(nodes.values(), default=-1) + 1,
        tuple(to.branches),
        to.devices,
        tuple(to.coils),
        grounds,
        tuple(to.assumptions),
        tuple(to.left_out),
    )


def _nodes(network: Network) -> dict[Point, int]:
    joined: Joining[Point] = Joining()
    for point in network.potential:
        joined.add(point)
    for a, b in bonds(network.harness, network.inner, network.joints):
        joined.join(a, b)
    return joined.numbers()


def _grounds(network: Network) -> Iterator[Point]:
    """The reference first: the first source's return, then the others', then the chassis."""
    for name, item in network.harness.items.items():
        for terminal, side in item.kind.sides().items():
            if side is Side.RETURN:
                yield Point(name, terminal)
    yield CHASSIS


def _wire(to: Builder, harness: Harness, wire: Wire, routing: Routing) -> None:
    points = wire.points
    if len(points) < 2:
        to.left_out.append(Assumption(wire.name, "an end is unknown or lands nowhere: it carries no current here"))
        return
    a, b = (to.node(point) for point in points)
    to.branches.append(Branch(a, b, wire_ohm(to, wire, routing), wire.name, wire.name, "wire"))


def wire_ohm(to: Builder, wire: Wire, routing: Routing) -> float:
    """The wire's resistance in ohm, at least LEAST_OHM; what is not known is assumed and said."""
    length_mm = routing.length_mm(wire.name)
    if length_mm is None:
        length_mm = LENGTH_MM
        to.assumptions.append(Assumption(wire.name, f"length unknown: taken as {plain_number(LENGTH_MM / 1000)} m"))
    if wire.size is None:
        area = AREA_MM2
        to.assumptions.append(Assumption(wire.name, f"size unknown: taken as {plain_number(AREA_MM2)} mm²"))
    else:
        area = wire.size.area_mm2
    return max(LEAST_OHM, ohm_per_m(area) * length_mm / 1000)


@lru_cache(maxsize=1024)
def ohm_per_m(area_mm2: float, temperature_c: float = 20.0) -> float:
    """Resistance of a metre of stranded copper, in ohm: the largest value of ISO 6722 or IEC 60228 class 5 for a size
    that they print, else solid copper and 2 % for stranding; at the temperature in °C."""
    printed = [
        figure.value
        for family in ("thin wall", "class 5")
        if (figure := published_ohm_per_km(area_mm2, family)) is not None
    ]
    at_20 = max(printed) if printed else solid_copper_ohm_per_km(area_mm2).value * STRANDED
    return at_20 / 1000 * resistance_factor(temperature_c)
