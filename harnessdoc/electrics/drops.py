"""Where voltage is lost on the way to a load and back: wire by wire, fuse by fuse, contact by contact.

Read from settled outcomes; what other circuits draw through shared feeds is added as an upper bound. No verdict."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import cached_property
from typing import Literal, NamedTuple

from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.settle import Positions, Settled
from harnessdoc.electrics.study import LIVE_SHARE, Studied, Study
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.record import record

StepSort = Literal["wire", "fuse", "contact", "drive", "joint"]
PASSES = frozenset({"wire", "fuse", "contact", "drive"})
DRAWS = frozenset({"load", "coil"})
LEAST_A = 1e-9
MOST_TRIES = 24
"""So many different voltages of a load are followed back, the lowest first."""


class Step(NamedTuple):
    """A part on the way. `part`: wire or item, for a joint the splice, strip or plugs; `drop_v` in this state alone;
    `most_v` with all that shares it at its worst. `assumed`: its resistance rests on a figure that nobody stated."""

    part: str
    sort: StepSort
    amps: float = 0.0
    drop_v: float = 0.0
    most_v: float = 0.0
    assumed: bool = False


@record(frozen=True)
class Drop:
    """The way to one load in one state. `source_v`: the source's own voltage, `terminal_v` what is left at its
    terminals; `least_terminal_v` the same with all that shares it at its worst. `load_v`: over the load.
    `feed`: from the source on; `back`: from the load on."""

    load: str
    state: Positions
    amps: float
    source: str
    source_v: float
    terminal_v: float
    least_terminal_v: float
    load_v: float
    feed: tuple[Step, ...]
    back: tuple[Step, ...]
    source_assumed: bool
    load_assumed: bool

    @cached_property
    def lost_v(self) -> float:
        """Lost between the source's terminals and the load's, both ways, in V."""
        return sum(step.drop_v for step in (*self.feed, *self.back))

    @cached_property
    def most_v(self) -> float:
        """The same with all that shares the way at its worst: an upper bound."""
        return sum(step.most_v for step in (*self.feed, *self.back))

    def percent(self, volts: float) -> float:
        """A voltage as a share of the source's own, in per cent."""
        return 100 * volts / self.source_v

    @property
    def shared(self) -> bool:
        """Whether other circuits add anything worth telling: a millivolt."""
        return self.most_v - self.lost_v > 1e-3


def worst_drop(study: Study, circuit: str) -> Drop | None:
    """The load of a circuit that loses the largest share of its source's voltage, in the state where it does.

    Loads first; where a circuit has none, coils and what electronics draw; where it has none of those, any load that
    is fed or returns through its wires. None where nothing of it was settled, or nothing leads to a source."""
    harness = study.network.harness
    wires = {wire.name for wire in harness.by_circuit.get(circuit, ())}
    owners = {point.owner for name in wires for point in harness.wires[name].points}
    owners |= set(harness.circuit(circuit).items)
    drawing = [index for index, branch in enumerate(study.circuit.branches) if branch.sort in DRAWS]
    mine = [index for index in drawing if study.circuit.branches[index].part in owners]
    loads = [index for index in mine if _is_load(study, index)]
    for group in (loads, [index for index in mine if index not in loads]):
        drops = [drop for index in group if (drop := drop_of(study, index)) is not None and _touches(drop, wires)]
        if drops:
            return max(drops, key=_share)
    rest = [index for index in drawing if _is_load(study, index) and index not in loads]
    drops = [drop for index in rest if (drop := drop_of(study, index)) is not None and _touches(drop, wires)]
    return max(drops, key=_share, default=None)


def _share(drop: Drop) -> float:
    return max(drop.lost_v, drop.most_v) / drop.source_v


def _is_load(study: Study, index: int) -> bool:
    item = study.network.harness.items.get(study.circuit.branches[index].part)
    return item is not None and isinstance(item.kind, Load)


def _touches(drop: Drop, wires: Collection[str]) -> bool:
    return any(step.part in wires for step in (*drop.feed, *drop.back))


def drop_of(study: Study, load: int) -> Drop | None:
    """The way to a branch that draws, in the state where it is live and gets least; None where there is no such state,
    or where its current comes through another load."""
    studied = study.home.get(load)
    if studied is None:
        return None
    seen: dict[float, tuple[Positions, Settled]] = {}
    for state, settled in studied.outcomes:
        across = abs(study.across(load, settled))
        if across > 0 and settled.exact and not settled.cycle:
            seen.setdefault(round(across, 5), (state, settled))
    for across in sorted(seen)[:MOST_TRIES] if len(seen) <= MOST_TRIES else _spread(sorted(seen)):
        drop = _Way(study, studied, *seen[across]).to(load)
        if drop is not None and drop.load_v >= LIVE_SHARE * drop.source_v:
            return drop
    return None


