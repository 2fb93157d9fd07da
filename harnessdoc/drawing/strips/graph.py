"""What a circuit strip is made of before it is laid out: blocks with pins, and the edges that join them.

A block is one thing drawn at one place: a fuse, one contact, a coil, a splice, the way out to another circuit. Knows
points and wires by name, no millimetres of paper but the rows that a block takes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final, Literal, NamedTuple

from harnessdoc.model.harness import Wire
from harnessdoc.model.points import Point

ROW_MM: Final = 6.0
"""The raster: pins lie on whole rows."""
PITCH: Final = 2
"""Rows between two pins of a block, so that each has its wire's texts beside it."""

Sort = Literal["two", "change", "box", "joint", "bar", "tag", "end"]
Side = Literal["left", "right"]
Style = Literal["wire", "bare", "link"]


class Level(NamedTuple):
    """How far a point is from source to return: 0 on the feed's side, 1 between, 2 on the return's; then steps."""

    part: int
    steps: int


@dataclass(eq=False, slots=True)
class Pin:
    """Where an edge may end on a block. `side` None: on both. `row`: rows under the block's first."""

    name: str
    point: Point | None = None
    side: Side | None = None
    row: int = 0


class Target(NamedTuple):
    """What a block says of another circuit: which, and the point or part to look for there."""

    circuit: str
    point: Point


@dataclass(eq=False, slots=True)
class Block:
    """`symbol`: how it is drawn. `lines`: what is written over it, the first in bold. `target`: where it goes on.
    `linked`: a dashed line starts or ends at it. `up`, `down`: rows it takes over and under its first pin."""

    sort: Sort
    symbol: str
    owner: str
    pins: list[Pin]
    lines: list[str] = field(default_factory=list)
    level: Level = Level(1, 0)
    target: Target | None = None
    refers: Target | None = None
    linked: bool = False
    column: int = 0
    flipped: bool = False
    up: float = 1.0
    down: float = 1.0
    y: int = 0

    @property
    def rows(self) -> int:
        """Rows from its first pin to its last."""
        return max((pin.row for pin in self.pins), default=0)

    @property
    def link_row(self) -> int:
        """The row on which its dashed line leaves."""
        return self.rows + PITCH


@dataclass(eq=False, slots=True)
class Edge:
    """A wire, a bare line to what a pin belongs with, or the dashed link of what moves together."""

    style: Style
    a: Block
    pin_a: Pin
    b: Block
    pin_b: Pin
    wire: Wire | None = None
    point: Point | None = None


@dataclass(slots=True)
class Graph:
    """All of one circuit."""

    circuit: str
    blocks: list[Block] = field(default_factory=list)
    edges: list[Edge] = field(default_factory=list)

    def components(self) -> list[Graph]:
        """The parts that nothing joins, in the order of their first blocks."""
        number = {id(block): index for index, block in enumerate(self.blocks)}
        above = list(range(len(self.blocks)))

        def top(index: int) -> int:
            while above[index] != index:
                above[index] = above[above[index]]
                index = above[index]
            return index

        for edge in self.edges:
            one, other = sorted((top(number[id(edge.a)]), top(number[id(edge.b)])))
            above[other] = one
        found: dict[int, Graph] = {}
        for index, block in enumerate(self.blocks):
            found.setdefault(top(index), Graph(self.circuit)).blocks.append(block)
        for edge in self.edges:
            found[top(number[id(edge.a)])].edges.append(edge)
        return list(found.values())
