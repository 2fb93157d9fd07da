"""The currents and voltages of a circuit's strip in one state, as the study has them: values and words, no drawing.

The whole circuit is settled in that state at once, so that a shared wire shows all that flows in it. Where that does
not come to rest, each island's own outcome is taken, and what rests on a relay that never rests is not verified."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from math import isnan
from typing import Final

from harnessdoc.drawing.strips.homes import Homes
from harnessdoc.electrics.operation import told, unknown_positions
from harnessdoc.electrics.settle import Plant, Settled
from harnessdoc.electrics.study import Studied, Study
from harnessdoc.model.harness import State, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_amps, format_volts

LIVE_V: Final = 1.0
LIVE_A: Final = 0.001
"""A part is drawn as live from so much over the reference on, or with so much flowing. Own choice, no source."""
LEAST_A: Final = 1e-5
"""Less is not written."""
NOT_VERIFIED: Final = "not verified"


@dataclass(frozen=True, eq=False, repr=False)
class Figures:
    """Values in one state. `words`: the state as written on the strip; `why`: why nothing was computed, or ""."""

    study: Study
    state: State
    words: str
    why: str = ""
    settled: Settled | None = None
    by_branch: Mapping[int, Settled | None] = field(default_factory=dict)
    by_node: Mapping[int, Settled | None] = field(default_factory=dict)

    def volts(self, point: Point | None) -> float | None:
        """V over the reference: nan where it floats, None where it was not computed."""
        node = self.study.circuit.node.get(point) if point is not None else None
        if node is None or self.why:
            return None
        settled = self.settled or self.by_node.get(node)
        return None if settled is None else settled.volts[node]

    def volts_text(self, point: Point | None) -> str:
        """As printed: three figures, below 0.1 V two in mV, 0 below 0.5 mV; "" where it floats or is not computed."""
        volts = self.volts(point)
        if volts is None or isnan(volts):
            return ""
        size = abs(volts)
        return "0 V" if size < 0.0005 else format_volts(volts, 2 if size < 0.1 else 3)

    def amps(self, wire: Wire) -> float | None:
        """A from its first end to its second, None where it was not computed."""
        branches = self.study.circuit.branches
        index = next((i for i in self.study.by_part.get(wire.name, ()) if branches[i].sort == "wire"), None)
        if index is None or self.why:
            return None
        settled = self.settled or self.by_branch.get(index)
        return None if settled is None else settled.amps[index]

    def frame(self, wire: Wire) -> str:
        """What is written of a wire's current: a figure, "not verified", or nothing where none flows."""
        amps = self.amps(wire)
        if amps is None:
            return NOT_VERIFIED
        return "" if isnan(amps) or abs(amps) < LEAST_A else format_amps(abs(amps), 3)

    def flows(self, a: Point | None, b: Point | None) -> bool:
        """Whether current flows in what lies between two points."""
        node = self.study.circuit.node
        pair = {node.get(a), node.get(b)} if a is not None and b is not None else set()
        if self.why or None in pair or a is None:
            return False
        for index in self.study.by_part.get(a.owner, ()):
            branch, settled = self.study.circuit.branches[index], self.settled or self.by_branch.get(index)
            if settled is not None and {branch.a, branch.b} == pair and abs(settled.amps[index]) >= LIVE_A:
                return True
        return False

    def live_point(self, point: Point | None) -> bool:
        """Whether a point stands at LIVE_V or more over the reference, either way."""
        volts = self.volts(point)
        return volts is not None and abs(volts) >= LIVE_V

    def live_wire(self, wire: Wire) -> bool:
        """Whether a wire carries LIVE_A or is at LIVE_V."""
        amps = self.amps(wire)
        flowing = amps is not None and not isnan(amps) and abs(amps) >= LIVE_A
        return flowing or any(self.live_point(point) for point in wire.points)


