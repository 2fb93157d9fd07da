"""Islands: parts of the circuit whose devices do not change what happens in the others, but for shared feeds.

Each is settled in all positions of the devices that reach it, together with the way back to the source, so cost
follows islands and not the whole vehicle. What the other islands draw meanwhile is added afterwards (study)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import prod
from typing import NamedTuple

from harnessdoc.electrics.blocks import BlockTree, block_tree
from harnessdoc.electrics.circuit import Circuit, Coil

OWN_STATES = 256
"""A part with at most so many states of its own is not divided further."""
MOST_STATES = 4096
"""An island with more states is not settled; its checks print "not verified"."""


class Island(NamedTuple):
    """`kept`: branches to settle it with. `own`: those that are its own; `way`: shared feeds and returns that lead to
    them; the rest of `kept` moves its relays. `devices`: what is enumerated."""

    name: str
    own: frozenset[int]
    way: frozenset[int]
    kept: tuple[int, ...]
    devices: Mapping[str, tuple[str, ...]]

    @property
    def states(self) -> int:
        """Number of states to enumerate."""
        return prod(len(positions) for positions in self.devices.values())

    @property
    def too_many(self) -> bool:
        """Whether there are more states than are settled."""
        return self.states > MOST_STATES


def islands(circuit: Circuit) -> tuple[Island, ...]:
    """Divide the circuit; every branch outside the shared feeds and returns is some island's own."""
    return _Division(circuit).islands()


def self_holding(circuit: Circuit) -> frozenset[str]:
    """Relays with a contact on the way to their own coil, straight or by way of other relays: they may hold
    themselves, so that two answers can be right in one state."""
    return _Division(circuit).self_holding()


