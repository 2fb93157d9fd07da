"""Circuit strips on framed sheets, and one strip on a page of its own for the record book.

Lays out every circuit, pours the panels onto sheets, and only then draws, since a strip says on which sheet and in
which zone another one goes on. Only circuits that are drawn together are referred to by sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final

from harnessdoc.drawing.strips import figures as electrics
from harnessdoc.drawing.strips.block_pen import BlockPen
from harnessdoc.drawing.strips.build import build_graph
from harnessdoc.drawing.strips.columns import set_columns
from harnessdoc.drawing.strips.figures import Bench, Figures
from harnessdoc.drawing.strips.graph import ROW_MM, Block, Graph, Level, Target
from harnessdoc.drawing.strips.homes import Homes, find_homes
from harnessdoc.drawing.strips.legend import draw_legend, legend_height_mm, legend_texts
from harnessdoc.drawing.strips.levels import levels_of
from harnessdoc.drawing.strips.panels import Mark, Panel, Room, cut, letters
from harnessdoc.drawing.strips.pen import MARK_RADIUS_MM, PanelPen, Woven
from harnessdoc.drawing.strips.rows import set_row_numbers
from harnessdoc.drawing.strips.sizes import STEP_MM, TEXT_MM, layer_widths, look_of, raise_rows
from harnessdoc.drawing.strips.weave import weave
from harnessdoc.electrics.study import Study
from harnessdoc.model import cautions
from harnessdoc.model.harness import Harness, State
from harnessdoc.model.keys import record_address
from harnessdoc.model.points import Point
from harnessdoc.sheet import lettering
from harnessdoc.sheet.frame import Sheet, open_sheet, zone_at
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation
from harnessdoc.sheet.titles import title_block

KIND: Final = "circuit strips"
PAPER: Final = "A3"
WIDTH_MM: Final = 180.0
"""Width of a strip on a page of its own: what a phone shows in two screens, and what an A4 page holds."""
_MARGIN_MM: Final = 6.0
_HEAD_MM: Final = 3.5
_GAP_MM: Final = 4.0
_ENDLESS: Final = 1e9
_LONGEST: Final = "sheet 00, C00"


@dataclass(eq=False)
class Strip:
    """One circuit, laid out: its woven parts in panels, its figures, what is written over and under it."""

    circuit: str
    woven: list[Woven]
    figures: Figures
    head: list[str]
    notes: list[str]

    @property
    def panels(self) -> list[tuple[Woven, Panel]]:
        """All its panels in reading order."""
        return [(woven, panel) for woven in self.woven for panel in woven.panels]


@dataclass(eq=False)
class Drafter:
    """Lays out the strips of a harness."""

    harness: Harness
    study: Study

    @cached_property
    def homes(self) -> Homes:
        """Which circuit draws what."""
        return find_homes(self.harness)

    @cached_property
    def _levels(self) -> Mapping[Point, Level]:
        return levels_of(self.study.network)

    @cached_property
    def bench(self) -> Bench:
        """Where states are settled."""
        return Bench(self.study, self.homes)

    def strip(self, circuit: str, room: Room, where_mm: float, state: State | None) -> Strip:
        """Lay out one circuit; `where_mm`: room for the words that say on which sheet something is."""
        graph = build_graph(self.homes, self._levels, circuit)
        names, figures = letters(), self.bench.figures(circuit, state)
        woven = []
        for part in graph.components():
            set_columns(part)
            looks = {id(block): look_of(block, where_mm, figures.volts_text) for block in part.blocks}
            made = weave(part)
            raise_rows(made, self.study.routing)
            set_row_numbers(made)
            widths = layer_widths(made, looks, self.study.routing, figures.frame)
            woven.append(Woven(part, made, looks, cut(made, widths, room, names)))
        return Strip(circuit, woven, figures, self._head(circuit, figures), self._notes(graph, figures))

    def _head(self, circuit: str, figures: Figures) -> list[str]:
        stated = self.harness.circuit(circuit)
        name = stated.title or circuit or "Wires in no circuit"
        told = f"circuit {circuit} · drawn: {figures.words}" if circuit else f"drawn: {figures.words}"
        if figures.why:
            told += f" · currents and voltages {electrics.NOT_VERIFIED}: {figures.why}"
        return [name, told]

    def _notes(self, graph: Graph, figures: Figures) -> list[str]:
        """Foot notes: what was taken for figures that nobody stated, what was not computed, what is not settled."""
        items = {block.owner for block in graph.blocks if block.sort not in ("tag", "end")}
        wires = {edge.wire.name for edge in graph.edges if edge.wire is not None}
        notes = []
        left_out = electrics.not_computed(self.study, items | wires)
        if not figures.why:
            taken = electrics.assumed(self.study, items | wires)
            if taken:
                notes.append("Assumed: " + "; ".join(taken) + ".")
            if figures.settled is None:
                notes.append(
                    "A relay never comes to rest in this state, or something did not settle: what hangs on it is "
                    f"{electrics.NOT_VERIFIED}."
                )
        if left_out:
            notes.append(f"Not computed, so {electrics.NOT_VERIFIED}: " + "; ".join(left_out) + ".")
        return notes


@dataclass(eq=False)
class _Placed:
    sheet: int
    x: float
    y: float


@dataclass(eq=False)
class _Flow:
    """Pours panels and lines of text from the top of an area to its bottom, sheet after sheet."""

    area: Rect
    sheet: int = 0
    y: float = 0.0
    fresh: bool = True
    panels: dict[int, _Placed] = field(default_factory=dict)
    texts: list[tuple[int, float, str, float, bool]] = field(default_factory=list)
    legend: _Placed | None = None

    def take(self, height: float) -> float:
        """The top of so much height, on the next sheet if this one has not got it."""
        if self.y + height > self.area.height + 1e-6 and not self.fresh:
            self.sheet, self.y, self.fresh = self.sheet + 1, 0.0, True
        top = self.area.y + self.y
        self.y, self.fresh = self.y + height, False
        return top

    def strip(self, strip: Strip) -> None:
        """Pour one strip: heading, panels on shelves, notes."""
        shelves = list(_shelves(strip.panels, self.area.width))
        head = _HEAD_MM * 1.5 + STEP_MM * len(_wrapped(strip.head[1], self.area.width)) + 2.0
        first = max((panel.height for _, panel in shelves[0]), default=0.0) if shelves else 0.0
        if self.y + head + first > self.area.height and not self.fresh:
            self.sheet, self.y, self.fresh = self.sheet + 1, 0.0, True
        top = self.take(head)
        self._head(strip, top, "")
        for shelf in shelves:
            before = self.sheet
            height = max(panel.height for _, panel in shelf) + _GAP_MM
            if self.y + height - _GAP_MM > self.area.height and not self.fresh:
                self.sheet, self.y, self.fresh = self.sheet + 1, 0.0, True
            if self.sheet != before:
                self._head(strip, self.take(head), ", continued")
            top, x = self.take(height - _GAP_MM), self.area.x
            self.y += _GAP_MM
            for _, panel in shelf:
                self.panels[id(panel)] = _Placed(self.sheet, x, top)
                x += panel.width + 2 * _GAP_MM
        for note in strip.notes:
            for line in _wrapped(note, self.area.width):
                top = self.take(STEP_MM)
                self.texts.append((self.sheet, top + TEXT_MM, line, TEXT_MM, False))
        self.y += _GAP_MM

    def _head(self, strip: Strip, top: float, more: str) -> None:
        room = self.area.width - lettering.text_width_mm(more, _HEAD_MM, True) - 1.0
        name = lettering.fit(strip.head[0], room, _HEAD_MM, True) + more
        self.texts.append((self.sheet, top + _HEAD_MM, name, _HEAD_MM, True))
        y = top + _HEAD_MM * 1.5 + TEXT_MM
        for line in _wrapped(strip.head[1], self.area.width):
            self.texts.append((self.sheet, y, line, TEXT_MM, False))
            y += STEP_MM


def _wrapped(text: str, width: float) -> list[str]:
    return lettering.wrap(text, width, TEXT_MM)


def _shelves(panels: Sequence[tuple[Woven, Panel]], width: float) -> Iterable[list[tuple[Woven, Panel]]]:
    """Panels side by side as far as they fit and are about as high."""
    shelf: list[tuple[Woven, Panel]] = []
    used = 0.0
    for woven, panel in panels:
        if shelf and used + panel.width > width:
            yield shelf
            shelf, used = [], 0.0
        shelf.append((woven, panel))
        used += panel.width + 2 * _GAP_MM
    if shelf:
        yield shelf


def strip_sheets(
    harness: Harness,
    study: Study,
    mark: str = "",
    paper: str = PAPER,
    circuits: Sequence[str] | None = None,
    state: State | None = None,
    orientation: Orientation = "landscape",
) -> list[Page]:
    """Return the circuit strips on framed sheets.

    `mark`: the content mark for the title block. `circuits`: names, all that have wires if None; "" stands for the
    wires in no circuit. `state`: positions of switches and conditions of sensors, all else at rest; if None, for each
    circuit those of the first operation line in which it is live. Raises KeyError for a circuit that there is not.
    """
    drafter = Drafter(harness, study)
    names = list(drafter.homes.wires) if circuits is None else list(circuits)
    for name in names:
        drafter.homes.wires[name]
    if circuits is None:
        names = [name for name in names if name and drafter.homes.wires[name]]
    probe = _open(harness, paper, orientation, 1, 1, mark)
    area = probe.area.inset(_MARGIN_MM)
    where = lettering.text_width_mm(f", {_LONGEST}", TEXT_MM)
    mark_mm = 2 * MARK_RADIUS_MM + where + 3.0
    rows = (area.height - 20.0) / ROW_MM
    strips = [drafter.strip(name, Room(area.width, rows, mark_mm), where, state) for name in names]
    flow = _Flow(area)
    for strip in strips:
        flow.strip(strip)
    flow.legend = _Placed(0, area.x, 0.0)
    flow.legend.y = flow.take(legend_height_mm(legend_texts(harness), area.width))
    flow.legend.sheet = flow.sheet
    sheets = [_open(harness, paper, orientation, n + 1, flow.sheet + 1, mark) for n in range(flow.sheet + 1)]
    _Draft(harness, drafter, strips, flow, sheets, mark_mm).draw()
    return [sheet.page for sheet in sheets]


def _open(harness: Harness, paper: str, orientation: Orientation, number: int, sheets: int, mark: str) -> Sheet:
    return open_sheet(paper, orientation, title_block(harness, KIND, mark, number, sheets), cautions.DRAWING)


def circuit_strip(
    harness: Harness, study: Study, circuit: str, state: State | None = None, width_mm: float = WIDTH_MM
) -> Page:
    """Return one circuit's strip on a page just large enough, without a frame, folded to `width_mm`.

    For the record book and for phones; other circuits are named, without a sheet. Raises KeyError for no such circuit.
    """
    return circuit_strips(harness, study, (circuit,), state, width_mm)[circuit]


def circuit_strips(
    harness: Harness,
    study: Study,
    circuits: Sequence[str] | None = None,
    state: State | None = None,
    width_mm: float = WIDTH_MM,
) -> dict[str, Page]:
    """As `circuit_strip` for several circuits, all if None: what they share is worked out once."""
    drafter = Drafter(harness, study)
    found = {}
    mark_mm = 2 * MARK_RADIUS_MM + 1.2
    for circuit in (name for name in drafter.homes.wires if name) if circuits is None else circuits:
        drafter.homes.wires[circuit]
        strip = drafter.strip(circuit, Room(width_mm - 2.0, _ENDLESS, mark_mm), 0.0, state)
        wide = max((panel.width for _, panel in strip.panels), default=0.0)
        area = Rect(1.0, 1.0, max(width_mm - 2.0, wide), _ENDLESS)
        flow = _Flow(area)
        flow.strip(strip)
        page = Page(area.width + 2.0, flow.y + 2.0, f"{harness.title.number} {strip.head[0]}")
        sheet = Sheet(page, area, area)
        _Draft(harness, drafter, [strip], flow, [sheet], mark_mm, alone=True).draw()
        found[circuit] = page
    return found


@dataclass(eq=False)
class _Draft:
    """Draws strips that are placed."""

    harness: Harness
    drafter: Drafter
    strips: Sequence[Strip]
    flow: _Flow
    sheets: Sequence[Sheet]
    mark_mm: float
    alone: bool = False

    def draw(self) -> None:
        for strip in self.strips:
            for woven, panel in strip.panels:
                self._panel(strip, woven, panel)
        for sheet, y, text, height, bold in self.flow.texts:
            self.sheets[sheet].page.text(self.flow.area.x, y, text, height, bold=bold)
        if self.flow.legend is not None:
            at = self.flow.legend
            draw_legend(self.sheets[at.sheet].page, at.x, at.y, legend_texts(self.harness), self.flow.area.width)

    def _panel(self, strip: Strip, woven: Woven, panel: Panel) -> None:
        at = self.flow.panels[id(panel)]
        page = self.sheets[at.sheet].page
        pen = BlockPen(page, self.harness, strip.figures, self._place, self._link, self.mark_mm)
        with page.group(f"circuit-{strip.circuit}", strip.head[0]):
            PanelPen(page, woven, panel, at.x, at.y, strip.figures, self.drafter.study.routing, self._where, pen).draw()

    def _link(self, circuit: str) -> str:
        return record_address(self.harness, circuit) or ""

    @cached_property
    def _spots(self) -> dict[Target, str]:
        """Circuit and point to where its strip has it."""
        found: dict[Target, str] = {}
        for strip in self.strips:
            for tags in (False, True):
                for _, panel in strip.panels:
                    self._find(found, strip, panel, tags)
        return found

    def _find(self, found: dict[Target, str], strip: Strip, panel: Panel, tags: bool) -> None:
        at = self.flow.panels[id(panel)]
        blocks = [vertex for layer in panel.vertices for vertex in layer if isinstance(vertex, Block)]
        for block in blocks:
            left, width = panel.lefts[2 * block.column + 1]
            for pin in block.pins if (block.sort == "tag") == tags else ():
                if pin.point is not None:
                    x, y = at.x + left + width / 2, at.y + panel.y_of(block.y + pin.row)
                    found.setdefault(Target(strip.circuit, pin.point), self._words(at.sheet, x, y))

    def _words(self, sheet: int, x: float, y: float) -> str:
        return f"sheet {sheet + 1}, {zone_at(self.sheets[sheet], x, y)}"

    def _place(self, target: Target) -> str:
        return "" if self.alone else self._spots.get(target, "")

    def _where(self, mark: Mark) -> str:
        if self.alone or mark.onward is None:
            return ""
        at = self.flow.panels[id(mark.onward.panel)]
        return self._words(at.sheet, at.x + mark.onward.x, at.y + mark.onward.y)
