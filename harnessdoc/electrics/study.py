"""One study of a harness a run: every island settled in every state, and the worst that each part sees.

What several islands share (the main feed, a common return) carries the sum of their worst currents: an upper bound,
and marked as one. Values with the state they occur in; no verdict."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import field
from functools import cached_property
from itertools import product
from math import isnan
from typing import NamedTuple

from harnessdoc.electrics.assemble import build_circuit
from harnessdoc.electrics.circuit import Branch, Circuit
from harnessdoc.electrics.islands import Island, islands, self_holding
from harnessdoc.electrics.network import Network
from harnessdoc.electrics.prepared import Few
from harnessdoc.electrics.settle import Plant, Positions, Settled
from harnessdoc.model.record import record
from harnessdoc.routing.routing import Routing

LIVE_SHARE = 0.5
"""A load counts as live with half of its voltage across it, a coil when it has pulled. Common practice, no source."""


class Worst(NamedTuple):
    """The largest current of a branch, in A, and the state it flows in. `bound`: a sum over islands that may never
    be reached all at once; `state` is then the worst island's."""

    amps: float
    state: Positions
    bound: bool = False


class Studied(NamedTuple):
    """One island with what it does in each of its states; nothing when there are too many."""

    island: Island
    plant: Plant
    outcomes: tuple[tuple[Positions, Settled], ...]


@record(frozen=True, eq=False)
class Study:
    """The circuit, its islands and their outcomes."""

    network: Network
    routing: Routing
    circuit: Circuit
    studied: tuple[Studied, ...] = field(repr=False)

    @cached_property
    def worst(self) -> Mapping[int, Worst]:
        """Branch to its worst current; where an island has too many states, what no settled one holds is missing.

        A branch on the way of several islands carries what each draws at its worst, added up, and what flows there
        between several sources anyhow. An island whose own branches another one keeps is in the other's figure. What is
        kept in part, to know how relays stand, may be counted twice, so the sum is never too small, but for signals:
        what others draw shifts their ground, which is not in here."""
        parts: dict[int, dict[int, Worst]] = {}
        idle: dict[int, float] = {}
        for number, studied in enumerate(self.studied):
            island = studied.island
            flowing = self._between_sources(studied)
            for index, worst in _worst_of(studied, flowing).items():
                if index in island.own or (index in island.way and worst.amps > 0):
                    parts.setdefault(index, {})[number] = worst
            for settled in flowing.values():
                for index in island.way:
                    idle[index] = max(idle.get(index, 0.0), abs(settled.amps[index]))
        found: dict[int, Worst] = {}
        for index, by_island in parts.items():
            group = [by_island[number] for number in self._apart(by_island)]
            top = max(group, key=lambda worst: worst.amps)
            drawing = [worst.amps for worst in group if worst.amps > 0]
            flows = idle.get(index, 0.0)
            found[index] = Worst(sum(drawing) + flows, top.state, len(drawing) + (flows > 0) > 1)
        if not self.too_many:
            found.update({i: Worst(0.0, {}) for i in range(len(self.circuit.branches)) if i not in found})
        return found

    @cached_property
    def _holds(self) -> tuple[frozenset[int], ...]:
        """For each island the others, by number, all of whose own branches it keeps."""
        home = {index: number for number, studied in enumerate(self.studied) for index in studied.island.own}
        found = []
        for number, studied in enumerate(self.studied):
            kept = Counter(home[index] for index in studied.island.kept if index in home)
            whole = (other for other, count in kept.items() if count == len(self.studied[other].island.own))
            found.append(frozenset(whole) - {number} if studied.outcomes else frozenset())
        return tuple(found)

    def _apart(self, numbers: Collection[int]) -> list[int]:
        """Islands that none of the others holds; of two that hold each other, the first."""
        if len(numbers) < 2:
            return list(numbers)
        holds = self._holds
        held = {number for other in numbers for number in holds[other] if other not in holds[number] or other < number}
        return [number for number in numbers if number not in held]

    @cached_property
    def _sources(self) -> tuple[int, ...]:
        return tuple(i for i, b in enumerate(self.circuit.branches) if b.sort == "source" and b.gate is None)

    def _between_sources(self, studied: Studied) -> dict[int, Settled]:
        """What flows between several sources on an island's way while it draws nothing: by number of the outcome."""
        if len(self._sources) < 2 or not studied.island.way:
            return {}
        plant = Plant(self.circuit, tuple(sorted(studied.island.way)))
        return {at: plant.hold(settled.positions) for at, (_, settled) in enumerate(studied.outcomes)}

    @cached_property
    def home(self) -> Mapping[int, Studied]:
        """Branch to the island whose own it is."""
        return {index: studied for studied in self.studied for index in studied.island.own}

    @cached_property
    def by_part(self) -> Mapping[str, tuple[int, ...]]:
        """Wire or item to its branches."""
        found: dict[str, list[int]] = {}
        for index, branch in enumerate(self.circuit.branches):
            found.setdefault(branch.part, []).append(index)
        return {part: tuple(indices) for part, indices in found.items()}

    def worst_of_part(self, part: str) -> Worst | None:
        """The worst current in any branch of a wire or item; None where nothing was settled."""
        found = [self.worst[index] for index in self.by_part.get(part, ()) if index in self.worst]
        return max(found, key=lambda worst: worst.amps, default=None)

    def outcomes_of(self, part: str) -> Iterator[tuple[Positions, Settled]]:
        """What happens to a part's own island in each state; nothing where it was not settled."""
        homes = {id(self.home[i]): self.home[i] for i in self.by_part.get(part, ()) if i in self.home}
        for studied in homes.values():
            yield from studied.outcomes

    @cached_property
    def second_answers(self) -> tuple[tuple[Island, Positions, Settled, Settled], ...]:
        """States in which relays that may hold themselves have two answers: the one from rest, and another.

        What has moved before decides there which it is; a latch is meant to, anything else is not."""
        holding = self_holding(self.circuit)
        return tuple(
            (studied.island, state, first, other)
            for studied in self.studied
            if any(coil.device in holding for coil in studied.plant.coils)
            for state, first in studied.outcomes
            if (other := studied.plant.second_answer(state, first, holding)) is not None
        )

    @property
    def too_many(self) -> tuple[Island, ...]:
        """Islands that were not settled."""
        return tuple(studied.island for studied in self.studied if studied.island.too_many)

    def across(self, index: int, settled: Settled) -> float:
        """Voltage over a branch, a over b, in V; nan when it floats."""
        branch = self.circuit.branches[index]
        return settled.volts[branch.a] - settled.volts[branch.b]


