"""The zone of a load: the few branches that can decide whether it is live while some devices stand fixed.

What plain copper, fuses and closed contacts join to a source or to its return is clamped there, so a zone ends at it;
of the way from there to the source one chain is kept. So a fault is settled in a handful of states, and a lost feed or
return, which lets the zone grow, is seen as such. Knows no faults and no verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property
from math import prod
from typing import NamedTuple

from harnessdoc.electrics.circuit import Branch, Circuit
from harnessdoc.electrics.settle import Positions

_HARD = frozenset({"wire", "fuse", "drive", "contact"})


class Zone(NamedTuple):
    """`inner`: branches between clamped nodes; `ways`: the chains from there to the sources and back. `devices`: what
    is free to stand in any position. `fed`, `returned`: whether it touches a source's feed and the return."""

    inner: frozenset[int]
    ways: frozenset[int]
    devices: Mapping[str, tuple[str, ...]]
    fed: bool
    returned: bool
    sources: frozenset[int] = frozenset()

    @property
    def kept(self) -> tuple[int, ...]:
        """All branches to settle it with."""
        return tuple(sorted(self.inner | self.ways | self.sources))

    @property
    def states(self) -> int:
        """How many states it has."""
        return prod(len(positions) for positions in self.devices.values())


class Wiring:
    """A circuit's branches by node, found once."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit

    @cached_property
    def around(self) -> Mapping[int, tuple[tuple[int, int], ...]]:
        """Node to its branches and their other ends."""
        found: dict[int, list[tuple[int, int]]] = {}
        for index, branch in enumerate(self.circuit.branches):
            found.setdefault(branch.a, []).append((index, branch.b))
            found.setdefault(branch.b, []).append((index, branch.a))
        return {node: tuple(near) for node, near in found.items()}

    @cached_property
    def sources(self) -> tuple[int, ...]:
        """Sources that nothing gates."""
        return tuple(i for i, b in enumerate(self.circuit.branches) if b.sort == "source" and b.gate is None)

    @cached_property
    def order(self) -> Mapping[str, int]:
        """Device to its place among all that can be set."""
        return {name: at for at, name in enumerate(self.circuit.devices)}

    @cached_property
    def supplies(self) -> Mapping[str, int]:
        """What gives a signal only while it is supplied, to the node that supplies it."""
        giving = {branch.part for branch in self.circuit.branches if branch.sort == "signal"}
        return {b.part: b.a for b in self.circuit.branches if b.sort == "load" and b.part in giving}


class Setting:
    """A circuit with some devices fixed, some branches taken out and some added (numbered after the circuit's own)."""

    def __init__(
        self, wiring: Wiring, fixed: Positions, blocked: frozenset[int] = frozenset(), extra: tuple[Branch, ...] = ()
    ) -> None:
        self.wiring, self.fixed, self.blocked, self.extra = wiring, fixed, blocked, extra

    @cached_property
    def circuit(self) -> Circuit:
        """The circuit with what was added."""
        own = self.wiring.circuit
        if not self.extra:
            return own
        top = max(own.nodes, *(max(branch.a, branch.b) + 1 for branch in self.extra))
        return Circuit(own.node, top, own.branches + self.extra, own.devices, own.coils, own.grounds)

    @cached_property
    def _more(self) -> Mapping[int, tuple[tuple[int, int], ...]]:
        found: dict[int, tuple[tuple[int, int], ...]] = {}
        for index, branch in enumerate(self.extra, len(self.wiring.circuit.branches)):
            found[branch.a] = (*found.get(branch.a, ()), (index, branch.b))
            found[branch.b] = (*found.get(branch.b, ()), (index, branch.a))
        return found

    def near(self, node: int) -> Iterable[tuple[int, int]]:
        """The branches at a node and their other ends, what is taken out among them."""
        own = self.wiring.around.get(node, ())
        return (*own, *self._more[node]) if node in self._more else own

    @cached_property
    def ends(self) -> Clamped | None:
        """The clamped nodes; None where a source is shorted."""
        grounds = self.circuit.grounds[:1]
        back = dict.fromkeys(grounds, -1)
        self._spread(back)
        feed: dict[int, int] = {}
        live = []
        for index in self.wiring.sources:
            branch = self.circuit.branches[index]
            if index not in self.blocked and branch.b in back:
                if branch.a in back:
                    return None
                feed[branch.a] = -1
                live.append(index)
        self._spread(feed)
        return Clamped(feed, back, tuple(live))

    def _spread(self, reached: dict[int, int]) -> None:
        """Go on from the nodes through what conducts whatever the free devices do; node to the branch it came by."""
        branches, fixed, blocked = self.circuit.branches, self.fixed, self.blocked
        todo = list(reached)
        while todo:
            for index, other in self.near(todo.pop()):
                if other in reached or index in blocked:
                    continue
                branch = branches[index]
                if branch.sort not in _HARD or branch.one_way:
                    continue
                gate = branch.gate
                if gate is None or fixed.get(gate.device) in gate.closed:
                    reached[other] = index
                    todo.append(other)

    def absent(self, index: int) -> bool:
        """Whether a branch is taken out or held open."""
        gate = self.circuit.branches[index].gate
        held = self.fixed.get(gate.device) if gate is not None else None
        return index in self.blocked or (gate is not None and held is not None and held not in gate.closed)

    def without(self, blocked: frozenset[int]) -> Setting:
        """The same with more taken out between clamped nodes, which stay as they are."""
        fewer = Setting(self.wiring, self.fixed, self.blocked | blocked, self.extra)
        fewer.__dict__["ends"] = self.ends
        return fewer

    def zone(self, nodes: Iterable[int], branches: Iterable[int] = ()) -> Zone | None:
        """The zone of these nodes and branches, with all that moves its relays; None where a source is shorted."""
        ends = self.ends
        return _Growth(self, ends).zone(nodes, branches) if ends is not None else None


class Clamped(NamedTuple):
    """Nodes joined to a source's feed and to the return, each with the branch it was reached by; the sources."""

    feed: Mapping[int, int]
    back: Mapping[int, int]
    sources: tuple[int, ...]


class _Growth:
    def __init__(self, setting: Setting, ends: Clamped) -> None:
        self.setting, self.ends = setting, ends
        self.inner: set[int] = set()
        self.seen: set[int] = set()
        self.todo: list[int] = []
        self.moved: set[str] = set()
        self.devices: dict[str, tuple[str, ...]] = {}

    def zone(self, nodes: Iterable[int], branches: Iterable[int]) -> Zone:
        self.todo.extend(nodes)
        for index in branches:
            self._take(index)
        feed, back = self.ends.feed, self.ends.back
        while self.todo:
            node = self.todo.pop()
            if node in self.seen:
                continue
            self.seen.add(node)
            if node in feed or node in back:
                continue
            for index, other in self.setting.near(node):
                if index not in self.inner and not self.setting.absent(index):
                    self._take(index)
                    self.todo.append(other)
        ways: set[int] = set()
        for node in self.seen:
            self._walk(node, feed, ways)
            self._walk(node, back, ways)
        circuit = self.setting.circuit
        for source in self.ends.sources:
            self._walk(circuit.branches[source].b, back, ways)
        order = self.setting.wiring.order
        devices = {name: self.devices[name] for name in sorted(self.devices, key=order.__getitem__)}
        return Zone(
            frozenset(self.inner), frozenset(ways) - self.inner, devices,
            any(node in feed for node in self.seen), any(node in back for node in self.seen),
            frozenset(self.ends.sources),
        )  # fmt: skip

    def _take(self, index: int) -> None:
        circuit, fixed = self.setting.circuit, self.setting.fixed
        branch = circuit.branches[index]
        self.inner.add(index)
        self.todo += branch[:2]
        if branch.copies >= 0 and branch.copies not in self.inner:
            self._take(branch.copies)
        if branch.sort == "signal" and branch.part in self.setting.wiring.supplies:
            self.todo.append(self.setting.wiring.supplies[branch.part])
        device = branch.gate.device if branch.gate is not None else ""
        if not device or device in self.moved or device in fixed:
            return
        self.moved.add(device)
        if device in circuit.devices:
            self.devices[device] = circuit.devices[device]
        for coil in circuit.coils_of.get(device, ()):
            self.todo += (coil.plus, coil.minus, *(int(node) for node in (coil.supply or ())[:2]))

    def _walk(self, node: int, came: Mapping[int, int], ways: set[int]) -> None:
        """Add the chain from a clamped node to where it is clamped."""
        branches = self.setting.circuit.branches
        while (index := came.get(node, -1)) >= 0 and index not in ways:
            ways.add(index)
            branch = branches[index]
            node = branch.b if node == branch.a else branch.a
