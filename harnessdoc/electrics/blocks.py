"""The block tree of a graph: its parts that no single node holds together, and the nodes where they hang on each other.

Walked from a root, each block knows the block it hangs from, so that the way from any node back to the source is the
chain of blocks above it. Source: J. Hopcroft and R. Tarjan, Efficient algorithms for graph manipulation (1973)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple


class Block(NamedTuple):
    """`edges`: indices of the edges in it. `nodes`: its nodes without `hangs_at`, the node nearest to the root.
    `above`: index of the block it hangs from, -1 at the top. A root is a block of its own, with no edges."""

    edges: tuple[int, ...]
    nodes: tuple[int, ...]
    hangs_at: int
    above: int


class BlockTree(NamedTuple):
    """All blocks, each after the ones above it. `home`: node to the block that it belongs to."""

    blocks: tuple[Block, ...]
    home: Mapping[int, int]

    def chain(self, node: int) -> list[int]:
        """The blocks from a node back to its root, nearest first."""
        found = []
        block = self.home.get(node, -1)
        while block >= 0:
            found.append(block)
            block = self.blocks[block].above
        return found


def block_tree(edges: Sequence[tuple[int, int]], roots: Iterable[int], nodes: Iterable[int]) -> BlockTree:
    """Split the graph of `edges` into blocks, walking from `roots` first, then from whatever is left of `nodes`.

    Edges that join a node with itself are in no block."""
    around: dict[int, list[tuple[int, int]]] = {}
    for index, (a, b) in enumerate(edges):
        if a != b:
            around.setdefault(a, []).append((b, index))
            around.setdefault(b, []).append((a, index))
    walk = _Walk(around)
    for start in [*roots, *nodes]:
        if start not in walk.number:
            walk.from_root(start)
    return walk.tree()


class _Walk:
    """Depth first over all nodes, without recursion; blocks fall off as they are complete."""

    def __init__(self, around: Mapping[int, list[tuple[int, int]]]) -> None:
        self.around = around
        self.number: dict[int, int] = {}
        self.low: dict[int, int] = {}
        self.entered: dict[int, tuple[int, int]] = {}
        """Node to how long the lists of edges and nodes were when it was found."""
        self.found: list[tuple[list[int], list[int], int]] = []
        self.roots: list[int] = []

    def from_root(self, root: int) -> None:
        self._enter(root)
        self.roots.append(root)
        nodes: list[int] = []
        edge_stack: list[int] = []
        trail: list[tuple[int, int, int]] = [(root, -1, 0)]
        while trail:
            node, came_by, position = trail.pop()
            near = self.around.get(node, [])
            if position < len(near):
                trail.append((node, came_by, position + 1))
                other, edge = near[position]
                if edge == came_by:
                    continue
                if other not in self.number:
                    self.entered[other] = len(edge_stack), len(nodes)
                    edge_stack.append(edge)
                    nodes.append(other)
                    self._enter(other)
                    trail.append((other, edge, 0))
                elif self.number[other] < self.number[node]:
                    edge_stack.append(edge)
                    self.low[node] = min(self.low[node], self.number[other])
            elif trail:
                above = trail[-1][0]
                self.low[above] = min(self.low[above], self.low[node])
                if self.low[node] >= self.number[above]:
                    self._cut(nodes, edge_stack, node, above)

    def _enter(self, node: int) -> None:
        self.number[node] = self.low[node] = len(self.number)

    def _cut(self, nodes: list[int], edges: list[int], down_to: int, hangs_at: int) -> None:
        at, node_at = self.entered[down_to]
        self.found.append((edges[at:], nodes[node_at:], hangs_at))
        del edges[at:], nodes[node_at:]

    def tree(self) -> BlockTree:
        """Blocks in the order from the roots down, with what each hangs from."""
        tops: list[tuple[list[int], list[int], int]] = [([], [root], -1) for root in self.roots]
        found = tops + self.found
        ordered = sorted(found, key=lambda block: self.number[block[2]] if block[2] >= 0 else -1)
        home = {node: index for index, (_, nodes, _) in enumerate(ordered) for node in nodes}
        blocks = tuple(
            Block(tuple(edges), tuple(nodes), at, home[at] if at >= 0 else -1) for edges, nodes, at in ordered
        )
        return BlockTree(blocks, home)
