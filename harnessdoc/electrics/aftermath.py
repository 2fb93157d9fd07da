"""What comes of a zone with a fault in it, where sensors and regulators lose their supply or their ground.

A sensor without supply gives nothing. One whose ground is lost may give nothing or rise with it, and so may all that
hangs on a regulator whose ground is lost: nobody states which, so both are given."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import nan
from typing import Final, NamedTuple

from harnessdoc.electrics.behaviour import ELECTRONICS_OHM, OFF, SUPPLY_SHARE
from harnessdoc.electrics.circuit import Branch, Circuit
from harnessdoc.electrics.settle import Plant, Positions, Settled
from harnessdoc.electrics.single_fault import Fault
from harnessdoc.electrics.study import Study
from harnessdoc.electrics.zones import Setting, Zone
from harnessdoc.model.kinds.electronics import Sensor
from harnessdoc.model.points import Point

LIFT_OHM: Final = ELECTRONICS_OHM
"""Through what a regulator's own draw lifts a ground that is lost. Common practice, no source."""


class Sense(NamedTuple):
    """A sensor with a supply of its own: nodes, least volts, its signal branches, its draw, the item."""

    name: str
    plus: int
    minus: int
    least_v: float
    signals: frozenset[int]
    draw: frozenset[int]


def senses_of(study: Study) -> tuple[Sense, ...]:
    """Sensors with three wires, those with no stated supply never counting as starved."""
    found = []
    node, branches = study.circuit.node, study.circuit.branches
    for name, item in study.network.harness.items.items():
        if isinstance(item.kind, Sensor) and item.kind.wires == 3:
            own = study.by_part.get(name, ())
            least = SUPPLY_SHARE * item.kind.supply_v if item.kind.supply_v else nan
            signals = frozenset(i for i in own if branches[i].sort == "signal")
            draw = frozenset(i for i in own if branches[i].sort == "load")
            found.append(Sense(name, node[Point(name, "+")], node[Point(name, "-")], least, signals, draw))
    return tuple(found)


class Aftermath:
    """A zone as a fault leaves it, to be settled."""

    def __init__(
        self, senses: Sequence[Sense], setting: Setting, zone: Zone, fault: Fault, gone: frozenset[int]
    ) -> None:
        self.setting, self.zone, self.fault, self.blocked = setting, zone, fault, fault.blocked | gone
        self.senses = [s for s in senses if s.signals & zone.inner and not s.draw & gone]
        self.plants: dict[tuple[frozenset[int], tuple[str, ...], bool], Plant] = {}

    def settled(self, state: Positions, start: Positions, before: Settled) -> Iterator[Settled]:
        """What comes of a state, every outcome that there may be; a sensor that had no supply `before` the fault
        gives what it gave then."""
        first = self._plant().settle(state, start)
        lost = self._regulators_lost(first)
        if not lost:
            yield from self._with_sensors(first, state, start, before, ())
            return
        yield from self._with_sensors(self._plant(off=lost).settle(state, start), state, start, before, lost)
        yield self._plant(off=lost, lifted=True).settle(state, start)

    def supplied(self, settled: Settled) -> frozenset[str]:
        """The sensors that have their supply: all that `settled` looks at of what was before."""
        return frozenset(sense.name for sense in self.senses if _supplied(sense, settled))

    def _with_sensors(
        self, first: Settled, state: Positions, start: Positions, before: Settled, off: tuple[str, ...]
    ) -> Iterator[Settled]:
        silent: frozenset[int] = frozenset()
        rises = False
        for sense in self.senses:
            plus, minus = first.volts[sense.plus], first.volts[sense.minus]
            if _supplied(sense, before) and not plus - minus >= sense.least_v:
                silent |= sense.signals
                rises = rises or plus >= sense.least_v
        if not silent or rises:
            yield first
        if silent:
            yield self._plant(silent, off).settle(state, start)

    def _regulators_lost(self, settled: Settled) -> tuple[str, ...]:
        """Regulators that go on and off for ever: their ground is gone."""
        moving = {device for one in settled.cycle for device, at in one.items() if at != settled.cycle[0][device]}
        return tuple(sorted(device for device in moving if self._copying(device)))

    def _copying(self, device: str) -> Branch | None:
        """A regulator's input, which repeats what its output gives."""
        of = (self.setting.circuit.branches[index] for index in sorted(self.zone.inner))
        return next((b for b in of if b.copies >= 0 and b.part == device), None)

    def _plant(self, silent: frozenset[int] = frozenset(), off: tuple[str, ...] = (), lifted: bool = False) -> Plant:
        key = (silent, off, lifted)
        if key not in self.plants:
            circuit, kept = self.setting.circuit, self.zone.kept
            if lifted:
                circuit, kept = self._lifted(off)
            stuck = (*self.fault.stuck, *((device, OFF) for device in off))
            self.plants[key] = Plant(circuit, kept, self.blocked | silent, stuck)
        return self.plants[key]

    def _lifted(self, off: Sequence[str]) -> tuple[Circuit, tuple[int, ...]]:
        """The circuit with what leads from each lost regulator's input to its ground."""
        inputs = [branch for device in off if (branch := self._copying(device)) is not None]
        more = tuple(Branch(b.a, b.b, LIFT_OHM, b.part, f"{b.part} ground lost", "load") for b in inputs)
        own = self.setting.circuit
        circuit = Circuit(own.node, own.nodes, own.branches + more, own.devices, own.coils, own.grounds)
        return circuit, (*self.zone.kept, *range(len(own.branches), len(circuit.branches)))


def _supplied(sense: Sense, settled: Settled) -> bool:
    return settled.volts[sense.plus] - settled.volts[sense.minus] >= sense.least_v
