"""Settle a circuit in one state: solve, move the relays that pull or release, solve again until nothing moves.

A relay that drops its own coil never settles: it buzzes, and the cycle of positions is given. Diodes, constant
currents and regulators' inputs are found by the same repetition. Values only; no verdict."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import isnan, nan

from harnessdoc.electrics.circuit import Branch, Circuit, Coil
from harnessdoc.electrics.elimination import Elimination, plan

MOST_MOVES = 40
MOST_PASSES = 60
CLOSE = 1e-10
"""Relative change of a constant current's or regulator's input at which repetition stops."""

Positions = Mapping[str, str]


@dataclass(frozen=True)
class Settled:
    """Voltages of nodes over the reference (nan: floating), currents of branches from a to b, positions of devices.

    `cycle`: the positions a buzzing relay goes through, empty when everything came to rest."""

    volts: Sequence[float]
    amps: Sequence[float]
    positions: Positions
    cycle: tuple[Positions, ...] = ()


@dataclass(frozen=True)
class Plant:
    """A circuit made ready to be settled in many states; `kept`: the branches it is restricted to, all if None."""

    circuit: Circuit
    kept: tuple[int, ...] | None = None
    blocked: frozenset[int] = frozenset()
    """Branches taken out: broken wires, blown fuses."""
    stuck: tuple[tuple[str, str], ...] = ()
    """Coils that stay in a position whatever their voltage."""

    @cached_property
    def indices(self) -> tuple[int, ...]:
        """Branches in use."""
        every = range(len(self.circuit.branches)) if self.kept is None else self.kept
        return tuple(index for index in every if index not in self.blocked)

    @cached_property
    def local(self) -> dict[int, int]:
        """Node of the circuit to node of the elimination, without the reference."""
        reference = self.circuit.grounds[0] if self.circuit.grounds else -1
        used = dict.fromkeys(
            node
            for index in self.indices
            for node in (self.circuit.branches[index].a, self.circuit.branches[index].b)
            if node != reference
        )
        return {node: number for number, node in enumerate(used)}

    @cached_property
    def inner(self) -> tuple[int, ...]:
        """Branches between two nodes that are not the reference."""
        return tuple(i for i in self.indices if self._ends(i)[0] >= 0 and self._ends(i)[1] >= 0)

    @cached_property
    def elimination(self) -> Elimination:
        """The order of elimination, found once."""
        return plan(len(self.local), [self._ends(index) for index in self.inner])

    def _ends(self, index: int) -> tuple[int, int]:
        branch = self.circuit.branches[index]
        return self.local.get(branch.a, -1), self.local.get(branch.b, -1)

    @cached_property
    def ends(self) -> dict[int, tuple[int, int]]:
        """Both ends of each branch in elimination's numbers, -1 for the reference."""
        return {index: self._ends(index) for index in self.indices}

    @cached_property
    def coils(self) -> tuple[Coil, ...]:
        """Coils whose device gates a branch in use or that are themselves in use."""
        stuck = dict(self.stuck)
        return tuple(coil for coil in self.circuit.coils if coil.device not in stuck)

    def settle(self, state: Positions, start: Positions | None = None) -> Settled:
        """Settle from relays at rest, or from `start`. `state`: positions of what a person or the world sets."""
        positions = {coil.device: coil.rest for coil in self.circuit.coils}
        positions.update(start or {})
        positions.update(self.stuck)
        positions.update(state)
        seen: list[dict[str, str]] = []
        while True:
            volts, amps = self._solved(positions)
            moved = dict(positions)
            for coil in self.coils:
                moved[coil.device] = _position(coil, volts, positions[coil.device])
            if moved == positions:
                return Settled(volts, amps, positions)
            seen.append(positions)
            if moved in seen or len(seen) > MOST_MOVES:
                first = seen.index(moved) if moved in seen else len(seen) - 1
                return Settled(volts, amps, positions, tuple(seen[first:]))
            positions = moved

    def _solved(self, positions: Positions) -> tuple[list[float], list[float]]:
        """Voltages and currents with all devices held where they are."""
        branches = self.circuit.branches
        active = [i for i in self.indices if _closed(branches[i], positions)]
        ohm = {i: branches[i].ohm for i in active}
        off: set[int] = set()
        injected = {i: 0.0 for i in active if branches[i].copies >= 0}
        special = [i for i in active if branches[i].amps or branches[i].one_way or branches[i].copies >= 0]
        for _ in range(MOST_PASSES):
            volts = self._linear(active, ohm, off, injected)
            amps = self._currents(active, ohm, off, injected, volts)
            if not special or not _adjust(branches, special, volts, amps, ohm, off, injected):
                break
        return volts, amps

    def _linear(
        self, active: Sequence[int], ohm: Mapping[int, float], off: set[int], injected: Mapping[int, float]
    ) -> list[float]:
        branches, ends, size = self.circuit.branches, self.ends, len(self.local)
        ground, current = [0.0] * size, [0.0] * size
        open_now = dict.fromkeys(self.inner, 0.0)
        for i in active:
            if i in off:
                continue
            a, b = ends[i]
            if i in injected:
                _inject(current, a, b, -injected[i])
                continue
            branch = branches[i]
            conductance = 1.0 / ohm[i]
            if a >= 0 and b >= 0:
                open_now[i] = conductance
            elif a >= 0:
                ground[a] += conductance
            elif b >= 0:
                ground[b] += conductance
            lift = branch.volts + (branch.one_way if branch.one_way else 0.0)
            if lift:
                _inject(current, a, b, lift * conductance)
        local = self.elimination.solve(list(open_now.values()), ground, current)
        volts = [nan] * self.circuit.nodes
        for node, number in self.local.items():
            volts[node] = local[number]
        if self.circuit.grounds:
            volts[self.circuit.grounds[0]] = 0.0
        return volts

    def _currents(
        self,
        active: Sequence[int],
        ohm: Mapping[int, float],
        off: set[int],
        injected: Mapping[int, float],
        volts: Sequence[float],
    ) -> list[float]:
        amps = [0.0] * len(self.circuit.branches)
        for i in active:
            branch = self.circuit.branches[i]
            if i in injected:
                amps[i] = injected[i]
            elif i not in off:
                across = volts[branch.a] - volts[branch.b]
                if not isnan(across):
                    amps[i] = (across - branch.volts - branch.one_way) / ohm[i]
        return amps


