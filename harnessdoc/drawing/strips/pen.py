"""Draws one panel of a strip: lines first, live ones thick, then what stands on them. Decides nothing of the layout."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import Final, NamedTuple

from harnessdoc.drawing.strips import bodies, sizes
from harnessdoc.drawing.strips.block_pen import BlockPen
from harnessdoc.drawing.strips.figures import Figures
from harnessdoc.drawing.strips.graph import PITCH, ROW_MM, Edge, Graph
from harnessdoc.drawing.strips.panels import Bit, Lane, Mark, Panel
from harnessdoc.drawing.strips.sizes import TEXT_MM, Look
from harnessdoc.drawing.strips.weave import Row, Step, Tip, Weave
from harnessdoc.routing import Routing
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import draw_sleeve
from harnessdoc.sheet.page import BLACK, WHITE, Page

LIVE_MM: Final = 0.7
DEAD_MM: Final = 0.25
# Line widths of ISO 128's 0.7 mm group and of its 0.25 mm group: far enough apart to be told on a copy.
DOT_MM: Final = 0.85
_CAPSULE_MM: Final = 4.0
_TIP_MM: Final = 1.8
_SLEEVE_AT_MM: Final = 1.5
MARK_RADIUS_MM: Final = 2.8
Where = Callable[[Mark], str]
Points = list[tuple[float, float]]


@dataclass(eq=False, slots=True)
class Woven:
    """A component with all that drawing it needs."""

    graph: Graph
    made: Weave
    looks: dict[int, Look]
    panels: list[Panel] = field(default_factory=list)


class _Line(NamedTuple):
    """A line to draw: an edge's, as far as it lies in the panel."""

    edge: Edge
    points: Points


