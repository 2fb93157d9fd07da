"""Whether a name could be live at all in some position of what is free: a quick look that never misses one.

Follows what could conduct, loads and coils among it, from where voltage is and from the return, and lets a relay pull
only where both reach its coil. Says "perhaps" or "never"; the solver has the last word."""

from __future__ import annotations

from collections.abc import Iterable

from harnessdoc.electrics.circuit import Branch, Coil
from harnessdoc.electrics.probes import Probe
from harnessdoc.electrics.zones import Setting, Zone


def perhaps_live(setting: Setting, zone: Zone, probe: Probe) -> bool:
    """False where the probe is dead in every state of the zone's free devices."""
    return _Reach(setting, zone).perhaps(probe)


class _Reach:
    def __init__(self, setting: Setting, zone: Zone) -> None:
        self.setting, self.circuit = setting, setting.circuit
        self.inner = [(i, self.circuit.branches[i]) for i in zone.inner if not setting.absent(i)]
        self.pulled: set[str] = set()
        devices = dict.fromkeys(b.gate.device for _, b in self.inner if b.gate is not None)
        self.coils = [c for d in devices if d not in setting.fixed for c in self.circuit.coils_of.get(d, ())]
        self._grow()
        while more := {c.device for c in self.coils if c.device not in self.pulled and self._pulls(c)}:
            self.pulled |= more
            self._grow()

    def _conducts(self, branch: Branch) -> bool:
        gate = branch.gate
        if gate is None or gate.device in self.pulled or gate.device in self.setting.fixed:
            return True
        coils = self.circuit.coils_of.get(gate.device, ())
        return not coils or any(coil.rest in gate.closed for coil in coils)

    def _grow(self) -> None:
        """Nodes that voltage reaches and nodes that the return reaches, through all that could conduct."""
        ends = self.setting.ends
        feed, back = (ends.feed, ends.back) if ends is not None else ({}, {})
        around: dict[int, list[int]] = {}
        self.hot, self.cold = set(feed), set(back)
        starts: set[int] = set()
        supplies = self.setting.wiring.supplies
        for _, branch in self.inner:
            if not self._conducts(branch):
                continue
            around.setdefault(branch.a, []).append(branch.b)
            around.setdefault(branch.b, []).append(branch.a)
            plus = supplies.get(branch.part)
            if branch.volts and plus is not None and branch.sort == "signal":
                around.setdefault(plus, []).append(branch.a)
            elif branch.volts:
                starts |= {branch.a, branch.b}
        self._spread(around, self.hot, [*(n for n in feed if n in around), *starts], back)
        self._spread(around, self.cold, [*(n for n in back if n in around), *starts], feed)

    @staticmethod
    def _spread(
        around: dict[int, list[int]], reached: set[int], starts: Iterable[int], stop: Iterable[int] | dict[int, int]
    ) -> None:
        todo = list(starts)
        reached.update(todo)
        while todo:
            for other in around.get(todo.pop(), ()):
                if other not in reached and other not in stop:
                    reached.add(other)
                    todo.append(other)

    def _pulls(self, coil: Coil) -> bool:
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
        if coil is not None and (coil.device in self.setting.fixed or self._pulls(coil)):
            return True
        ends = (self.circuit.branches[index] for index, _ in probe.across)
        return any(self._across(b.a, b.b) or self._across(b.b, b.a) for b in ends)