class _Division:
    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.branches = circuit.branches
        self.returns = self._return_nodes()
        self.feeding: list[int] = []
        self.hanging: dict[int, list[int]] = {}
        self.return_wires: list[int] = []
        self.sources: list[int] = []
        self._sort_branches()
        plus = [self.branches[i].a for i in self.sources]
        loose = dict.fromkeys(node for i in self.feeding for node in self.branches[i][:2])
        ends = [(self.branches[i].a, self.branches[i].b) for i in self.feeding]
        self.feed = block_tree(ends, plus, [*self.hanging, *loose])
        self.top = self._tops()
        self.givers = self._givers()
        self.back = block_tree(
            [(self.branches[i].a, self.branches[i].b) for i in self.return_wires], circuit.grounds, self.returns
        )
        self.coils_of: dict[str, list[Coil]] = {}
        for coil in circuit.coils:
            self.coils_of.setdefault(coil.device, []).append(coil)
        self.below: dict[int, list[int]] = {}
        for index, block in enumerate(self.feed.blocks):
            self.below.setdefault(block.above, []).append(index)

    def _return_nodes(self) -> frozenset[int]:
        """Nodes that wires alone join to a source's return or the chassis."""
        around: dict[int, list[int]] = {}
        for branch in self.branches:
            if branch.sort == "wire":
                around.setdefault(branch.a, []).append(branch.b)
                around.setdefault(branch.b, []).append(branch.a)
        seen = set(self.circuit.grounds)
        todo = list(seen)
        while todo:
            for other in around.get(todo.pop(), ()):
                if other not in seen:
                    seen.add(other)
                    todo.append(other)
        return frozenset(seen)

    def _sort_branches(self) -> None:
        for index, branch in enumerate(self.branches):
            a, b = branch.a in self.returns, branch.b in self.returns
            if branch.sort == "source" and branch.gate is None and b:
                self.sources.append(index)
            elif a and b:
                self.return_wires.append(index)
            elif a or b:
                self.hanging.setdefault(branch.b if a else branch.a, []).append(index)
            else:
                self.feeding.append(index)

    def _tops(self) -> list[int]:
        """Each feeding block's top: blocks with one top are joined by something that is no return."""
        tops: list[int] = []
        for index, block in enumerate(self.feed.blocks):
            tops.append(index if block.above < 0 else tops[block.above])
        return tops

    def _givers(self) -> dict[int, list[int]]:
        """Top to the branches that give a voltage to what is under it; signals only where nothing stronger does."""
        strong: dict[int, list[int]] = {}
        weak: dict[int, list[int]] = {}
        for index in [*self.sources, *(i for hanging in self.hanging.values() for i in hanging), *self.feeding]:
            branch = self.branches[index]
            home = self.feed.home.get(branch.a, self.feed.home.get(branch.b, -1))
            if home >= 0 and branch.sort in ("source", "signal"):
                (strong if branch.sort == "source" else weak).setdefault(self.top[home], []).append(index)
        return weak | strong

    def self_holding(self) -> frozenset[str]:
        """Devices that come round to their own coil, going from each device to the coils that its contacts feed."""
        gates: list[frozenset[str]] = []
        for index, block in enumerate(self.feed.blocks):
            above = gates[block.above] if block.above >= 0 else frozenset()
            used = (self.branches[i] for i in self._branches_of([index]))
            feeds = (branch.gate for branch in used if branch.sort != "load")
            own = {gate.device for gate in feeds if gate is not None and gate.device in self.circuit.coils_of}
            gates.append(above | own if own else above)
        moved_by: dict[str, set[str]] = {}
        for coil in self.circuit.coils:
            for node in (coil.plus, coil.minus, *(coil.supply or ())[:2]):
                home = self.feed.home.get(int(node), -1)
                moved_by.setdefault(coil.device, set()).update(gates[home] if home >= 0 else ())
        return frozenset(device for device in moved_by if device in _leads_to(moved_by, device))

    def islands(self) -> tuple[Island, ...]:
        groups: list[list[int]] = []
        few = self._with_few_states()
        todo = list(reversed(self.below.get(-1, [])))
        while todo:
            block = todo.pop()
            if few[block]:
                groups.append(self._subtree(block))
            else:
                groups.append([block])
                todo.extend(reversed(self.below.get(block, [])))
        merged = self._merged(groups)
        own = [frozenset(self._branches_of(group)) for group in merged]
        at = {branch: number for number, part in enumerate(own) for branch in part}
        return tuple(self._island(number, own, at) for number in range(len(own)) if own[number])

    def _with_few_states(self) -> list[bool]:
        """For each block, whether it and all below it have few states; counted from the leaves up."""
        blocks = self.feed.blocks
        devices: list[dict[str, tuple[str, ...]] | None] = [
            self._devices(self._branches_of([i])) for i in range(len(blocks))
        ]
        for index in range(len(blocks) - 1, -1, -1):
            mine, above = devices[index], blocks[index].above
            if mine is not None and self._states(mine) > OWN_STATES:
                devices[index] = mine = None
            if above >= 0:
                upper = devices[above]
                if upper is None or mine is None:
                    devices[above] = None
                else:
                    upper.update(mine)
                    if self._states(upper) > OWN_STATES:
                        devices[above] = None
        return [found is not None for found in devices]

    def _merged(self, groups: list[list[int]]) -> list[list[int]]:
        """Put neighbours under one node that nothing switches together into one island."""
        by_node: dict[int, list[list[int]]] = {}
        for group in groups:
            by_node.setdefault(self.feed.blocks[group[0]].hangs_at, []).append(group)
        merged: list[list[int]] = []
        for siblings in by_node.values():
            gated = [any(self.branches[i].gate for i in self._branches_of(group)) for group in siblings]
            without = [group for group, switched in zip(siblings, gated, strict=True) if not switched]
            merged += [group for group, switched in zip(siblings, gated, strict=True) if switched]
            if without:
                merged.append([block for group in without for block in group])
        return merged

    def _subtree(self, block: int) -> list[int]:
        found = [block]
        for at in found:
            found.extend(self.below.get(at, []))
        return found

    def _branches_of(self, blocks: Iterable[int]) -> list[int]:
        """The blocks' edges, and what hangs from their nodes to the return."""
        found: list[int] = []
        for index in blocks:
            block = self.feed.blocks[index]
            found += [self.feeding[edge] for edge in block.edges]
            for node in block.nodes:
                found += self.hanging.get(node, [])
        return found

    def _devices(self, branches: Iterable[int]) -> dict[str, tuple[str, ...]]:
        """What a person or the world sets among the gates of the branches."""
        gates = (self.branches[index].gate for index in branches)
        named = dict.fromkeys(gate.device for gate in gates if gate is not None)
        return {name: self.circuit.devices[name] for name in named if name in self.circuit.devices}

    @staticmethod
    def _states(devices: Mapping[str, tuple[str, ...]]) -> int:
        return prod(len(positions) for positions in devices.values())

    def _island(self, number: int, own: list[frozenset[int]], at: Mapping[int, int]) -> Island:
        """Add to an island's own branches the way to the source and back, and all that moves its relays."""
        kept = set(own[number])
        way = frozenset(self._ways(kept, _Seen())) - own[number]
        moved: set[str] = set()
        fresh = set(kept)
        seen = _Seen()
        while fresh:
            fresh |= self._ways(fresh, seen)
            kept |= fresh
            gates = {gate.device for index in fresh if (gate := self.branches[index].gate) is not None}
            around: set[int] = set()
            for copied in {self.branches[index].copies for index in fresh} - {-1}:
                around |= {copied} | self._around(self.branches[copied].a, own, at)
            for device in gates - moved:
                for coil in self.coils_of.get(device, ()):
                    for node in (coil.plus, coil.minus, *(coil.supply or ())[:2]):
                        around |= self._around(int(node), own, at)
            moved |= gates
            fresh = around - kept
        ordered = tuple(sorted(kept | set(self.sources)))
        devices = self._devices(ordered)
        names = sorted({self.branches[index].part for index in own[number]})
        return Island(names[0] if names else "", own[number], way | frozenset(self.sources), ordered, devices)

    def _around(self, node: int, own: list[frozenset[int]], at: Mapping[int, int]) -> set[int]:
        """The island that a coil's node lies in, if it has few states, else what hangs on the node and its way up."""
        hanging = self.hanging.get(node, [])
        block = self.feed.home.get(node, -1)
        touching = list(hanging) + ([self.feeding[e] for e in self.feed.blocks[block].edges] if block >= 0 else [])
        found = set(touching)
        for index in touching:
            part = own[at[index]] if index in at else frozenset()
            if self._states(self._devices(part)) <= OWN_STATES:
                found |= part
        return found

    def _ways(self, branches: set[int], seen: _Seen) -> set[int]:
        """What gives the branches a voltage, and the blocks from every node back to there and to the return."""
        nodes = {node for index in branches for node in self.branches[index][:2]}
        home = self.feed.home
        tops = {self.top[home[node]] for node in nodes if node in home} - seen.tops
        seen.tops |= tops
        found = {giver for top in tops for giver in self.givers.get(top, ())}
        nodes |= {node for index in found for node in self.branches[index][:2]}
        self._climb(self.feed, nodes, seen.feed, self.feeding, found)
        self._climb(self.back, nodes, seen.back, self.return_wires, found)
        return found

    @staticmethod
    def _climb(tree: BlockTree, nodes: Iterable[int], seen: set[int], edges: list[int], found: set[int]) -> None:
        home, blocks = tree.home, tree.blocks
        for node in nodes:
            block = home.get(node, -1)
            while block >= 0 and block not in seen:
                seen.add(block)
                found.update([edges[edge] for edge in blocks[block].edges])
                block = blocks[block].above


def _leads_to(moved_by: Mapping[str, Iterable[str]], device: str) -> set[str]:
    """All that moves a device, straight or by way of others."""
    found: set[str] = set()
    todo = [device]
    while todo:
        for other in moved_by.get(todo.pop(), ()):
            if other not in found:
                found.add(other)
                todo.append(other)
    return found


class _Seen:
    """Blocks and tops that an island has already."""

    __slots__ = ("back", "feed", "tops")

    def __init__(self) -> None:
        self.feed: set[int] = set()
        self.back: set[int] = set()
        self.tops: set[int] = set()