def _spread(values: list[float]) -> list[float]:
    """The lowest that can count as live, and no more than are tried."""
    floor = LIVE_SHARE * 0.9 * values[-1]
    return [value for value in values if value >= floor][:MOST_TRIES]


class _Way:
    """One settled state, walked along its currents."""

    def __init__(self, study: Study, studied: Studied, state: Positions, settled: Settled) -> None:
        self.study, self.state, self.settled = study, state, settled
        self.branches = study.circuit.branches
        self.around: dict[int, list[int]] = {}
        self.sources: list[int] = []
        for index in studied.plant.indices:
            branch = self.branches[index]
            if branch.sort == "source":
                if self._delivers(index) > LEAST_A:
                    self.sources.append(index)
            elif branch.sort in PASSES:
                self.around.setdefault(branch.a, []).append(index)
                self.around.setdefault(branch.b, []).append(index)

    def _delivers(self, index: int) -> float:
        return -self.settled.amps[index]

    def to(self, load: int) -> Drop | None:
        """The way to a load and back to the same source."""
        branch, volts = self.branches[load], self.settled.volts
        high, low = (branch.a, branch.b) if volts[branch.a] >= volts[branch.b] else (branch.b, branch.a)
        starts = {self.branches[index].a: index for index in self.sources}
        feed = self._walk(high, starts, up=True)
        if feed is None:
            return None
        source = starts[feed[1]]
        back = self._walk(low, {self.branches[source].b: source}, up=False)
        if back is None:
            return None
        own, known = self.branches[source], {one.about for one in self.study.circuit.assumptions}
        worst = self.study.worst.get(source)
        terminal_v = volts[own.a] - volts[own.b]
        least = own.volts - own.ohm * worst.amps if worst is not None and worst.bound else terminal_v
        return Drop(
            branch.part, self.state, abs(self.settled.amps[load]), own.part, own.volts, terminal_v,
            min(terminal_v, least), volts[high] - volts[low],
            tuple(self._steps(feed[0][::-1], feed[1])), tuple(self._steps(back[0], low)),
            own.part in known, branch.part in known,
        )  # fmt: skip

    def _walk(self, node: int, goals: Collection[int], up: bool) -> tuple[list[int], int] | None:
        """Branches from a node against the current (`up`) or with it, to one of the goals; the goal reached."""
        found: list[int] = []
        seen = {node}
        while node not in goals:
            inflow = [(self._into(index, node) * (1 if up else -1), index) for index in self.around.get(node, ())]
            amps, index = max(inflow, default=(0.0, -1))
            if amps <= LEAST_A:
                return None
            branch = self.branches[index]
            node = branch.b if branch.a == node else branch.a
            found.append(index)
            if node in seen:
                return None
            seen.add(node)
        return found, node

    def _into(self, index: int, node: int) -> float:
        amps = self.settled.amps[index]
        return amps if self.branches[index].b == node else -amps

    def _steps(self, indices: list[int], node: int) -> Iterator[Step]:
        """The parts passed, and the joints between them."""
        before, after = "", ""
        for index in indices:
            branch = self.branches[index]
            near, far = self._owners(branch, node)
            between = [name for name in dict.fromkeys((after, near)) if name not in ("", before, branch.part)]
            if before and between:
                yield Step("/".join(between), "joint")
            yield self._step(index, branch)
            before, after = branch.part, far
            node = branch.b if branch.a == node else branch.a

    def _owners(self, branch: Branch, node: int) -> tuple[str, str]:
        """What a branch leaves and what it lands on, entered at a node: for a wire its ends' owners, else the item."""
        if branch.sort != "wire":
            return branch.part, branch.part
        a, b = self.study.network.harness.wires[branch.part].points[:2]
        return (a.owner, b.owner) if node == branch.a else (b.owner, a.owner)

    def _step(self, index: int, branch: Branch) -> Step:
        amps = abs(self.settled.amps[index])
        # A diode's drop is what stands over it, not what its resistance makes.
        drop = abs(self.study.across(index, self.settled))
        worst = self.study.worst.get(index)
        most = amps if worst is None or not worst.bound else max(amps, worst.amps)
        assumed = branch.sort in ("contact", "drive") or any(
            one.about == branch.part for one in self.study.circuit.assumptions
        )
        return Step(branch.part, _sort(branch), amps, drop, drop + (most - amps) * branch.ohm, assumed)


def _sort(branch: Branch) -> StepSort:
    if branch.sort == "wire" or branch.sort == "fuse" or branch.sort == "drive":
        return branch.sort
    return "contact"