@dataclass(frozen=True, eq=False)
class PanelPen:
    """Draws a panel with its top left at (x, y). `where`: what stands beside a mark's letter; `place`: where another
    circuit's strip has a point."""

    page: Page
    woven: Woven
    panel: Panel
    x: float
    y: float
    figures: Figures
    routing: Routing
    where: Where
    block_pen: BlockPen

    def draw(self) -> None:
        """Draw everything of the panel."""
        lines = list(self._lines())
        for live in (False, True):
            for line in lines:
                if self._is_live(line.edge) == live:
                    self._line(line)
        self._dots()
        for layer in self.panel.vertices:
            for vertex in layer:
                if isinstance(vertex, Row):
                    if vertex.label:
                        self._label(vertex)
                else:
                    left, width = self.panel.lefts[2 * vertex.column + 1]
                    self.block_pen.draw(vertex, self.woven.looks[id(vertex)], self.x + left, width, self._y(vertex.y))
        for mark in self.panel.marks:
            self._mark(mark)

    # --- lines

    def _y(self, row: float) -> float:
        return self.y + self.panel.y_of(row)

    def _is_live(self, edge: Edge) -> bool:
        if edge.style == "link":
            return False
        return self.figures.live_wire(edge.wire) if edge.wire else self.figures.live_point(edge.point)

    def _line(self, line: _Line) -> None:
        edge = line.edge
        weight = LIVE_MM if self._is_live(edge) else DEAD_MM
        if edge.style == "link":
            names = f"{edge.a.owner} moves"
            with self.page.group(f"link-{edge.a.owner}", names):
                for points in self._spared(line.points):
                    self.page.polyline(points, stroke_mm=DEAD_MM, dash=bodies.LINK_DASH)
            return
        with self.page.group(*self._named(edge), desc=self._told(edge), potential=self._potential(edge)):
            for points in self._spared(line.points):
                self.page.polyline(points, stroke_mm=weight)

    def _spared(self, points: Points) -> Iterator[Points]:
        """The line without what lies under sleeves, frames of currents, and marks: nothing runs through a text."""
        piece = [points[0]]
        for (x1, y1), (x2, y2) in pairwise(points):
            for low, high in sorted(self._covered.get(round(y1, 3), ()), reverse=x2 < x1) if y1 == y2 else ():
                near, far = (low, high) if x1 <= x2 else (high, low)
                first, last = (clamped(x, x1, x2) for x in (near, far))
                if first != last:
                    if [(first, y1)] != piece:
                        yield [*piece, (first, y1)]
                    piece = [(last, y1)]
            piece.append((x2, y2))
        if len({(round(x, 3), round(y, 3)) for x, y in piece}) > 1:
            yield piece

    @cached_property
    def _covered(self) -> dict[float, list[tuple[float, float]]]:
        """Height to what lies on a line there, from x to x."""
        found: dict[float, list[tuple[float, float]]] = {}
        for layer in self.panel.vertices:
            for row in layer:
                if isinstance(row, Row) and row.label:
                    spans = found.setdefault(round(self._y(row.y), 3), [])
                    left, width = self.panel.lefts[row.layer]
                    x = self.x + left
                    spans.append((x + _SLEEVE_AT_MM, x + _SLEEVE_AT_MM + sizes.SLEEVE_MM[0]))
                    wide = self._frame_mm(row)
                    if wide:
                        spans.append((x + width - 1.0 - wide, x + width - 1.0))
        for mark in self.panel.marks:
            left = self._mark_left(mark)
            wide = self._mark_mm() if self.where(mark) else 2 * MARK_RADIUS_MM + 1.2
            found.setdefault(round(self.y + mark.y, 3), []).append((left + 0.6, left + wide - 0.6))
        return found

    def _frame_mm(self, row: Row) -> float:
        """Width of the frame of a row's current, 0 for none."""
        wire = row.edge.wire
        text = self.figures.frame(wire) if wire is not None else ""
        tip = _TIP_MM if wire is not None and self.figures.amps(wire) is not None else 0.0
        return lettering.text_width_mm(text, TEXT_MM) + 2.0 + tip if text else 0.0

    def _mark_left(self, mark: Mark) -> float:
        """The left end of a mark."""
        return self.x + mark.x - (0.0 if mark.on_left else self._mark_mm())

    def _named(self, edge: Edge) -> tuple[str, str]:
        wire = edge.wire
        return (f"wire-{wire.name}", f"wire {wire.name}") if wire else ("", f"{edge.point or 'goes on'}")

    def _told(self, edge: Edge) -> str:
        wire = edge.wire
        return f"from {wire.a.text} to {wire.b.text}" if wire else ""

    def _potential(self, edge: Edge) -> int | None:
        network = self.figures.study.network
        if edge.wire is not None:
            return network.of_wire(edge.wire)
        return network.potential.get(edge.point) if edge.point is not None else None

    def _lines(self) -> Iterator[_Line]:
        for edge in self.woven.graph.edges:
            points: Points = []
            for step in self.woven.made.ways[id(edge)]:
                for piece in self._step(step):
                    if points and piece[0] != points[-1]:
                        yield from self._closed(edge, points)
                        points = []
                    points += piece[1:] if points else piece
            yield from self._closed(edge, points)

    def _closed(self, edge: Edge, points: Points) -> Iterator[_Line]:
        kept = [p for i, p in enumerate(points) if not i or p != points[i - 1]]
        if len(kept) > 1:
            yield _Line(edge, kept)

    def _step(self, step: Step) -> Iterator[Points]:
        """The pieces of a step that lie in this panel; rows beside it are drawn with it, half from either end."""
        here = [id(tip.vertex) in self.panel.holds for tip in (step.start, step.end)]
        if not any(here):
            return
        lane = self.panel.lanes[step.channel]
        bit = next(bit for bit in lane.bits if bit.net is step.net)
        if all(here):
            start, end = self._to_lane(step, step.start), self._to_lane(step, step.end)
            yield [*start, *self._through(lane, bit, step), *reversed(end)]
            return
        tip = step.start if here[0] else step.end
        points = [*self._to_lane(step, tip), *self._to_mark(lane, bit, step, tip)]
        yield points if here[0] else points[::-1]

    def _to_lane(self, step: Step, tip: Tip) -> Points:
        """From a tip's anchor to the edge of the channel; a row from its middle."""
        vertex, y = tip.vertex, self._y(tip.y)
        layer = vertex.layer if isinstance(vertex, Row) else 2 * vertex.column + 1
        left, width = self.panel.lefts[layer]
        edge_x = self.x + (left + width if step.channel == layer else left)
        if isinstance(vertex, Row):
            return [(self.x + left + width / 2, y), (edge_x, y)]
        on_right = step.channel == layer
        anchor = self.block_pen.anchor(vertex, self.woven.looks[id(vertex)], self.x + left, width, on_right)
        if tip.pin is None:
            anchor, from_y = self.x + left + width / 2, self._y(vertex.y)
            if vertex.sort == "box":
                from_y = y - ROW_MM * (PITCH - 1.1)
            return [(anchor, from_y), (anchor, y), (edge_x, y)]
        return [(anchor, y), (edge_x, y)]

    def _is_left(self, step: Step, tip: Tip) -> bool:
        """Whether a tip is on the left of its channel."""
        layer = tip.vertex.layer if isinstance(tip.vertex, Row) else 2 * tip.vertex.column + 1
        return layer == step.channel

    def _track(self, lane: Lane, bit: Bit, left: bool) -> float | None:
        wanted = bit.wanted
        if wanted.track is None:
            return None
        track = wanted.track if left or wanted.second is None else wanted.second
        return self.x + lane.track_x(track)

    def _through(self, lane: Lane, bit: Bit, step: Step) -> Points:
        """Between two tips of a channel."""
        sides = [self._is_left(step, tip) for tip in (step.start, step.end)]
        xs = [self._track(lane, bit, side) for side in sides]
        ys = [self._y(tip.y) for tip in (step.start, step.end)]
        if xs[0] is None or xs[1] is None:
            return []
        if bit.wanted.second is not None and sides[0] != sides[1]:
            jog = self._y(bit.wanted.jog)
            return [(xs[0], ys[0]), (xs[0], jog), (xs[1], jog), (xs[1], ys[1])]
        return [(xs[0], ys[0]), (xs[1], ys[1])]

    def _to_mark(self, lane: Lane, bit: Bit, step: Step, tip: Tip) -> Points:
        """From a tip to its net's mark."""
        assert bit.mark is not None
        y, mark_y = self._y(tip.y), self._y(bit.mark_row)
        mark_x = self.x + bit.mark.x + (self._mark_mm() / 2 if bit.on_left else -self._mark_mm() / 2)
        track, other = self._track(lane, bit, self._is_left(step, tip)), self._track(lane, bit, bit.on_left)
        if track is None or other is None:
            return [(mark_x, y)]
        if track == other:
            return [(track, y), (track, mark_y), (mark_x, mark_y)]
        jog = self._y(bit.wanted.jog)
        return [(track, y), (track, jog), (other, jog), (other, mark_y), (mark_x, mark_y)]

    def _mark_mm(self) -> float:
        return self.block_pen.mark_mm

    def _dots(self) -> None:
        """Where lines of one net meet, so that they are told from lines that cross."""
        for lane in self.panel.lanes.values():
            for bit in lane.bits:
                if bit.net.link or bit.wanted.track is None:
                    continue
                with self.page.group(title="joined"):
                    for x, row in self._meetings(lane, bit):
                        self.page.circle(x, self._y(row), DOT_MM, fill=BLACK, stroke="none")

    def _meetings(self, lane: Lane, bit: Bit) -> Iterator[tuple[float, float]]:
        wanted = bit.wanted
        first = self._track(lane, bit, True)
        assert first is not None
        if wanted.second is None:
            uprights = [(first, wanted.left, wanted.right)]
        else:
            second = self._track(lane, bit, False)
            assert second is not None
            uprights = [(first, wanted.left, [wanted.jog]), (second, [wanted.jog], wanted.right)]
        for x, left, right in uprights:
            rows = sorted({*left, *right})
            for row in rows:
                arms = (row in left) + (row in right) + (row > rows[0]) + (row < rows[-1])
                if arms > 2:
                    yield x, row

    # --- what stands on lines

    def _label(self, row: Row) -> None:
        """A wire's sleeve, number, size, length and code, and the current it carries."""
        wire = row.edge.wire
        assert wire is not None
        left, width = self.panel.lefts[row.layer]
        x, y = self.x + left + 1.0, self._y(row.y)
        number, size, length, code = sizes.wire_texts(wire, self.routing)
        with self.page.group(f"label-{wire.name}", f"wire {wire.name}", potential=self._potential(row.edge)):
            draw_sleeve(
                self.page, self.x + left + _SLEEVE_AT_MM + sizes.SLEEVE_MM[0] / 2, y, wire.colour, *sizes.SLEEVE_MM
            )
            over = sizes.number_lines(wire, self.routing)
            for step, line in enumerate(over):
                self.page.text(x, y - 2.7 - sizes.STEP_MM * (len(over) - step), line, TEXT_MM, bold=True)
            at = x if over else x + self.page.text(x, y - 2.7, number, TEXT_MM, bold=True) + 2.0
            at += self.page.text(at, y - 2.7, size, TEXT_MM) + 2.0
            self.page.text(at, y - 2.7, length, TEXT_MM)
            self.page.text(x, y + 5.0, code, TEXT_MM, box_mm=width - 2.0)
            self._amps(row, self.x + left + width - 1.0, y)

    def _amps(self, row: Row, right: float, y: float) -> None:
        """The current in a pointed frame on the line, pointing the way it flows; none where nothing flows."""
        wire = row.edge.wire
        assert wire is not None
        text, amps = self.figures.frame(wire), self.figures.amps(wire)
        if text:
            self._frame(right, y, text, 0 if amps is None else 1 if (amps > 0) == row.forward else -1)

    def _frame(self, right: float, y: float, text: str, way: int) -> None:
        wide = lettering.text_width_mm(text, TEXT_MM) + 2.0
        tip, half = (_TIP_MM if way else 0.0), _CAPSULE_MM / 2
        left = right - wide - tip
        body = left + (tip if way < 0 else 0.0)
        points = [(body, y - half), (body + wide, y - half)]
        points += [(right, y)] if way > 0 else []
        points += [(body + wide, y + half), (body, y + half)]
        points += [(left, y)] if way < 0 else []
        dash = () if way else (0.8, 0.6)
        self.page.polyline(points, closed=True, fill=WHITE, stroke_mm=0.25, dash=dash)
        self.page.text(body + wide / 2, y + TEXT_MM / 2, text, TEXT_MM, anchor="middle")

    def _mark(self, mark: Mark) -> None:
        """A letter in a circle, and beside it where the line goes on."""
        wide, text = self._mark_mm(), self.where(mark)
        y = self.y + mark.y
        left = self._mark_left(mark)
        with self.page.group(f"mark-{mark.letter}", f"goes on at {mark.letter} {text}".strip()):
            if text:
                self.page.rect(left + 0.6, y - 2.4, wide - 1.2, 4.8, radius=2.4, fill=WHITE, stroke_mm=0.25)
                self.page.text(left + 2 * MARK_RADIUS_MM + 1.4, y + TEXT_MM / 2, text, TEXT_MM)
            self.page.circle(left + 0.6 + MARK_RADIUS_MM, y, MARK_RADIUS_MM, fill=WHITE, stroke_mm=0.35)
            self.page.text(
                left + 0.6 + MARK_RADIUS_MM, y + TEXT_MM / 2, mark.letter, TEXT_MM, bold=True, anchor="middle"
            )


def clamped(x: float, one: float, other: float) -> float:
    """The x between two others that is nearest."""
    return min(max(x, min(one, other)), max(one, other))