def build_study(network: Network, routing: Routing) -> Study:
    """Settle everything, island by island. An island with too many states is kept with no outcomes."""
    circuit = build_circuit(network, routing)
    studied = tuple(study_island(circuit, island) for island in islands(circuit))
    return Study(network, routing, circuit, studied)


def study_island(circuit: Circuit, island: Island) -> Studied:
    """Settle an island in all its states; in none if there are too many."""
    plant = Plant(circuit, island.kept)
    if island.too_many:
        return Studied(island, plant, ())
    return Studied(island, plant, tuple((state, plant.settle(state)) for state in states(island.devices)))


def states(devices: Mapping[str, Sequence[str]]) -> Iterator[dict[str, str]]:
    """All combinations of positions, the rest positions first, the last device moving fastest."""
    names = list(devices)
    for positions in product(*devices.values()):
        yield dict(zip(names, positions, strict=True))


def _worst_of(studied: Studied, flowing: Mapping[int, Settled]) -> dict[int, Worst]:
    """Each branch's largest current; on the way without what flows there anyhow, for that is added once for all."""
    found: dict[int, Worst] = {}
    indices = studied.plant.indices
    rows = [_currents(studied, settled, flowing.get(at)) for at, (_, settled) in enumerate(studied.outcomes)]
    for index, column in zip(indices, zip(*rows, strict=True), strict=False):
        sizes = [0.0 if isnan(amps) else abs(amps) for amps in column]
        worst = max(sizes)
        found[index] = Worst(worst, studied.outcomes[sizes.index(worst)][0])
    return found


def _currents(studied: Studied, settled: Settled, flowing: Settled | None) -> Sequence[float]:
    """The currents of an island's branches in the order of its plant's, without what flows on its way anyhow."""
    amps, indices, way = settled.amps, studied.plant.indices, studied.island.way
    row = amps.values if isinstance(amps, Few) else [amps[index] for index in indices]
    if flowing is None:
        return row
    return [own - flowing.amps[i] if i in way else own for i, own in zip(indices, row, strict=True)]


def is_live(branch: Branch, across_v: float, rated_v: float) -> bool:
    """Whether a load has enough across it to do something: LIVE_SHARE of its rated voltage."""
    return not isnan(across_v) and abs(across_v) >= LIVE_SHARE * rated_v
