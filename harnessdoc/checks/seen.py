"""What rules ask of the study: voltages between two points in every state, and words for a state and for assumptions.

Values and words only; what they are held against is the rules' own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import isnan
from typing import NamedTuple

from harnessdoc.checks.rule import Case
from harnessdoc.electrics.circuit import Assumption
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Studied
from harnessdoc.model.harness import Operation, State
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.points import Point

Ranges = Mapping[str, tuple[float, float]]


class Seen(NamedTuple):
    """A voltage in V between two points, in a state; `studied` is the island that was settled."""

    volts: float
    state: State
    settled: Settled
    studied: Studied


class Meter:
    """Reads voltages between points of a study, in each island that holds both."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.study = case.study
        branches = self.study.circuit.branches
        self._own: dict[int, dict[int, Studied]] = {}
        self._kept: dict[int, dict[int, Studied]] = {}
        for number, studied in enumerate(self.study.studied):
            for found, indices in ((self._own, studied.island.own), (self._kept, studied.island.kept)):
                for node in {node for index in indices for node in branches[index][:2]}:
                    found.setdefault(node, {})[number] = studied

    def over(self, plus: Point, minus: Point) -> Iterator[Seen]:
        """The voltage of one point over another in every state that settles and in which neither floats.

        Nothing for points that no wire or path touches; of islands with too many states nothing is known either."""
        node = self.study.circuit.node
        if plus in node and minus in node:
            yield from self.over_nodes(node[plus], node[minus])

    def over_nodes(self, plus: int, minus: int) -> Iterator[Seen]:
        """The same by nodes of the circuit."""
        for studied in self.homes(plus, minus):
            for state, settled in studied.outcomes:
                volts = settled.volts[plus] - settled.volts[minus]
                if settled.exact and not settled.cycle and not isnan(volts):
                    yield Seen(volts, state, settled, studied)

    def homes(self, *nodes: int) -> list[Studied]:
        """Islands that hold all the nodes: those of which one is their own, else all."""
        reference = frozenset(self.study.circuit.grounds[:1])
        wanted = [node for node in nodes if node not in reference]
        if not wanted:
            return []
        held = [self._kept.get(node, {}) for node in wanted]
        every = {number: one for number, one in min(held, key=len).items() if all(number in other for other in held)}
        own = [one for number, one in every.items() if any(number in self._own.get(node, ()) for node in wanted)]
        return own or list(every.values())


def in_state(case: Case, state: State) -> str:
    """A state in words: what is not as it rests, as in `with S1 on, S8 wet`."""
    devices = case.study.circuit.devices
    moved = [f"{name} {position}" for name, position in state.items() if position != devices.get(name, ("",))[0]]
    return f"with {', '.join(moved)}" if moved else "with everything at rest"


def assumed(case: Case, *parts: str, words: str = "") -> str:
    """What was assumed of parts, as a clause to put behind a text; only what holds `words`. Empty if nothing was."""
    named = frozenset(parts)
    return _clause(note for note in case.study.circuit.assumptions if note.about in named and words in note.text)


class Assumed:
    """The same for a rule that asks of many parts: what was assumed is sorted by part once."""

    def __init__(self, case: Case) -> None:
        self._notes = case.study.circuit.assumptions
        self._of: dict[str, list[int]] = {}
        for number, note in enumerate(self._notes):
            self._of.setdefault(note.about, []).append(number)

    def __contains__(self, part: str) -> bool:
        return part in self._of

    def of(self, parts: Iterable[str]) -> str:
        """The clause; empty if nothing was assumed."""
        numbers = sorted(number for part in frozenset(parts) for number in self._of.get(part, ()))
        return _clause(self._notes[number] for number in numbers)


def _clause(notes: Iterable[Assumption]) -> str:
    said = "; ".join(f"{note.about} {note.text}" for note in notes)
    return f"; assumed: {said}" if said else ""


def must_fail_safe(case: Case, device: str) -> Operation | None:
    """The first operation line that says `fails safe` and names a position of the device."""
    return next((line for line in case.harness.operation if line.fails_safe and device in line.when), None)


def ranges_of(case: Case, device: str) -> dict[str, Ranges]:
    """Terminal of a sensor or module to its signal's range in V by condition, as stated."""
    kind = case.harness.items[device].kind
    if isinstance(kind, Sensor):
        return {"S": kind.signal_v} if kind.signal_v else {}
    if isinstance(kind, Module):
        return {terminal: output.conditions_v for terminal, output in kind.output.items() if output.conditions_v}
    return {}
