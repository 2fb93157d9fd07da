"""A woven strip cut into panels that fit a sheet: folded where it is too wide, divided where it is too high.

What is cut goes on from a mark in one panel to the mark of the same letter in another. Every vertex is in one panel.
Millimetres from a panel's top left; draws nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count
from math import ceil, floor
from typing import Final, NamedTuple

from harnessdoc.drawing.strips.channels import Wanted, set_tracks
from harnessdoc.drawing.strips.graph import ROW_MM, Block
from harnessdoc.drawing.strips.weave import Net, Tip, Vertex, Weave

TRACK_MM: Final = 2.5
LEAD_MM: Final = 2.5
"""Of line between a mark and what stands beside its lane."""
_MARK_ROWS: Final = 2.0
"""Kept of a panel's rows for marks above and below what it holds."""
_EASE_MM: Final = 1.5
ALPHABET: Final = "ABCDEFGHJKLMNPQRSTUVWXYZ"


class Room(NamedTuple):
    """What a panel may take: mm wide, rows high; `mark_mm`: the width of a mark."""

    width_mm: float
    rows: float
    mark_mm: float


@dataclass(eq=False, slots=True)
class Mark:
    """Where a line goes on. `x`, `y`: its end in the panel, the left one with `on_left`, else the right one.

    `others`: the marks of the same letter."""

    letter: str
    panel: Panel
    on_left: bool
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
    """A net as far as it lies in a panel: its ends there and, where there are others elsewhere, its mark.

    `mark_row`: on which row that stands; `on_left`: left of the tracks."""

    net: Net
    left: list[Tip]
    right: list[Tip]
    wanted: Wanted
    cut: bool
    mark: Mark | None = None
    mark_row: float = 0.0
    on_left: bool = True


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
        limit = top + room.rows - _MARK_ROWS
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
        _place_marks(panel, bits)
        tracks = set_tracks([bit.wanted for bit in bits])
        before = room.mark_mm + LEAD_MM + _EASE_MM if any(bit.cut and bit.on_left for bit in bits) else 0.0
        after = room.mark_mm + LEAD_MM + _EASE_MM if any(bit.cut and not bit.on_left for bit in bits) else 0.0
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


def _place_marks(panel: Panel, bits: Sequence[Bit]) -> None:
    """Find the row and the side of each mark: at the end of a single line, else at the end of a line of its own."""
    taken = {
        on_left: [tip.y + 0.0 for bit in bits for tip in (bit.left if on_left else bit.right)]
        for on_left in (True, False)
    }
    marks: dict[bool, list[float]] = {True: [], False: []}
    shared = []
    for bit in bits:
        tips = [*bit.left, *bit.right]
        if bit.cut and len(tips) == 1:
            bit.on_left, bit.mark_row = bool(bit.left), float(tips[0].y)
            marks[bit.on_left].append(bit.mark_row)
        elif bit.cut:
            shared.append(bit)
    for bit in shared:
        bit.mark_row, bit.on_left = _free_row(panel, bit, taken, marks)
        marks[bit.on_left].append(bit.mark_row)
        (bit.wanted.left if bit.on_left else bit.wanted.right).append(bit.mark_row)
        bottom = max(panel.top + panel.rows, bit.mark_row + 0.5)
        panel.top = min(panel.top, bit.mark_row - 0.5)
        panel.rows = bottom - panel.top


def _free_row(
    panel: Panel, bit: Bit, taken: Mapping[bool, list[float]], marks: Mapping[bool, list[float]]
) -> tuple[float, bool]:
    """The row nearest to a net's rows that is free, and whether left of the tracks: on the side on which it has fewest
    ends, towards the rest of the net if it has ends on both."""
    own = [float(tip.y) for tip in (*bit.left, *bit.right)]
    here = {id(tip.vertex) for tip in (*bit.left, *bit.right)}
    away = [tip.y for tip in bit.net.tips if id(tip.vertex) not in here]
    downwards = sum(away) / len(away) >= sum(own) / len(own)
    start, way = (max(own), 1.0) if downwards else (min(own), -1.0)
    on_left = len(bit.left) <= len(bit.right)
    reach = int(panel.rows) + 2
    for step in sorted(range(-reach, reach + 1), key=lambda step: (abs(step), step < 0)):
        row = start + way * step
        if not panel.top <= row <= panel.top + panel.rows:
            continue
        for side in (on_left, not on_left):
            if all(abs(row - other) >= 1 for other in taken[side]) and all(abs(row - o) >= 2 for o in marks[side]):
                return row, side
    low = min([panel.top, *marks[on_left]]) if way < 0 else max([panel.top + panel.rows, *marks[on_left]])
    return (floor(low) - 1.0 if way < 0 else ceil(low) + 1.0), on_left


def _set_marks(panels: Sequence[Panel], letters: Iterator[str]) -> None:
    by_net: dict[int, list[Mark]] = {}
    for panel in panels:
        for lane in panel.lanes.values():
            for bit in lane.bits:
                if bit.cut:
                    known = by_net.setdefault(id(bit.net), [])
                    letter = known[0].letter if known else next(letters)
                    bit.mark = Mark(letter, panel, bit.on_left, others=known)
                    known.append(bit.mark)
                    bit.mark.y = panel.y_of(bit.mark_row)
                    bit.mark.x = lane.x + LEAD_MM if bit.on_left else lane.x + lane.width - LEAD_MM
                    panel.marks.append(bit.mark)


def letters() -> Iterator[str]:
    """A, B, ... Z without I and O; then A2, B2, ... without M and W too, which with a figure are wider than a mark."""
    yield from ALPHABET
    for number in count(2):
        yield from (f"{letter}{number}" for letter in ALPHABET if letter not in "MW")
