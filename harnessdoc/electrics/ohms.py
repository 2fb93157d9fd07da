"""What an ohmmeter shows between two points with the supply off: relays at rest, sources taken out.

A cold lamp and a motor at rest show less than they draw by, electronics anything: the answer is a range."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from math import inf
from typing import Final

from harnessdoc.electrics.circuit import Branch, Circuit
from harnessdoc.electrics.settle import Plant, Positions
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds.loads import Lamp, Load, Motor, Resistor
from harnessdoc.model.record import record

COLD_LAMP: Final = 1 / 15
"""Least share of its hot resistance that a cold filament shows. Common practice, no source."""
MOTOR_AT_REST: Final = 1 / 10
"""The same for a motor that does not turn, where no stall current is stated. Common practice, no source."""
OPEN_OHM: Final = 1e6
"""From here on a meter shows no more than an open circuit. Common practice, no source."""
_PROBE_V, _PROBE_OHM = 1e-3, 1.0
Range = tuple[float, float]
Near = Mapping[int, Sequence[Branch]]


@record(frozen=True, eq=False)
class OhmMeter:
    """Reads resistances of a study's circuit."""

    study: Study

    def between(self, a: int, b: int, state: Positions) -> Range:
        """Least and most ohm between two nodes, inf for open; devices that `state` does not name are at rest."""
        if a == b:
            return 0.0, 0.0
        positions = {**self._rest, **state}
        low, high = (_ohm_of(_way(near, a, b, positions), a, b) for near in (self._low, self._high))
        return min(low, high), max(low, high)

    @cached_property
    def _rest(self) -> Positions:
        circuit = self.study.circuit
        return {coil.device: coil.rest for coil in circuit.coils} | {
            device: positions[0] for device, positions in circuit.devices.items()
        }

    @cached_property
    def _low(self) -> Near:
        return self._near(0)

    @cached_property
    def _high(self) -> Near:
        return self._near(1)

    def _near(self, end: int) -> Near:
        """What conducts at each node, as the meter sees it at that end of the range."""
        near: dict[int, list[Branch]] = {}
        for branch in self.study.circuit.branches:
            seen = self._as_seen(branch, end)
            if seen.ohm < inf and seen.a != seen.b:
                near.setdefault(seen.a, []).append(seen)
                near.setdefault(seen.b, []).append(seen)
        return near

    def _as_seen(self, branch: Branch, end: int) -> Branch:
        """A branch as the meter sees it, without its source."""
        item = self.study.network.harness.items.get(branch.part)
        ohm = branch.ohm if item is None else _range(item, branch)[end]
        return branch._replace(ohm=ohm, volts=0.0, amps=0.0, one_way=0.0, copies=-1)


def _way(near: Near, a: int, b: int, positions: Positions) -> list[Branch]:
    """The branches that current can take between two nodes: all that hangs together, without its dead ends."""
    at: dict[int, list[int]] = {a: []}
    found: list[Branch] = []
    taken: set[int] = set()
    todo = [a]
    while todo:
        for branch in near.get(todo.pop(), ()):
            if id(branch) in taken or (branch.gate and positions.get(branch.gate.device) not in branch.gate.closed):
                continue
            taken.add(id(branch))
            for node in branch[:2]:
                if node not in at:
                    at[node] = []
                    todo.append(node)
                at[node].append(len(found))
            found.append(branch)
    if b not in at:
        return []
    left = {node: len(there) for node, there in at.items()}
    gone: set[int] = set()
    ends = [node for node, count in left.items() if count == 1 and node not in (a, b)]
    while ends:
        index = next((index for index in at[ends.pop()] if index not in gone), None)
        if index is None:
            continue
        gone.add(index)
        for node in found[index][:2]:
            left[node] -= 1
            if left[node] == 1 and node not in (a, b):
                ends.append(node)
    return [branch for index, branch in enumerate(found) if index not in gone]


def _ohm_of(way: Sequence[Branch], a: int, b: int) -> float:
    """Resistance between two nodes through these branches, inf where there are none: a small voltage by its current."""
    if not way:
        return inf
    nodes = {node: at for at, node in enumerate(dict.fromkeys((a, b, *(n for branch in way for n in branch[:2]))))}
    meter = Branch(0, 1, _PROBE_OHM, "meter", "meter", "source", volts=_PROBE_V)
    branches = (*(one._replace(a=nodes[one.a], b=nodes[one.b], gate=None) for one in way), meter)
    settled = Plant(Circuit({}, len(nodes), branches, {}, (), (1,))).settle({})
    amps = -settled.amps[len(way)]
    return (settled.volts[0] - settled.volts[1]) / amps if amps > _PROBE_V / OPEN_OHM else inf


def _range(item: Item, branch: Branch) -> Range:
    kind, ohm = item.kind, branch.ohm
    if branch.sort == "source":
        return inf, inf
    if branch.sort in ("wire", "fuse", "coil", "input") or (branch.sort == "contact" and not branch.one_way):
        return ohm, ohm
    if isinstance(kind, Lamp):
        return ohm * COLD_LAMP, ohm
    if isinstance(kind, Resistor) or (isinstance(kind, Load) and kind.ohms is not None):
        return ohm, ohm
    if isinstance(kind, Load):
        turning = isinstance(kind, Motor) or kind.stall_a is not None
        stalled = (kind.at_v or 12.0) / kind.stall_a if kind.stall_a else ohm * MOTOR_AT_REST
        return (min(stalled, ohm), ohm) if turning else (ohm, ohm)
    return ohm, inf  # electronics, diodes: by its polarity a meter sees them or not


def is_open(ohm: float) -> bool:
    """Whether a meter shows an open circuit."""
    return ohm >= OPEN_OHM
