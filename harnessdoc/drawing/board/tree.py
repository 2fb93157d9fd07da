"""What is to be laid: the runs as a tree of places, the longest way first, and how long each is drawn.

A run that closes a loop ends at a repeated place. Knows lengths, no paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from harnessdoc.drawing.stations import Link
from harnessdoc.model.harness import Run

NOMINAL_MM: Final = 300.0
"""How long a run is drawn whose length nobody knows. Own choice."""
SHORTEST_MM: Final = 1.0


@dataclass(frozen=True, slots=True)
class Drawn:
    """How one run is drawn: its length on the board, what is left out of its middle; `known`: it states a length."""

    run: int
    drawn_mm: float
    left_out_mm: float = 0.0
    known: bool = True


@dataclass(slots=True)
class Branch:
    """A run on the way outwards: the station it leads to, and what leads on from there, longest first.

    `echo`: that station is laid elsewhere, the run closes a loop. `forward`: the run's own first end comes first."""

    drawn: Drawn
    station: int
    echo: bool = False
    forward: bool = True
    onwards: list[Branch] = field(default_factory=list)


@dataclass(slots=True)
class Root:
    """Where a connected part begins."""

    station: int
    onwards: list[Branch]


def drawn_lengths(runs: Sequence[Run], longest_mm: float | None) -> list[Drawn]:
    """How each run is drawn; with `longest_mm` the middle of a longer one is left out."""
    found = []
    for index, run in enumerate(runs):
        if run.length_mm is None:
            found.append(Drawn(index, NOMINAL_MM, known=False))
        elif longest_mm is not None and run.length_mm > longest_mm:
            found.append(Drawn(index, longest_mm, run.length_mm - longest_mm))
        else:
            found.append(Drawn(index, max(run.length_mm, SHORTEST_MM)))
    return found


def trees(stations: int, links: Sequence[Link], drawn: Sequence[Drawn]) -> list[Root]:
    """Each connected part of the runs as a tree from one end of its longest way; stations without runs are left out."""
    around: dict[int, list[Link]] = {}
    for link in links:
        around.setdefault(link.a, []).append(link)
        around.setdefault(link.b, []).append(link)
    roots: list[Root] = []
    seen: set[int] = set()
    for start in range(stations):
        if start in seen or start not in around:
            continue
        tree = _spanning(start, around)
        seen.update(tree)
        end = _farthest(_farthest(start, tree, drawn), tree, drawn)
        other = _farthest(end, tree, drawn)
        roots.append(Root(min(end, other), _hang(min(end, other), tree, around, drawn)))
    return roots


_Tree = dict[int, list[Link]]


def _spanning(start: int, around: _Tree) -> _Tree:
    """The links that reach every station once, first by first."""
    tree: _Tree = {start: []}
    order = [start]
    for node in order:
        for link in around[node]:
            other = link.b if link.a == node else link.a
            if other not in tree:
                tree[other] = [link]
                tree[node].append(link)
                order.append(other)
    return tree


def _farthest(start: int, tree: _Tree, drawn: Sequence[Drawn]) -> int:
    far = {start: 0.0}
    order = [start]
    for node in order:
        for link in tree[node]:
            other = link.b if link.a == node else link.a
            if other not in far:
                far[other] = far[node] + _of(link, drawn).drawn_mm
                order.append(other)
    return min(far, key=lambda node: (-far[node], node))


def _of(link: Link, drawn: Sequence[Drawn]) -> Drawn:
    assert link.run is not None  # the board lays runs only
    return drawn[link.run]


def _hang(root: int, tree: _Tree, around: _Tree, drawn: Sequence[Drawn]) -> list[Branch]:
    """The branches at the root, each with all beyond it; a link outside the tree hangs on its first end as an echo."""
    in_tree = {link.run for links in tree.values() for link in links}
    closing: dict[int, list[Branch]] = {}
    for node in tree:
        for link in around[node]:
            if link.run not in in_tree and link.a == node:
                closing.setdefault(node, []).append(Branch(_of(link, drawn), link.b, echo=True))
    at: dict[int, list[Branch]] = {root: []}
    depth: dict[int, float] = {}
    order = [(root, -1)]
    for node, came in order:
        for link in tree[node]:
            other = link.b if link.a == node else link.a
            if other != came:
                branch = Branch(_of(link, drawn), other, forward=link.a == node)
                at[node].append(branch)
                at[other] = branch.onwards
                order.append((other, node))
    for node, _ in reversed(order):
        at[node].sort(key=lambda branch: -branch.drawn.drawn_mm - depth[branch.station])
        depth[node] = max((b.drawn.drawn_mm + depth[b.station] for b in at[node]), default=0.0)
        at[node] += closing.get(node, [])
    return at[root]
