"""A strip woven into layers: columns of blocks, and between them columns in which each wire has a row for its texts.

Between two layers lies a channel; what has to be joined there is a net, of ends on its left and on its right."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from harnessdoc.drawing.strips.graph import Block, Edge, Graph, Pin


@dataclass(eq=False, slots=True)
class Row:
    """An edge's stay in a layer. `label`: here its texts are written; `forward`: its first end is on the left."""

    edge: Edge
    layer: int
    label: bool
    forward: bool
    up: float = 0.5
    down: float = 0.5
    y: int = 0


Vertex = Block | Row


class Tip(NamedTuple):
    """Where a vertex can be joined to from a channel: at a pin, or so many rows under its own y."""

    vertex: Vertex
    fixed: int = 0
    pin: Pin | None = None

    @property
    def row(self) -> int:
        """Rows under the vertex's y; a box may still move its pins."""
        return self.fixed if self.pin is None else self.pin.row

    @property
    def y(self) -> int:
        """Its row on the strip."""
        return self.vertex.y + self.row


@dataclass(eq=False, slots=True)
class Net:
    """What is one in a channel: ends of the layer on its left, and of that on its right."""

    left: list[Tip] = field(default_factory=list)
    right: list[Tip] = field(default_factory=list)
    link: bool = False
    edges: list[Edge] = field(default_factory=list)

    @property
    def tips(self) -> list[Tip]:
        """All its ends."""
        return [*self.left, *self.right]


class Step(NamedTuple):
    """One step of an edge's way: through a net of a channel, from one end to another."""

    channel: int
    net: Net
    start: Tip
    end: Tip


@dataclass(slots=True)
class Weave:
    """`layers`: odd ones hold blocks. `channels`: channel i lies right of layer i; -1 is the first. `ways`: each
    edge's steps from its a to its b, and `stays` the rows between them."""

    layers: list[list[Vertex]]
    channels: dict[int, list[Net]]
    ways: dict[int, list[Step]]
    stays: dict[int, list[Row]]


def weave(graph: Graph) -> Weave:
    """Lay every edge through layers and channels. Columns and sides are set."""
    columns = max((block.column for block in graph.blocks), default=0) + 1
    made = Weave([[] for _ in range(2 * columns + 1)], {}, {}, {})
    for block in graph.blocks:
        made.layers[2 * block.column + 1].append(block)
    nets: dict[tuple[int, int, int], Net] = {}
    for edge in graph.edges:
        _lay(made, nets, edge)
    return made


def _lay(made: Weave, nets: dict[tuple[int, int, int], Net], edge: Edge) -> None:
    start, end = _gates(edge)
    layers = list(_between(start.channel, end.channel, edge.style == "wire"))
    stays: list[Row] = []
    label = next((layer for layer in layers if layer % 2 == 0), None)
    for layer, rightwards in _turned(layers, start.channel):
        is_label = layer == label and edge.style == "wire" and not any(stay.label for stay in stays)
        extent = 1.0 if is_label else 0.5
        stays.append(Row(edge, layer, is_label, rightwards, extent, extent))
        made.layers[layer].append(stays[-1])
    made.stays[id(edge)] = stays
    made.ways[id(edge)] = []
    for step in _steps(made, nets, edge, start, end, stays):
        made.ways[id(edge)].append(step)


class _Gate(NamedTuple):
    """Where an edge leaves a block: the channel, the end there, and whether the block is on the channel's left."""

    channel: int
    tip: Tip
    on_left: bool


def _gates(edge: Edge) -> tuple[_Gate, _Gate]:
    sides = []
    for block, pin, other in ((edge.a, edge.pin_a, edge.b), (edge.b, edge.pin_b, edge.a)):
        right = other.column >= block.column if edge.style == "link" or pin.side is None else pin.side == "right"
        if edge.style == "link" and other.column == block.column:
            right = True
        layer = 2 * block.column + 1
        tip = Tip(block, block.link_row) if edge.style == "link" else Tip(block, pin=pin)
        sides.append(_Gate(layer if right else layer - 1, tip, right))
    return sides[0], sides[1]


def _between(start: int, end: int, labelled: bool) -> Iterator[int]:
    """The layers between two channels; a wire that passes none of wires takes one beside its start, twice."""
    layers = range(start + 1, end + 1) if start < end else range(start, end, -1)
    if labelled and all(layer % 2 for layer in layers):
        beside = start + 1 if start % 2 else start
        yield from (beside, beside)
    yield from layers


def _turned(layers: list[int], channel: int) -> Iterator[tuple[int, bool]]:
    """Each layer with whether it is passed to the right."""
    at = channel
    for layer in layers:
        rightwards = layer > at
        yield layer, rightwards
        at = layer if rightwards else layer - 1


def _steps(
    made: Weave, nets: dict[tuple[int, int, int], Net], edge: Edge, start: _Gate, end: _Gate, stays: list[Row]
) -> Iterator[Step]:
    """Join the ends of the stays in the channels between them."""
    here, on_left, channel = start.tip, start.on_left, start.channel
    for stay in stays:
        tip = Tip(stay)
        yield _join(made, nets, edge, channel, (here, on_left), (tip, not stay.forward))
        here, on_left, channel = tip, stay.forward, stay.layer if stay.forward else stay.layer - 1
    yield _join(made, nets, edge, channel, (here, on_left), (end.tip, end.on_left))


def _join(
    made: Weave,
    nets: dict[tuple[int, int, int], Net],
    edge: Edge,
    channel: int,
    one: tuple[Tip, bool],
    other: tuple[Tip, bool],
) -> Step:
    keys = [_key(channel, tip, left) for tip, left in (one, other)]
    found = [nets[key] for key in keys if key in nets]
    net = found[0] if found else Net(link=edge.style == "link")
    if not found:
        made.channels.setdefault(channel, []).append(net)
    elif len(found) == 2 and found[1] is not net:
        _merge(made, nets, channel, net, found[1])
    for key, (tip, left) in zip(keys, (one, other), strict=True):
        side = net.left if left else net.right
        if key not in nets:
            side.append(tip)
            nets[key] = net
    net.edges.append(edge)
    return Step(channel, net, one[0], other[0])


def _key(channel: int, tip: Tip, left: bool) -> tuple[int, int, int]:
    what = id(tip.pin) if tip.pin is not None else id(tip.vertex)
    return (channel * 2 + left, what, tip.fixed)


def _merge(made: Weave, nets: dict[tuple[int, int, int], Net], channel: int, net: Net, other: Net) -> None:
    """Make two nets one: a line joins pins that both have others."""
    net.left += other.left
    net.right += other.right
    net.edges += other.edges
    made.channels[channel].remove(other)
    nets.update({key: net for key, known in nets.items() if known is other})
    for name, steps in made.ways.items():
        made.ways[name] = [step._replace(net=net) if step.net is other else step for step in steps]
