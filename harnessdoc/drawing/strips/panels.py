"""A woven strip cut into panels that fit a sheet: folded where it is too wide, divided where it is too high.

What is cut goes on from a mark in one panel to the mark of the same letter in another. Every vertex is in one panel.
Millimetres from a panel's top left; draws nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count
from math import floor
from typing import Final, NamedTuple

from harnessdoc.drawing.strips.channels import Wanted, set_tracks
from harnessdoc.drawing.strips.graph import ROW_MM, Block
from harnessdoc.drawing.strips.weave import Net, Tip, Vertex, Weave

TRACK_MM: Final = 2.5
_EASE_MM: Final = 1.5
ALPHABET: Final = "ABCDEFGHJKLMNPQRSTUVWXYZ"


class Room(NamedTuple):
    """What a panel may take: mm wide, rows high; `mark_mm`: the width of a mark."""

    width_mm: float
    rows: float
    mark_mm: float


@dataclass(eq=False, slots=True)
class Mark:
    """Where a line goes on. `x`, `y`: its left end in the panel; `others`: the marks of the same letter."""

    letter: str
    panel: Panel
    x: float = 0.0
    y: float = 0.0
    others: list[Mark] = field(default_factory=list)

    @property
    def onward(self) -> Mark | None:
        """The next of its letter, the first after the last."""
        after = [*self.others[self.others.index(self) + 1 :], *self.others]
        return after[0] if after[0] is not self else None


@dataclass(eq=False, slots=True)
class Bit:
    """A net as far as it lies in a panel: its ends there and, where there are others elsewhere, its mark."""

    net: Net
    left: list[Tip]
    right: list[Tip]
    wanted: Wanted
    cut: bool
    mark: Mark | None = None

    @property
    def marked(self) -> Tip:
        """The end that its mark stands at."""
        return (self.left or self.right)[0]


@dataclass(eq=False, slots=True)
class Lane:
    """A channel in a panel: from x on, with room for marks left and right of its tracks."""

    x: float
    width: float
    before: float
    bits: list[Bit]

    def track_x(self, track: int) -> float:
        """Where a track lies, mm."""
        return self.x + self.before + _EASE_MM + TRACK_MM * track


@dataclass(eq=False, slots=True)
class Panel:
    """Some layers and rows of a strip. `lefts`: layer to its left edge and width, mm; `top`: its first row."""

    vertices: list[list[Vertex]]
    first: int
    top: float
    rows: float
    lefts: dict[int, tuple[float, float]] = field(default_factory=dict)
    lanes: dict[int, Lane] = field(default_factory=dict)
    marks: list[Mark] = field(default_factory=list)
    holds: set[int] = field(default_factory=set)
    width: float = 0.0

    @property
    def height(self) -> float:
        """Its height, mm."""
        return self.rows * ROW_MM

    def y_of(self, row: float) -> float:
        """A row of the strip in mm from the panel's top."""
        return (row - self.top) * ROW_MM


def cut(made: Weave, widths: Sequence[float], room: Room, letters: Iterator[str]) -> list[Panel]:
    """The panels of a strip, pieces from left to right, each from top to bottom. `widths`: of the layers, mm.

    Where a strip is folded, what ends in the next column is kept on this side of the fold if there is room."""
    guess = _lane_guess(made)
    panels: list[Panel] = []
    left = [list(layer) for layer in made.layers]
    start = 0
    while start < len(widths):
        end = _far(start, widths, guess, room)
        while True:
            whole = left[start : end + 1]
            for layers in ([*whole, *_leaves(made, left, end)], whole):
                rows = [(vertex, vertex.y) for layer in layers for vertex in layer]
                piece = _piece(made, widths, room, start, layers)
                fits = _widest(piece) <= room.width_mm
                if fits or (end == start and layers is whole):
                    break
                for vertex, row in rows:
                    vertex.y = row
            if fits or end == start:
                break
            end -= 2 if end - start > 2 and end % 2 == 0 else 1
        panels += piece
        taken = set().union(*(panel.holds for panel in piece))
        left = [[vertex for vertex in layer if id(vertex) not in taken] for layer in left]
        start = end + 1
    _set_marks(panels, letters)
    return panels


def _leaves(made: Weave, left: list[list[Vertex]], end: int) -> list[list[Vertex]]:
    """Blocks of the layer after a fold that have nothing to their right."""
    if end + 1 >= len(left) or end % 2:
        return []
    held = {id(tip.vertex) for net in made.channels.get(end + 1, ()) for tip in net.left}
    found: list[Vertex] = [vertex for vertex in left[end + 1] if isinstance(vertex, Block) and id(vertex) not in held]
    return [found] if found else []


def _widest(piece: Sequence[Panel]) -> float:
    return max((panel.width for panel in piece), default=0.0)


def _lane_guess(made: Weave) -> Mapping[int, float]:
    """About how wide each channel gets."""
    found = {}
    for channel, nets in made.channels.items():
        wants = [Wanted([float(t.y) for t in net.left], [float(t.y) for t in net.right]) for net in nets]
        found[channel] = 2 * _EASE_MM + TRACK_MM * max(set_tracks(wants) - 1, 0)
    return found