def _inject(current: list[float], a: int, b: int, amps: float) -> None:
    if a >= 0:
        current[a] += amps
    if b >= 0:
        current[b] -= amps


def _closed(branch: Branch, positions: Positions) -> bool:
    return branch.gate is None or positions.get(branch.gate.device) in branch.gate.closed


def _position(coil: Coil, volts: Sequence[float], now: str) -> str:
    """Where a coil's device goes: it pulls above one threshold, releases below the other, and stays between."""
    if coil.supply is not None:
        have = volts[coil.supply[0]] - volts[coil.supply[1]]
        if isnan(have) or have < coil.supply[2]:
            return coil.rest
    across = volts[coil.plus] - volts[coil.minus]
    if isnan(across):
        across = 0.0
    if not coil.polarised:
        across = abs(across)
    if coil.inverse:
        return coil.pulled if across <= coil.releases_v else coil.rest if across >= coil.pulls_v else now
    return coil.pulled if across >= coil.pulls_v else coil.rest if across < coil.releases_v else now


def _adjust(
    branches: Sequence[Branch],
    special: Sequence[int],
    volts: Sequence[float],
    amps: Sequence[float],
    ohm: dict[int, float],
    off: set[int],
    injected: dict[int, float],
) -> bool:
    """Bring diodes, constant currents and copies nearer to what they are; whether anything changed."""
    changed = False
    for i in special:
        branch = branches[i]
        across = volts[branch.a] - volts[branch.b]
        if branch.one_way:
            conducts = not isnan(across) and (across > branch.one_way if i in off else amps[i] > 0)
            if conducts == (i in off):
                off.symmetric_difference_update({i})
                changed = True
        elif branch.copies >= 0:
            wanted = max(0.0, -amps[branch.copies])
            if abs(wanted - injected.get(i, 0.0)) > CLOSE * max(1.0, wanted):
                changed = True
            injected[i] = wanted
        elif branch.amps and not isnan(across) and across:
            wanted = max(abs(across) / branch.amps, LEAST_LOAD_OHM)
            if abs(wanted - ohm[i]) > CLOSE * wanted:
                changed = True
            ohm[i] = wanted
    return changed


LEAST_LOAD_OHM = 1e-3
