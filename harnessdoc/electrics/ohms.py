"""What an ohmmeter shows between two points with the supply off: relays at rest, sources taken out.

A cold lamp and a motor at rest show less than they draw by, electronics anything: the answer is a range."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from math import inf
from typing import Final

from harnessdoc.electrics.blocks import block_tree
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


@record(frozen=True, eq=False)
class OhmMeter:
    """Reads resistances of a study's circuit."""

    study: Study

    def between(self, a: int, b: int, state: Positions) -> Range:
        """Least and most ohm between two nodes, inf for open; devices that `state` does not name are at rest."""
        if a == b:
            return 0.0, 0.0
        moved = {device: position for device, position in state.items() if self._rest.get(device) != position}
        found = (_ohm_of(conducting.way(a, b), a, b) for conducting in self._conducting(moved))
        low, high = found
        return min(low, high), max(low, high)

    def _conducting(self, moved: Positions) -> tuple[Conducting, ...]:
        """What conducts as the meter sees it, at both ends of the range."""
        if not moved:
            return self._at_rest
        return tuple(Conducting(branches, {**self._rest, **moved}) for branches in self._ends)

    @cached_property
    def _at_rest(self) -> tuple[Conducting, ...]:
        return tuple(Conducting(branches, self._rest) for branches in self._ends)

    @cached_property
    def _rest(self) -> Positions:
        circuit = self.study.circuit
        return {coil.device: coil.rest for coil in circuit.coils} | {
            device: positions[0] for device, positions in circuit.devices.items()
        }

    @cached_property
    def _ends(self) -> tuple[list[Branch], ...]:
        """The branches as the meter sees them, at both ends of the range, without those that never conduct."""
        own = self.study.circuit.branches
        return tuple([seen for one in own if (seen := self._as_seen(one, end)).ohm < inf] for end in (0, 1))

    def _as_seen(self, branch: Branch, end: int) -> Branch:
        """A branch as the meter sees it, without its source."""
        item = self.study.network.harness.items.get(branch.part)
        ohm = branch.ohm if item is None else _range(item, branch)[end]
        return branch._replace(ohm=ohm, volts=0.0, amps=0.0, one_way=0.0, copies=-1)


class Conducting:
    """What conducts in one setting of all devices, with its block tree: which branches lie between two nodes."""

    def __init__(self, branches: Iterable[Branch], positions: Positions) -> None:
        self.branches = [one for one in branches if not one.gate or positions.get(one.gate.device) in one.gate.closed]
        edges = [branch[:2] for branch in self.branches]
        self.tree = block_tree(edges, (), [node for edge in edges for node in edge])

    def way(self, a: int, b: int) -> list[Branch]:
        """The branches that current can take from a to b: the blocks between them; none where nothing joins them."""
        blocks = self.tree.blocks
        from_a, from_b = self.tree.chain(a), self.tree.chain(b)
        if not from_a or not from_b or from_a[-1] != from_b[-1]:
            return []
        shared = -1
        while from_a and from_b and from_a[-1] == from_b[-1]:
            shared = from_a.pop()
            from_b.pop()
        at_a = blocks[from_a[-1]].hangs_at if from_a else a
        at_b = blocks[from_b[-1]].hangs_at if from_b else b
        between = [*from_a, *from_b, *([shared] if at_a != at_b else [])]
        return [self.branches[edge] for block in between for edge in blocks[block].edges]


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