def _far(start: int, widths: Sequence[float], guess: Mapping[int, float], room: Room) -> int:
    """The last layer that fits, better one of wires than one of blocks."""
    width, end = 2 * _EASE_MM + room.mark_mm * (start > 0), start
    for layer in range(start, len(widths)):
        width += widths[layer] + guess.get(layer, 0.0)
        last = layer == len(widths) - 1
        if layer > start and width + (0 if last else room.mark_mm) > room.width_mm:
            break
        end = layer
    if end < len(widths) - 1 and end % 2 and end - start >= 2:
        end -= 1
    return end


def _piece(
    made: Weave, widths: Sequence[float], room: Room, start: int, layers: Sequence[Sequence[Vertex]]
) -> list[Panel]:
    """Panels of some layers, from top to bottom."""
    _close_up(layers)
    left = [sorted(layer, key=lambda vertex: vertex.y, reverse=True) for layer in layers]
    panels = []
    while any(left):
        top = min(stack[-1].y - stack[-1].up for stack in left if stack)
        limit = top + room.rows
        taken: list[list[Vertex]] = []
        bottom = top
        for stack in left:
            here: list[Vertex] = []
            while stack and (_bottom(stack[-1]) <= limit or _too_tall(stack[-1], top, room)):
                here.append(stack.pop())
                bottom = max(bottom, _bottom(here[-1]))
            taken.append(here)
        panels.append(Panel(taken, start, top, bottom - top))
    for panel in panels:
        _measure(made, panel, widths, room)
    return panels


def _too_tall(vertex: Vertex, top: float, room: Room) -> bool:
    """Whether the vertex that a panel begins with fits none: then it is taken as it is."""
    return vertex.y - vertex.up <= top and vertex.up + vertex.down > room.rows


def _close_up(layers: Sequence[Sequence[Vertex]]) -> None:
    """Take out rows in which nothing lies: what made them needed is on the other side of a fold."""
    every = sorted((vertex for layer in layers for vertex in layer), key=lambda vertex: vertex.y - vertex.up)
    shift, bottom = 0, None
    for vertex in every:
        top = vertex.y - vertex.up
        if bottom is not None and top - bottom >= 1:
            shift += floor(top - bottom)
        bottom = max(_bottom(vertex), top) if bottom is None else max(bottom, _bottom(vertex))
        vertex.y -= shift


def _bottom(vertex: Vertex) -> float:
    return vertex.y + vertex.down


def _measure(made: Weave, panel: Panel, widths: Sequence[float], room: Room) -> None:
    """Find the panel's bits of nets, their tracks, and where everything lies from left to right."""
    panel.holds = {id(vertex) for layer in panel.vertices for vertex in layer}
    last = panel.first + len(panel.vertices) - 1
    x = 0.0
    for channel in range(panel.first - 1, last + 1):
        bits = [bit for net in made.channels.get(channel, ()) if (bit := _bit(panel, net)) is not None]
        tracks = set_tracks([bit.wanted for bit in bits])
        before = room.mark_mm if any(bit.cut and bit.left for bit in bits) else 0.0
        after = room.mark_mm if any(bit.cut and not bit.left for bit in bits) else 0.0
        width = before + after + (2 * _EASE_MM + TRACK_MM * max(tracks - 1, 0) if tracks else 0.0)
        panel.lanes[channel] = Lane(x, width, before, bits)
        x += width
        if channel < last:
            panel.lefts[channel + 1] = (x, widths[channel + 1])
            x += widths[channel + 1]
    panel.width = x


def _bit(panel: Panel, net: Net) -> Bit | None:
    left = [tip for tip in net.left if id(tip.vertex) in panel.holds]
    right = [tip for tip in net.right if id(tip.vertex) in panel.holds]
    if not left and not right:
        return None
    whole = len(left) + len(right) == len(net.left) + len(net.right)
    wanted = Wanted([float(tip.y) for tip in left], [float(tip.y) for tip in right])
    return Bit(net, left, right, wanted, not whole)


def _set_marks(panels: Sequence[Panel], letters: Iterator[str]) -> None:
    by_net: dict[int, list[Mark]] = {}
    for panel in panels:
        for lane in panel.lanes.values():
            for bit in lane.bits:
                if bit.cut:
                    known = by_net.setdefault(id(bit.net), [])
                    letter = known[0].letter if known else next(letters)
                    bit.mark = Mark(letter, panel, others=known)
                    known.append(bit.mark)
                    bit.mark.y = panel.y_of(bit.marked.y)
                    bit.mark.x = lane.x if bit.left else lane.x + lane.width
                    panel.marks.append(bit.mark)


def letters() -> Iterator[str]:
    """A, B, ... Z without I and O; then A2, B2, ... without M and W too, which with a figure are wider than a mark."""
    yield from ALPHABET
    for number in count(2):
        yield from (f"{letter}{number}" for letter in ALPHABET if letter not in "MW")
