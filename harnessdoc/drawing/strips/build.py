"""From a circuit to what its strip draws: its wires, what they land on, and where they leave to other circuits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import Final

from harnessdoc.drawing.strips.blocks import block_of, contact_blocks
from harnessdoc.drawing.strips.graph import Block, Edge, Graph, Level, Pin, Target
from harnessdoc.drawing.strips.homes import NO_CIRCUIT, Homes, Part
from harnessdoc.model.harness import End, Harness, Wire
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.points import CHASSIS, Point

_MOVED: Final = frozenset({"make", "break", "change", "rotary", "contacts"})
MOST_PINS: Final = 8
"""A block with more pins is drawn in pieces, so that each has room on any sheet."""
LISTED: Final = 3
"""So many wires of another circuit are named at a point; of more the count is given."""


def build_graph(homes: Homes, levels: Mapping[Point, Level], circuit: str) -> Graph:
    """All blocks and edges of a circuit's strip, in the order of its wires."""
    return _Builder(homes, levels, circuit).build()


class _Builder:
    def __init__(self, homes: Homes, levels: Mapping[Point, Level], circuit: str) -> None:
        self.homes, self.levels, self.circuit = homes, levels, circuit
        self.harness: Harness = homes.harness
        self.graph = Graph(circuit)
        self.at: dict[Point, tuple[Block, Pin]] = {}
        self.drawn: dict[int, list[Block]] = {}

    def build(self) -> Graph:
        for wire in self.homes.wires.get(self.circuit, ()):
            self.wire(wire)
        for name in self.harness.circuit(self.circuit).items if self.circuit else ():
            self.unwired(name)
        self.links()
        self.find_levels()
        return self.graph

    # --- wires and what they land on

    def wire(self, wire: Wire) -> None:
        ends = [self.landing(end, wire) for end in wire.ends]
        (a, pin_a), (b, pin_b) = ends
        self.graph.edges.append(Edge("wire", a, pin_a, b, pin_b, wire, next(iter(wire.points), None)))

    def landing(self, end: End, wire: Wire) -> tuple[Block, Pin]:
        """The block and pin that a wire's end goes to, drawn now if it is not yet."""
        point = end.point
        if point is None:
            text = "tail, not landed" if end.tail else "where to: unknown"
            return self.add(Block("end", "tail" if end.tail else "unknown", "", [Pin("")], [text]))
        if self.is_earth(point):
            return self.earth(point)
        if point not in self.at:
            self.draw_point(point)
        return self.at[point]

    def is_earth(self, point: Point) -> bool:
        part = self.homes.parts.get(point)
        return point == CHASSIS or (part is not None and part.shape == "earth")

    def earth(self, point: Point) -> tuple[Block, Pin]:
        """Earth is drawn anew at each end, so that no line has to run to it."""
        title = self.harness.title_of(point.owner)
        return self.add(Block("joint", "earth", point.owner, [Pin("", point)], [str(point), title]))

    def add(self, block: Block) -> tuple[Block, Pin]:
        block.lines = [line for line in block.lines if line]
        self.graph.blocks.append(block)
        return block, block.pins[0]

    def draw_point(self, point: Point) -> None:
        part = self.homes.parts.get(point)
        if part is not None and part.home == self.circuit:
            self.draw_part(part)
        elif part is not None:
            title = self.harness.title_of(point.owner)
            symbol = "way" if part.shape == "bar" else "tag"
            target = Target(part.home or NO_CIRCUIT, point)
            tag = Block("tag", symbol, point.owner, [Pin("", point)], [f"{point} {title}"], target=target)
            self.at[point] = self.add(tag)
        elif point.owner in self.harness.splices:
            self.joint(point, "splice", [str(point)])
            for stub in self.homes.stubs_at.get(point, ()):
                lines = [str(stub.point), f"stub: {stub.did}" if stub.did else "stub, joined here"]
                end = self.add(Block("end", "stub", stub.point.owner, [Pin("", stub.point)], lines))
                self.bare(self.at[point], end, point)
        elif point.owner in self.harness.plugs and self.harness.has(point):
            self.cavity(point)
        else:
            self.joint(point, "way", [str(point), "not in the file"])

    def joint(self, point: Point, symbol: str, lines: list[str]) -> None:
        self.at[point] = self.add(Block("joint", symbol, point.owner, [Pin(point.terminal, point)], lines))
        self.leaves(*self.at[point])

    def cavity(self, point: Point) -> None:
        mate = self.homes.mates.get(point)
        if mate is None or mate in self.at:
            self.joint(point, "cavity", [str(point)])
            return
        pins = [Pin(str(point), point), Pin(str(mate), mate)]
        block, _ = self.add(Block("two", "plug", point.owner, pins, [f"{point} – {mate}"]))
        for pin, at in zip(pins, (point, mate), strict=True):
            self.at[at] = (block, pin)
            self.leaves(block, pin)

    def draw_part(self, part: Part) -> None:
        """Draw a part of an item, and at its pins the ways to other circuits."""
        used = [p for p in part.points if p in self.harness.landings]
        if part.shape == "contacts":
            blocks = contact_blocks(part, {point.terminal for point in used})
        elif part.shape in ("box", "bar"):
            shown = used or list(part.points)
            pieces = [shown[i : i + MOST_PINS] for i in range(0, len(shown), MOST_PINS)]
            blocks = [block_of(part, piece, index, len(pieces)) for index, piece in enumerate(pieces)]
        else:
            blocks = [block_of(part, part.points, 0, 1)]
        self.drawn[id(part)] = blocks
        for block in blocks:
            self.add(block)
            self.at.update({pin.point: (block, pin) for pin in block.pins if pin.point is not None})
        for block in blocks:
            for pin in block.pins:
                self.leaves(block, pin)
        if part.shape == "bar":
            for one, other in pairwise(blocks):
                self.bare((one, one.pins[-1]), (other, other.pins[0]), one.pins[-1].point)
        if isinstance(part.item.kind, Load) and part.item.kind.cased:
            case = part.points[1]
            self.bare(self.at[case], self.earth(CHASSIS), case)

    def leaves(self, block: Block, pin: Pin) -> None:
        """Say at a pin which wires of other circuits land there too."""
        if pin.point is None:
            return
        for circuit, wires in self.homes.circuits_at(pin.point).items():
            if circuit == self.circuit:
                continue
            names = ", ".join(wire.name for wire in wires[:LISTED])
            more = f" and {len(wires) - LISTED} more" if len(wires) > LISTED else ""
            tag = Block("tag", "tag", "", [Pin("")], [names + more], target=Target(circuit, pin.point))
            tag.level = self.beyond(pin.point, wires)
            self.bare((block, pin), self.add(tag), pin.point)

    def beyond(self, point: Point, wires: Iterable[Wire]) -> Level:
        """On which side other circuits' wires leave: towards the source where one of them comes from there."""
        here = self.levels.get(point, Level(1, 0))
        far = [self.levels[p] for wire in wires for p in wire.points if p != point and p in self.levels]
        nearest = min(far, default=here)
        return nearest if nearest < here else Level(here.part, here.steps + 1)

    def bare(self, one: tuple[Block, Pin], other: tuple[Block, Pin], point: Point | None) -> None:
        self.graph.edges.append(Edge("bare", *one, *other, point=point))

    # --- what no wire asks for

    def unwired(self, name: str) -> None:
        """An item that the circuit lists and no wire lands on at all."""
        parts = self.homes.by_item.get(name, ())
        if not parts or any(p in self.harness.landings for part in parts for p in part.points):
            return
        part = parts[0]
        if part.shape == "earth":
            block, _ = self.earth(part.points[0])
        else:
            self.draw_part(part)
            block = self.drawn[id(part)][0]
        block.lines.append("no wire lands on it")

    def links(self) -> None:
        """Join what moves together by a dashed line; where the coil is in another strip, say in which."""
        items = dict.fromkeys(b.owner for b in self.graph.blocks if b.symbol in _MOVED)
        for name in items:
            kind = self.harness.items[name].kind
            parts = self.homes.by_item[name]
            movers = [part for part in parts if part.shape in ("coil", "box")]
            moved = [block for part in parts if part.shape == "contacts" for block in self.drawn.get(id(part), ())]
            chain = [block for part in movers for block in self.drawn.get(id(part), ())[:1]] + moved
            for one, other in pairwise(chain):
                one.linked = other.linked = True
                self.graph.edges.append(Edge("link", one, one.pins[0], other, other.pins[0]))
            if isinstance(kind, Relay | RelayBoard) and movers and len(chain) == len(moved):
                home = movers[0].home
                for block in moved:
                    point = next((p for p in movers[0].points if p in self.harness.landings), movers[0].points[0])
                    block.refers = Target(home or NO_CIRCUIT, point) if home is not None else None
                    if home is None or point not in self.harness.landings:
                        block.refers = None
                        block.lines.append("coil: not wired")

    # --- levels

    def find_levels(self) -> None:
        nowhere = Level(1, 0)
        for block in self.graph.blocks:
            if block.symbol == "tag" and block.pins[0].point is None:
                continue
            points = [pin.point for pin in block.pins if pin.point is not None]
            known = [self.levels[point] for point in points if point in self.levels]
            block.level = min(known, default=nowhere)
        for edge in self.graph.edges:
            for block, other in ((edge.a, edge.b), (edge.b, edge.a)):
                if block.sort == "end":
                    block.level = Level(other.level.part, other.level.steps + 1)
