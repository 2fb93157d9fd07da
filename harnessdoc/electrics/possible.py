"""Whether a name could be live at all in some position of what is free: a quick look that never misses one.

Follows what could conduct, loads and coils among it, from where voltage is and from the return, and lets a relay pull
only where both reach its coil. Says "perhaps" or "never"; the solver has the last word."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence

from harnessdoc.electrics.circuit import Circuit, Coil, Gate
from harnessdoc.electrics.probes import Probe
from harnessdoc.electrics.settle import Positions
from harnessdoc.electrics.zones import Setting, Zone

_Edges = Mapping[int, Sequence[tuple[int, Gate | None]]]


class Prospect:
    """What a zone could make of a probe: its branches by node, found once for many positions of its devices."""

    def __init__(self, setting: Setting, zone: Zone, probe: Probe) -> None:
        self.circuit, self.probe, self.fixed = setting.circuit, probe, setting.fixed
        ends, supplies = setting.ends, setting.wiring.supplies
        self.feed, self.back = (ends.feed, ends.back) if ends is not None else ({}, {})
        self.edges: dict[int, list[tuple[int, Gate | None]]] = {}
        self.starts: list[tuple[int, Gate | None]] = []
        devices: dict[str, None] = {}
        for index in zone.inner:
            if setting.absent(index):
                continue
            branch = self.circuit.branches[index]
            a, b, gate = branch.a, branch.b, branch.gate
            if gate is not None:
                devices[gate.device] = None
            self.edges.setdefault(a, []).append((b, gate))
            self.edges.setdefault(b, []).append((a, gate))
            if branch.volts:
                plus = supplies.get(branch.part)
                if plus is not None and branch.sort == "signal":
                    self.edges.setdefault(plus, []).append((a, gate))
                else:
                    self.starts += [(a, gate), (b, gate)]
        self.coils = [c for d in devices if d not in self.fixed for c in self.circuit.coils_of.get(d, ())]
        self.fed = [node for node in self.feed if node in self.edges]
        self.returned = [node for node in self.back if node in self.edges]

    def perhaps(self, held: Positions | None = None) -> bool:
        """False where the probe is dead in every state of the free devices, with more of them `held`."""
        return _Reach(self, {**self.fixed, **held} if held else self.fixed).perhaps(self.probe)

    def narrowed(self, devices: Mapping[str, Sequence[str]]) -> dict[str, tuple[str, ...]]:
        """The devices without those positions that leave the probe dead however the others stand."""
        return {device: tuple(p for p in at if self.perhaps({device: p})) for device, at in devices.items()}


def ever_fed(setting: Setting, probe: Probe) -> bool:
    """False where no voltage could reach the probe whatever feed is lost, the clamped returns as they are: for then
    feeds only become fewer, though what stood between them may now lie on a return."""
    ends = setting.ends
    clamped = frozenset(ends.sources) if ends is not None else frozenset()
    whole = Zone(frozenset(range(len(setting.circuit.branches))) - clamped, frozenset(), {}, True, True)
    prospect = Prospect(setting, whole, probe)
    return _Reach(prospect, setting.fixed, returned=_Anywhere()).perhaps(probe)


class _Anywhere:
    """Every node there is."""

    def __contains__(self, node: object) -> bool:
        return True


class _Reach:
    """What voltage and what the return can reach with some devices fixed; grows as relays pull."""

    def __init__(self, prospect: Prospect, fixed: Positions, returned: Container[int] | None = None) -> None:
        self.circuit: Circuit = prospect.circuit
        self.edges: _Edges = prospect.edges
        self.fixed = fixed
        self.pulled: set[str] = set()
        self.closed: dict[Gate, bool] = {}
        self.hot = set(prospect.feed)
        cold = set(prospect.back)
        self.cold = cold if returned is None else returned
        fronts = [(self.hot, list(prospect.starts), prospect.back, prospect.fed)]
        fronts += [(cold, list(prospect.starts), prospect.feed, prospect.returned)] if returned is None else []
        for reached, later, stop, begun in fronts:
            self._spread(reached, [*begun, *self._begun(later, reached)], stop, later)
        while more := {c.device for c in prospect.coils if c.device not in self.pulled and self.pulls(c)}:
            self.pulled |= more
            self.closed.clear()
            for reached, later, stop, _ in fronts:
                self._spread(reached, self._begun(later, reached), stop, later)

    def _begun(self, later: list[tuple[int, Gate | None]], reached: set[int]) -> list[int]:
        """Nodes that were waiting for a gate which can now conduct; they leave `later` and are reached."""
        nodes = [node for node, gate in later if gate is None or self._conducts(gate)]
        later[:] = [(node, gate) for node, gate in later if gate is not None and not self._conducts(gate)]
        reached.update(nodes)
        return nodes

    def _spread(
        self, reached: set[int], todo: list[int], stop: Container[int], later: list[tuple[int, Gate | None]]
    ) -> None:
        """Go on from the nodes through all that could conduct."""
        edges = self.edges
        while todo:
            for other, gate in edges.get(todo.pop(), ()):
                if other in reached or other in stop:
                    continue
                if gate is None or self._conducts(gate):
                    reached.add(other)
                    todo.append(other)
                else:
                    later.append((other, gate))

    def _conducts(self, gate: Gate) -> bool:
        known = self.closed.get(gate)
        if known is None:
            known = self.closed[gate] = self._find(gate)
        return known

    def _find(self, gate: Gate) -> bool:
        held = self.fixed.get(gate.device)
        if held is not None:
            return held in gate.closed
        if gate.device in self.pulled:
            return True
        coils = self.circuit.coils_of.get(gate.device, ())
        return not coils or any(coil.rest in gate.closed for coil in coils)

    def pulls(self, coil: Coil) -> bool:
        """Whether a coil could pull; one that is held can't be told, so it could."""
        return coil.inverse or self._across(coil.plus, coil.minus) or (
            not coil.polarised and self._across(coil.minus, coil.plus)
        )  # fmt: skip

    def _across(self, plus: int, minus: int) -> bool:
        return plus in self.hot and minus in self.cold

    def perhaps(self, probe: Probe) -> bool:
        """Whether voltage and return could both reach it."""
        if any(node in self.hot for node in probe.nodes):
            return True
        coil = probe.coil
        if coil is not None and (coil.device in self.fixed or self.pulls(coil)):
            return True
        ends = (self.circuit.branches[index] for index, _ in probe.across)
        return any(self._across(b.a, b.b) or self._across(b.b, b.a) for b in ends)
