"""What wires, fuses and closed contacts alone join to a source's feed or return, in given positions of the devices.

Resistors, potentiometers and diodes count as conductors if asked: they are put in a way on purpose. Other loads don't.
No voltages: those are the study's."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from harnessdoc.checks.rule import Case
from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.joining import Joining
from harnessdoc.electrics.study import Studied
from harnessdoc.model.kinds.controls import Potentiometer
from harnessdoc.model.kinds.loads import Diode, Resistor

Positions = Mapping[str, str]
CONDUCTORS = frozenset({"wire", "fuse", "contact", "drive"})


class _Link(NamedTuple):
    device: str
    closed: frozenset[str]
    a: int
    b: int


class Joined:
    """One island as pieces: nodes that conduct to each other in every position, and the contacts between them."""

    def __init__(self, case: Case, studied: Studied, *, through_resistors: bool = True) -> None:
        self._items = case.harness.items
        self._through = through_resistors
        circuit = case.study.circuit
        branches = [circuit.branches[index] for index in studied.island.kept]
        joining: Joining[int] = Joining()
        for branch in branches:
            joining.add(branch.a)
            joining.add(branch.b)
            if branch.gate is None and self._conducts(branch):
                joining.join(branch.a, branch.b)
        self.piece = joining.numbers()
        conducting = (branch for branch in branches if branch.gate is not None and self._conducts(branch))
        self.links = [self._link(branch) for branch in conducting]
        sources = [branch for branch in branches if branch.sort in ("source", "signal")]
        self._always = frozenset(self.piece[branch.a] for branch in sources if branch.gate is None)
        self._gated = [self._link(branch) for branch in sources if branch.gate is not None]
        self.switched = (*self.links, *self._gated)
        returns = {branch.b for branch in sources} | {node for node in circuit.grounds if node in self.piece}
        self.returns = frozenset(self.piece[node] for node in returns)

    def _conducts(self, branch: Branch) -> bool:
        item = self._items.get(branch.part)
        if item is not None and isinstance(item.kind, Resistor | Potentiometer | Diode):
            return self._through
        return branch.sort in CONDUCTORS

    def _link(self, branch: Branch) -> _Link:
        device, closed = branch.gate or ("", frozenset())
        return _Link(device, closed, self.piece[branch.a], self.piece[branch.b])

    def fed(self, positions: Positions) -> set[int]:
        """Pieces that a feed reaches: of a source, a regulator that works, an output, a signal."""
        giving = {link.a for link in self._gated if positions.get(link.device) in link.closed}
        return self.reached(self._always | giving, positions)

    def returning(self, positions: Positions) -> set[int]:
        """Pieces that a return reaches."""
        return self.reached(self.returns, positions)

    def reached(self, starts: Iterable[int], positions: Positions | None = None) -> set[int]:
        """Pieces that closed contacts join to the starts; over all contacts, closed or not, without positions."""
        links = self.links
        if positions is not None:
            links = [link for link in links if positions.get(link.device) in link.closed]
        found = set(starts)
        growing = True
        while growing:
            growing = False
            for _, _, a, b in links:
                if (a in found) != (b in found):
                    found |= {a, b}
                    growing = True
        return found
