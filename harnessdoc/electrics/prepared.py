"""A circuit, or some branches of one, made ready to be solved often: numbered, and eliminated as far as no state
changes it. Knows positions of devices; nothing of coils and thresholds."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import nan
from typing import NamedTuple, overload

from harnessdoc.electrics.circuit import Branch, Circuit
from harnessdoc.electrics.elimination import Values, back_early, forward, plan

Positions = Mapping[str, str]


class Part(NamedTuple):
    """A branch in the numbers of a Prepared: its place there, both ends (-1: the reference), the edge (-1: none)."""

    at: int
    a: int
    b: int
    edge: int
    conductance: float
    lift: float
    """Volts in series that lift a above b, a diode's drop included."""
    branch: Branch


class Few(Sequence[float]):
    """A value for each of `size` nodes or branches of which few are held; `other` for the rest."""

    __slots__ = ("other", "size", "values", "where")

    def __init__(self, where: Mapping[int, int], values: Sequence[float], other: float, size: int) -> None:
        self.where, self.values, self.other, self.size = where, values, other, size

    @overload
    def __getitem__(self, index: int) -> float: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[float]: ...
    def __getitem__(self, index: int | slice) -> float | Sequence[float]:
        if isinstance(index, slice):
            return list(self)[index]
        at = self.where.get(index)
        if at is not None:
            return self.values[at]
        if -self.size <= index < 0:
            return self[index + self.size]
        if 0 <= index < self.size:
            return self.other
        raise IndexError(index)

    def __len__(self) -> int:
        return self.size

    def __iter__(self) -> Iterator[float]:
        whole = [self.other] * self.size
        for index, at in self.where.items():
            whole[index] = self.values[at]
        return iter(whole)


class Prepared:
    """`indices`: the branches in use; `watched`: nodes whose voltage moves something."""

    def __init__(self, circuit: Circuit, indices: Sequence[int], watched: Iterable[int]) -> None:
        self.circuit = circuit
        used = [circuit.branches[index] for index in indices]
        reference = circuit.grounds[0] if circuit.grounds else -1
        nodes = dict.fromkeys(node for branch in used for node in branch[:2])
        nodes.pop(reference, None)
        self.local = {node: number for number, node in enumerate(nodes)}
        ends = [(self.local.get(branch.a, -1), self.local.get(branch.b, -1)) for branch in used]
        inner = [at for at, (a, b) in enumerate(ends) if a >= 0 and b >= 0]
        changes = [branch.gate is not None or _special(branch) for branch in used]
        keep = {end for changing, pair in zip(changes, ends, strict=True) if changing for end in pair}
        keep |= {self.local[node] for node in watched if node in self.local}
        zero = {b for branch, (_, b) in zip(used, ends, strict=True) if b >= 0 and _own_return(branch)}
        self.elimination = plan(len(nodes), [ends[at] for at in inner], keep - {-1}, zero)
        edge = dict(zip(inner, self.elimination.slot, strict=True))
        parts = [
            Part(at, a, b, edge.get(at, -1), 1.0 / branch.ohm, branch.volts + branch.one_way, branch)
            for at, (branch, (a, b)) in enumerate(zip(used, ends, strict=True))
        ]
        self.part_of = dict(zip(indices, parts, strict=True))
        self.steady = [part for part, changing in zip(parts, changes, strict=True) if not changing]
        self.special = [part for part in parts if _special(part.branch)]
        self.gated = _by_position(parts)
        self.at = {index: at for at, index in enumerate(indices)}
        self.node_at = {**self.local, reference: len(nodes)} if circuit.grounds else self.local
        self.base = self.elimination.values()
        for part in self.steady:
            add(self.base, part)
        forward(self.base, self.elimination.early)
        self.weights = self.elimination.early_weights(self.base)

    def closed(self, positions: Positions) -> list[Part]:
        """The plain gated branches that are there in these positions."""
        found: list[Part] = []
        for device, by_position in self.gated.items():
            found += by_position.get(positions.get(device, ""), ())
        return found

    def open_values(self, closed: Iterable[Part]) -> Values:
        """The network with what is steady and what is closed; special branches are still to be added."""
        values = self.base.copy()
        for part in closed:
            add(values, part)
        return values

    def late_volts(self, values: Values) -> list[float]:
        """Voltages of all nodes that gates, coils and special branches touch, in V; the others nan. Uses values up."""
        forward(values, self.elimination.late)
        return self.elimination.late_volts(values)

    def all_volts(self, late: list[float]) -> list[float]:
        """Voltages of all nodes, filled into those of `late_volts`; the reference last."""
        back_early(self.weights, late)
        return late

    def few_volts(self, volts: list[float]) -> Few:
        """By node of the circuit; nan for what floats or is not here."""
        return Few(self.node_at, array("d", volts), nan, self.circuit.nodes)

    def few_amps(self, amps: list[float]) -> Few:
        """By branch of the circuit; 0 for what is not here."""
        return Few(self.at, array("d", amps), 0.0, len(self.circuit.branches))


def add(values: Values, part: Part, conductance: float | None = None) -> None:
    """Add a branch to a network, in place; `conductance` in S instead of its own."""
    _, a, b, edge, own, lift, _ = part
    value = own if conductance is None else conductance
    if edge >= 0:
        values.g[edge] += value
    elif b < 0:
        values.ground[a] += value
    elif a < 0:
        values.ground[b] += value
    if lift:
        inject(values, part, lift * value)


def inject(values: Values, part: Part, amps: float) -> None:
    """Let a current flow into a branch's end a and out of its end b, from outside."""
    values.current[part.a] += amps
    values.current[part.b] -= amps


def _special(branch: Branch) -> bool:
    return bool(branch.amps or branch.one_way or branch.copies >= 0)


def _own_return(branch: Branch) -> bool:
    return branch.sort == "source" and branch.gate is None


def _by_position(parts: Iterable[Part]) -> dict[str, dict[str, list[Part]]]:
    """Device to position to the plain branches closed in it."""
    found: dict[str, dict[str, list[Part]]] = {}
    for part in parts:
        gate = part.branch.gate
        if gate is not None and not _special(part.branch):
            by_position = found.setdefault(gate.device, {})
            for position in gate.closed:
                by_position.setdefault(position, []).append(part)
    return found
