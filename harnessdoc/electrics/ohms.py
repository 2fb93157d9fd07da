"""What an ohmmeter shows between two points with the supply off: relays at rest, sources taken out.

A cold lamp and a motor at rest show less than they draw by, electronics anything: the answer is a range."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from math import inf
from typing import Final

from harnessdoc.electrics.circuit import Branch
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
        found = (self._read(branches, a, b, state) for branches in (self._low, self._high))
        low, high = found
        return min(low, high), max(low, high)

    def _read(self, branches: tuple[Branch, ...], a: int, b: int, state: Positions) -> float:
        meter = Branch(a, b, _PROBE_OHM, "meter", "meter", "source", volts=_PROBE_V)
        circuit = replace(self.study.circuit, branches=(*branches, meter), grounds=(b,), coils=())
        rest = {coil.device: coil.rest for coil in self.study.circuit.coils}
        rest |= {device: positions[0] for device, positions in self.study.circuit.devices.items()}
        settled = Plant(circuit, self._around(branches, a, b)).settle({**rest, **state})
        amps = -settled.amps[len(branches)]
        across = settled.volts[a] - settled.volts[b]
        return across / amps if amps > _PROBE_V / OPEN_OHM else inf

    @staticmethod
    def _around(branches: tuple[Branch, ...], a: int, b: int) -> tuple[int, ...]:
        """What hangs together with either node, and the meter."""
        near: dict[int, list[int]] = {}
        for index, branch in enumerate(branches):
            if branch.ohm < inf:
                near.setdefault(branch.a, []).append(index)
                near.setdefault(branch.b, []).append(index)
        seen, kept, todo = {a, b}, set(), [a, b]
        while todo:
            for index in near.get(todo.pop(), ()):
                kept.add(index)
                fresh = set(branches[index][:2]) - seen
                seen |= fresh
                todo += fresh
        return (*sorted(kept), len(branches))

    @cached_property
    def _low(self) -> tuple[Branch, ...]:
        return tuple(self._as_seen(branch, 0) for branch in self.study.circuit.branches)

    @cached_property
    def _high(self) -> tuple[Branch, ...]:
        return tuple(self._as_seen(branch, 1) for branch in self.study.circuit.branches)

    def _as_seen(self, branch: Branch, end: int) -> Branch:
        """A branch as the meter sees it, without its source."""
        item = self.study.network.harness.items.get(branch.part)
        ohm = branch.ohm if item is None else _range(item, branch)[end]
        return branch._replace(ohm=ohm, volts=0.0, amps=0.0, one_way=0.0, copies=-1)


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
