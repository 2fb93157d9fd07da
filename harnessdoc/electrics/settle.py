"""Settle a circuit in one state: solve, move the relays that pull or release, solve again until nothing moves.

A relay that drops its own coil never settles: it buzzes, and the cycle of positions is given. Diodes, constant
currents and regulators' inputs are found by the same repetition. Values only; no verdict."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import cached_property
from math import copysign, nan
from typing import NamedTuple

from harnessdoc.electrics.circuit import Circuit, Coil
from harnessdoc.electrics.prepared import Part, Prepared, add, inject
from harnessdoc.electrics.prepared import Positions as Positions
from harnessdoc.model.record import record

MOST_MOVES = 40
MOST_PASSES = 200
ONE_BY_ONE = 20
"""After so many passes diodes turn one at a time, so that two can't go on swapping."""
CLOSE = 1e-10
"""Relative change of a constant current's or regulator's input at which repetition stops."""
LEAST_LOAD_OHM = 1e-3
"""What a constant current is at least, where the source can't give it."""
LEAST_AMPS = 1e-9
"""A diode with less through it does not conduct."""


class Settled(NamedTuple):
    """Voltages of nodes over the reference (nan: floating), currents of branches from a to b, positions of devices.

    What hangs on a source that nothing joins to the reference has voltages over that source's own return. `cycle`: the
    positions a buzzing relay goes through, empty when everything came to rest. `exact`: False when diodes, constant
    currents or regulators were still moving when repetition ended: the figures then say nothing."""

    volts: Sequence[float]
    amps: Sequence[float]
    positions: Positions
    cycle: tuple[Positions, ...] = ()
    exact: bool = True


@record(frozen=True, eq=False)
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
    def coils(self) -> tuple[Coil, ...]:
        """Coils that gate a branch in use or have one of their own in use, but for stuck ones."""
        stuck, by_device = dict(self.stuck), self.circuit.coils_of
        used = [self.circuit.branches[index] for index in self.indices]
        of = [name for branch in used for name in (branch.part, branch.gate.device if branch.gate else "")]
        named = (name for name in of if name in by_device and name not in stuck)
        return tuple(coil for name in dict.fromkeys(named) for coil in by_device[name])

    @cached_property
    def prepared(self) -> Prepared:
        """Numbered and eliminated as far as no state changes it."""
        watched = (node for coil in self.coils for node in (coil.plus, coil.minus, *(coil.supply or ())[:2]))
        return Prepared(self.circuit, self.indices, [int(node) for node in watched])

    @cached_property
    def _watch(self) -> tuple[_Watch, ...]:
        return tuple(_Watch(coil, self.prepared.node_at) for coil in self.coils)

    @cached_property
    def _rest(self) -> dict[str, str]:
        return {coil.device: coil.rest for coil in self.coils}

    def settle(self, state: Positions, start: Positions | None = None) -> Settled:
        """Settle from relays at rest, or from `start`. `state`: positions of what a person or the world sets."""
        positions = self._rest.copy()
        if start:
            positions.update(start)
        positions.update(self.stuck)
        positions.update(state)
        seen: list[dict[str, str]] = []
        while True:
            solution = _Solution(self.prepared, positions)
            moved = {watch.device: to for watch in self._watch if (to := watch.moves(solution.volts, positions))}
            if not moved:
                return self._settled(solution, positions)
            seen.append(positions)
            positions = positions | moved
            if positions in seen or len(seen) > MOST_MOVES:
                first = seen.index(positions) if positions in seen else len(seen) - 1
                return self._settled(solution, seen[-1], tuple(seen[first:]))

    def second_answer(self, state: Positions, first: Settled, devices: Collection[str]) -> Settled | None:
        """Another way to be at rest in the same state, found with `devices` pulled at the start, all or one of them;
        None where there is none, or something buzzes. `first`: the answer from rest."""
        pulled = {coil.device: coil.pulled for coil in self.coils if coil.device in devices}
        if first.cycle or not pulled:
            return None
        starts = [pulled, *({device: at} for device, at in pulled.items() if len(pulled) > 1)]
        for start in starts:
            other = self.settle(state, start)
            if not other.cycle and any(other.positions[name] != first.positions[name] for name in pulled):
                return other
        return None

    def hold(self, positions: Positions) -> Settled:
        """Solve with every device, relays too, held in these positions."""
        return self._settled(_Solution(self.prepared, positions), positions)

    def _settled(self, solution: _Solution, positions: Positions, cycle: tuple[Positions, ...] = ()) -> Settled:
        volts, amps = solution.all()
        prepared = self.prepared
        return Settled(prepared.few_volts(volts), prepared.few_amps(amps), positions, cycle, solution.exact)


