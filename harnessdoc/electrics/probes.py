"""What "live" means for a name: a load with enough across it, a relay that has pulled, a point that is hot.

Quantities only; whether live is right is not its subject."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harnessdoc.electrics.behaviour import SOURCE_V
from harnessdoc.electrics.circuit import Circuit, Coil
from harnessdoc.electrics.network import Network
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import LIVE_SHARE, Studied, Study
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds import controls, electronics, loads, relays
from harnessdoc.model.points import Point, PointError, parse_point

MOVED = (relays.Relay, relays.RelayBoard, controls.Regulator)
"""Kinds that count as live when they have pulled, or when they work."""


class Probe(NamedTuple):
    """How to see whether a name is live. `across`: branches with their rated volts; `nodes`: points that are hot from
    `hot_v` on over the reference."""

    name: str
    across: tuple[tuple[int, float], ...] = ()
    coil: Coil | None = None
    nodes: tuple[int, ...] = ()
    hot_v: float = SOURCE_V * LIVE_SHARE

    def live(self, circuit: Circuit, settled: Settled) -> bool:
        """Whether it is live; what floats is not."""
        if self.coil is not None and settled.positions.get(self.coil.device, self.coil.rest) == self.coil.pulled:
            return True
        return self.level(circuit, settled) >= 1.0

    def level(self, circuit: Circuit, settled: Settled) -> float:
        """The volts at it as a share of those from which it is live; 0 for what floats and for a coil."""
        volts, top = settled.volts, 0.0
        for index, rated_v in self.across:
            branch = circuit.branches[index]
            if rated_v > 0 and (level := abs(volts[branch.a] - volts[branch.b]) / (LIVE_SHARE * rated_v)) > top:
                top = level
        for node in self.nodes if self.hot_v > 0 else ():
            if (level := volts[node] / self.hot_v) > top:
                top = level
        return top

    def touched(self, circuit: Circuit) -> Iterator[int]:
        """The nodes it looks at."""
        yield from self.nodes
        for index, _ in self.across:
            yield from circuit.branches[index][:2]
        if self.coil is not None:
            yield from (self.coil.plus, self.coil.minus, *(int(node) for node in (self.coil.supply or ())[:2]))


def supply_v(circuit: Circuit) -> float:
    """The highest source's voltage, in V; SOURCE_V where there is none."""
    return max((b.volts for b in circuit.branches if b.sort == "source" and b.gate is None), default=SOURCE_V)


def probe_of(study: Study, name: str) -> Probe | str:
    """The probe of an item, a point, a plug or a splice; or why there is none."""
    harness, circuit = study.network.harness, study.circuit
    item = harness.items.get(name)
    if item is not None:
        return _of_item(study, item)
    try:
        points = [parse_point(name)]
    except PointError:
        return f"there is no {name}"
    if name in harness.plugs:
        points = [Point(name, cavity) for cavity in harness.plugs[name].terminals]
    nodes = tuple(dict.fromkeys(circuit.node[point] for point in points if point in circuit.node))
    if not nodes:
        return f"there is no {name}"
    return Probe(name, nodes=nodes, hot_v=LIVE_SHARE * _rail_v(study.network, circuit, points[0]))


def _of_item(study: Study, item: Item) -> Probe | str:
    circuit, kind, name = study.circuit, item.kind, item.name
    branches = study.by_part.get(name, ())
    if isinstance(kind, MOVED):
        coils = circuit.coils_of.get(name, ())
        return Probe(name, coil=coils[0]) if coils else f"what makes {name} pull is not stated"
    if isinstance(kind, loads.Load):
        stated = kind.at_v or (SOURCE_V if kind.ohms is None else supply_v(circuit))
        across = tuple((i, stated) for i in branches if circuit.branches[i].sort == "load")
        return Probe(name, across) if across else f"the draw of {name} is not stated"
    if isinstance(kind, electronics.Sensor) and kind.supply_v:
        across = tuple((i, kind.supply_v) for i in branches if circuit.branches[i].sort == "load")
        return Probe(name, across) if across else f"{name} has no supply of its own"
    nodes = dict.fromkeys(circuit.node[p] for t in item.terminals if (p := Point(name, t)) in circuit.node)
    return Probe(name, nodes=tuple(nodes), hot_v=LIVE_SHARE * supply_v(circuit))


def _rail_v(network: Network, circuit: Circuit, point: Point) -> float:
    """The voltage that a point has when it is fed: a regulator's if it hangs on one, else the source's."""
    for name, item in network.harness.items.items():
        kind = item.kind
        if isinstance(kind, controls.Regulator) and kind.gives_v:
            out = network.potential.get(Point(name, "OUT+"))
            if out is not None and out == network.potential.get(point):
                return kind.gives_v
    return supply_v(circuit)


def homes(study: Study, probe: Probe) -> tuple[Studied, ...]:
    """The islands that settle what the probe looks at: those whose own it is, else those that hold it on the way."""
    branches = study.circuit.branches
    indices = [index for index, _ in probe.across]
    if probe.coil is not None:
        own = study.by_part.get(probe.name, ())
        # Contacts lie in an island that keeps all that moves them; a board's input alone does not know its supply.
        sorts = ("coil", "load") if probe.coil.supply is None else ("contact",)
        indices += [i for i in own if branches[i].sort in sorts]
    found = {id(study.home[i]): study.home[i] for i in indices if i in study.home}
    if found:
        return tuple(found.values())[:1]
    wanted = set(probe.touched(study.circuit))
    for part in ("own", "way", "kept"):
        held = [s for s in study.studied if any(wanted & set(branches[i][:2]) for i in getattr(s.island, part))]
        if held:
            return tuple(held)
    return ()