@dataclass(eq=False)
class Bench:
    """Settles states for strips, each once."""

    study: Study
    homes: Homes
    _kept: dict[tuple[tuple[str, str], ...], Figures] = field(default_factory=dict)

    @cached_property
    def _plant(self) -> Plant:
        return Plant(self.study.circuit)

    def figures(self, circuit: str, state: State | None = None) -> Figures:
        """The figures of a circuit in a state; without one, in that of the first operation line in which it is live."""
        if state is not None:
            return self._in_state(state)
        lines = self.study.network.harness.operation
        own = {part.item.name for part in self.homes.parts.values() if part.home == circuit}
        for line in lines:
            if own & set(line.live) and not unknown_positions(self.study, line.when):
                return self._in_state(line.when)
        states = [line.when for line in lines if not unknown_positions(self.study, line.when)]
        wires = self.homes.wires.get(circuit, ())
        for flowing in (True, False):
            for one in (*states, {}):
                figures = self._in_state(one)
                if any((self._flows(figures, wire) if flowing else figures.live_wire(wire)) for wire in wires):
                    return figures
        return self._in_state({})

    @staticmethod
    def _flows(figures: Figures, wire: Wire) -> bool:
        amps = figures.amps(wire)
        return amps is not None and abs(amps) >= LIVE_A

    def _in_state(self, state: State) -> Figures:
        key = tuple(sorted(state.items()))
        if key not in self._kept:
            self._kept[key] = self._settle(state)
        return self._kept[key]

    def _settle(self, state: State) -> Figures:
        circuit = self.study.circuit
        words = f"{told(state)}, all else at rest" if state else "all at rest"
        unknown = unknown_positions(self.study, state)
        if unknown:
            return Figures(self.study, state, words, "; ".join(unknown))
        if not any(branch.sort == "source" and branch.gate is None for branch in circuit.branches):
            return Figures(self.study, state, words, "the harness has no source")
        moved = [device for device in state if device in circuit.coils_of]
        if moved:
            return Figures(self.study, state, words, f"{', '.join(moved)} moves by itself and can't be set")
        full = {device: state.get(device, positions[0]) for device, positions in circuit.devices.items()}
        settled = self._plant.settle(full)
        if settled.exact and not settled.cycle:
            return Figures(self.study, state, words, settled=settled)
        return self._by_islands(state, words, full)

    def _by_islands(self, state: State, words: str, full: Mapping[str, str]) -> Figures:
        """What islands that come to rest say of what is their own."""
        by_branch: dict[int, Settled | None] = {}
        by_node: dict[int, Settled | None] = {}
        for studied in self.study.studied:
            settled = _outcome(studied, full)
            for index in studied.island.own:
                by_branch[index] = settled
                for node in self.study.circuit.branches[index][:2]:
                    by_node[node] = settled if settled is not None else by_node.get(node)
        return Figures(self.study, state, words, by_branch=by_branch, by_node=by_node)


def _outcome(studied: Studied, full: Mapping[str, str]) -> Settled | None:
    """An island's outcome in a state; None where it was not settled or does not rest."""
    for positions, settled in studied.outcomes:
        if all(full.get(device) == position for device, position in positions.items()):
            return settled if settled.exact and not settled.cycle else None
    return None


def assumed(study: Study, names: Iterable[str]) -> list[str]:
    """What was taken for figures that nobody stated, of the named parts: each said once, with whom it is about."""
    wanted = set(names)
    found: dict[str, list[str]] = {}
    for note in study.circuit.assumptions:
        if note.about in wanted:
            found.setdefault(note.text, []).append(note.about)
    return [f"{', '.join(about)}: {text}" for text, about in found.items()]


def not_computed(study: Study, names: Iterable[str]) -> list[str]:
    """What could not be computed of the named parts, and why."""
    wanted = set(names)
    found: dict[str, list[str]] = {}
    for note in study.circuit.left_out:
        if note.about in wanted:
            found.setdefault(note.text, []).append(note.about)
    return [f"{', '.join(about)}: {text}" for text, about in found.items()]