class _Watch:
    """A coil with its nodes in the numbers of what is solved; None for one that is not there."""

    __slots__ = ("coil", "device", "minus", "plus", "supply")

    def __init__(self, coil: Coil, node_at: dict[int, int]) -> None:
        self.coil, self.device = coil, coil.device
        self.plus, self.minus = node_at.get(coil.plus), node_at.get(coil.minus)
        supply = coil.supply
        self.supply = (node_at.get(supply[0]), node_at.get(supply[1]), supply[2]) if supply else None

    def moves(self, volts: Sequence[float], positions: Positions) -> str | None:
        """Where the coil's device goes, None if it stays: it pulls above one threshold, releases below the other."""
        now = positions[self.device]
        to = self._position(volts, now)
        return to if to != now else None

    def _position(self, volts: Sequence[float], now: str) -> str:
        coil = self.coil
        if self.supply is not None:
            have = _across(volts, self.supply[0], self.supply[1])
            if not have >= self.supply[2]:
                return coil.rest
        across = _across(volts, self.plus, self.minus)
        if across != across:
            across = 0.0
        if not coil.polarised:
            across = abs(across)
        if coil.inverse:
            return coil.pulled if across <= coil.releases_v else coil.rest if across >= coil.pulls_v else now
        return coil.pulled if across >= coil.pulls_v else coil.rest if across < coil.releases_v else now


def _across(volts: Sequence[float], plus: int | None, minus: int | None) -> float:
    return nan if plus is None or minus is None else volts[plus] - volts[minus]


class _Solution:
    """A circuit solved with all devices held where they are: repeated while it has diodes or the like."""

    def __init__(self, prepared: Prepared, positions: Positions) -> None:
        self.prepared = prepared
        self.closed = prepared.closed(positions)
        self.special = [p for p in prepared.special if _is_closed(p, positions)] if prepared.special else []
        self.exact = True
        if not self.special:
            self.volts = prepared.late_volts(prepared.open_values(self.closed))
            return
        self.plain = prepared.open_values(self.closed)
        self.off: set[int] = set()
        self.limited: set[int] = set()
        self.ohm = {part.at: part.branch.ohm for part in self.special}
        self.injected = {part.at: 0.0 for part in self.special if part.branch.copies >= 0}
        self.repeat()

    def repeat(self) -> None:
        """Solve until diodes, constant currents and copies are what they are."""
        for number in range(MOST_PASSES):
            self.solve()
            if not self.adjust(one_by_one=number >= ONE_BY_ONE):
                return
        self.exact = False

    def solve(self) -> None:
        """Find the voltages with special branches as they are now taken."""
        values = self.plain.copy()
        for part in self.special:
            if part.at in self.injected:
                inject(values, part, -self.injected[part.at])
            elif part.at not in self.off:
                add(values, part, 1.0 / self.ohm[part.at])
        self.volts = self.prepared.late_volts(values)

    def amps_of(self, part: Part) -> float:
        """A branch's current from a to b, in A; 0 for one that floats."""
        at, a, b, _, conductance, lift, _ = part
        if at in self.injected:
            return self.injected[at]
        if at in self.off:
            return 0.0
        if at in self.ohm:
            conductance = 1.0 / self.ohm[at]
        across = self.volts[a] - self.volts[b]
        return (across - lift) * conductance if across == across else 0.0

    def adjust(self, one_by_one: bool) -> bool:
        """Bring diodes, constant currents and copies nearer to what they are; whether anything changed."""
        changed = False
        for part in self.special:
            at, branch = part.at, part.branch
            across = self.volts[part.a] - self.volts[part.b]
            if branch.one_way:
                if changed and one_by_one:
                    continue
                conducts = across > branch.one_way if at in self.off else self.amps_of(part) > LEAST_AMPS
                if conducts == (at in self.off):
                    self.off.symmetric_difference_update({at})
                    changed = True
            elif branch.copies >= 0:
                wanted = max(0.0, -self._amps_at(branch.copies))
                if abs(wanted - self.injected[at]) > CLOSE * max(1.0, wanted):
                    changed = True
                self.injected[at] = wanted
            elif branch.amps:
                changed |= self.adjust_steady(part, across)
        return changed

    def adjust_steady(self, part: Part, across: float) -> bool:
        """A constant current: injected as it is, and where nothing can feed that, a resistance that follows."""
        at, draws = part.at, part.branch.amps
        if at in self.injected:
            if across * self.injected[at] > 0 and abs(across) >= LEAST_LOAD_OHM * draws:
                return False
            del self.injected[at]
            self.limited.add(at)
            return True
        if across != across or not across:
            return False
        if at not in self.limited:
            self.injected[at] = copysign(draws, across)
            return True
        wanted = max(abs(across) / draws, LEAST_LOAD_OHM)
        changed = abs(wanted - self.ohm[at]) > CLOSE * wanted
        self.ohm[at] = wanted
        return changed

    def _amps_at(self, index: int) -> float:
        part = self.prepared.part_of.get(index)
        return self.amps_of(part) if part is not None else 0.0

    def all(self) -> tuple[list[float], list[float]]:
        """Voltages of all nodes, the reference last, and currents of all branches."""
        volts = self.prepared.all_volts(self.volts)
        amps = [0.0] * len(self.prepared.at)
        for parts in (self.prepared.steady, self.closed):
            for at, a, b, _, conductance, lift, _ in parts:
                across = volts[a] - volts[b]
                if across == across:
                    amps[at] = (across - lift) * conductance
        for part in self.special:
            amps[part.at] = self.amps_of(part)
        return volts, amps


def _is_closed(part: Part, positions: Positions) -> bool:
    gate = part.branch.gate
    return gate is None or positions.get(gate.device) in gate.closed
