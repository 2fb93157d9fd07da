"""The harness drawing: an overview of places and runs, and for each place its breakouts, all tied by sheet and zone.

One sheet where all fits, else an overview and sheets of breakouts, never smaller text. Reads the model and the
routing; decides nothing about either.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from typing import Final

from harnessdoc.drawing.breakouts.block import Breakouts
from harnessdoc.drawing.breakouts.leads import Leads
from harnessdoc.drawing.flow import Block, Break, Frame, Poured, columns_of, pour, pour_level
from harnessdoc.drawing.layout import Edge, lay_out
from harnessdoc.drawing.legend import legend_block
from harnessdoc.drawing.run_words import RunWords
from harnessdoc.drawing.stations import plan
from harnessdoc.drawing.trunk import (
    Spot,
    TrunkDrawing,
    capacity,
    full_plates,
    height_mm,
    spread,
    words_of_runs,
)
from harnessdoc.electrics.network import Network
from harnessdoc.model import cautions
from harnessdoc.model.harness import Harness
from harnessdoc.routing import Routing
from harnessdoc.sheet.frame import Sheet, open_sheet, zone_at
from harnessdoc.sheet.grid import TEXT_MM
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation
from harnessdoc.sheet.titles import title_block

PAPER: Final = "A3"
KIND: Final = "harness drawing"
_COLUMN_MM: Final = 150.0  # least width of a column of breakouts
_LEGEND_MM: Final = 110.0
_GUTTER_MM: Final = 9.0
_MARGIN_MM: Final = 6.0  # clear of the centring marks, which reach 5 mm into the frame
_FOOT_MM: Final = 5.0  # under a column, for the mark that says where it goes on
_ABOVE_LISTS_MM: Final = 6.0


def harness_sheets(
    harness: Harness,
    routing: Routing,
    mark: str = "",
    paper: str = PAPER,
    orientation: Orientation = "landscape",
    network: Network | None = None,
) -> list[Page]:
    """Return the harness drawing's pages. `mark`: the content mark for the title block.

    With a network, pointing at a wire in a browser highlights its whole potential. Raises layouts.LayoutError for an
    unknown paper, or one too small."""
    return _Drawing(harness, routing, mark, paper, orientation, network).pages()


@dataclass(frozen=True, slots=True)
class _Look:
    """The free area of the first sheet, which may hold a list of revisions, that of all others, and the columns."""

    area: Rect
    rest: Rect
    columns: int

    @property
    def width_mm(self) -> float:
        """Width of a column."""
        return (self.area.width - _GUTTER_MM * (self.columns - 1)) / self.columns


class _Drawing:
    """One drawing while it is laid out; places first, sheets last, when their number is known."""

    def __init__(
        self,
        harness: Harness,
        routing: Routing,
        mark: str,
        paper: str,
        orientation: Orientation,
        network: Network | None,
    ) -> None:
        self._harness, self._routing, self._mark = harness, routing, mark
        self._paper, self._orientation = paper, orientation
        self._first = self._open(1, 1)
        area = self._first.area.inset(_MARGIN_MM)
        rest = self._open(2, 2).area.inset(_MARGIN_MM)
        self._look = _Look(area, rest, max(1, int((area.width + _GUTTER_MM) // (_COLUMN_MM + _GUTTER_MM))))
        self._layout = plan(harness)
        words = words_of_runs(harness, routing)
        self._spots = self._spread(words)
        self._plates = full_plates(self._spots)
        covers = [run.cover for run in harness.runs]
        self._trunk = TrunkDrawing(self._layout, words, self._spots, covers)
        leads = Leads(harness, routing, self._layout.stations, network)
        breakouts = Breakouts(harness, routing, self._layout, leads, self._look.width_mm)
        self._blocks = [breakouts.of_station(one, self._overview_of(one.number - 1)) for one in self._layout.stations]
        loose = breakouts.loose()
        self._blocks += [loose] if loose else []
        self._legend = self._legend_of(self._look.width_mm)

    def pages(self) -> list[Page]:
        """Lay the blocks out and draw all sheets."""
        overviews = 1 + max((spot.sheet for spot in self._spots), default=0)
        look, poured = self._look, None
        if overviews == 1:
            below = self._below(0)
            poured = pour_level([*self._blocks, self._legend], below, look.columns, _GUTTER_MM)
        under: Poured | None = None
        if poured is None:
            under = self._legend_below(overviews - 1)
            rest = self._blocks if under else [*self._blocks, self._legend]
            poured = pour(rest, self._frames(overviews))
            assert poured is not None  # the frames never end
        return self._drawn(poured, under, overviews)

    def _spread(self, words: Sequence[RunWords]) -> list[Spot]:
        edges = [Edge(index, link.a, link.b) for index, link in enumerate(self._layout.links)]
        places = sum(station.run is None for station in self._layout.stations)
        columns, rows = capacity(self._look.area, words)
        pieces = lay_out(places, edges, columns, rows)
        return spread(pieces, self._look.area, self._layout.links, words)

    def _open(self, number: int, sheets: int) -> Sheet:
        title = title_block(self._harness, KIND, self._mark, number, sheets, revisions=True)
        return open_sheet(self._paper, self._orientation, title, cautions.DRAWING)

    def _frames(self, first: int) -> Iterator[Frame]:
        area = self._look.rest
        for sheet in count(first):
            top = Rect(area.x, area.y, area.width, area.height - _FOOT_MM)
            yield from columns_of(sheet, top, self._look.columns, _GUTTER_MM)

    def _below(self, sheet: int) -> Rect:
        """What the trunk leaves of a sheet."""
        area = self._look.rest if sheet else self._look.area
        taken = height_mm(self._spots, area, sheet) + _ABOVE_LISTS_MM
        return Rect(area.x, area.y + taken, area.width, max(area.height - taken, 0.0))

    def _legend_below(self, sheet: int) -> Poured | None:
        """The legend under the last trunk, in narrower columns than breakouts take, if there is room."""
        area = self._look.area
        columns = max(1, int((area.width + _GUTTER_MM) // (_LEGEND_MM + _GUTTER_MM)))
        legend = self._legend_of((area.width - _GUTTER_MM * (columns - 1)) / columns)
        return pour_level([legend], self._below(sheet), columns, _GUTTER_MM)

    def _legend_of(self, width_mm: float) -> Block:
        return legend_block(self._harness, self._routing, width_mm)

    def _where(self, sheet: int, x: float, y: float) -> str:
        return f"sheet {sheet + 1}, {zone_at(self._first, x, y)}"

    def _overview_of(self, station: int) -> str:
        if station not in self._plates:
            run = self._layout.stations[station].run
            assert run is not None  # only stations on runs have no plate
            station = next((link.a for link in self._layout.links if link.run == run), 0)
        sheet, plate = self._plates[station]
        return self._where(sheet, plate.x + plate.width / 2, plate.y + plate.height / 2)

    def _drawn(self, poured: Poured, under: Poured | None, overviews: int) -> list[Page]:
        sheets = max([overviews, *(1 + one.sheet for one in poured.placed)])
        pages = [self._open(number, sheets).page for number in range(1, sheets + 1)]
        blocks = {index: self._where(*begin) for index, begin in enumerate(poured.begins)}
        for spot in self._spots:
            self._trunk.draw(pages[spot.sheet], spot, blocks)
        for one in poured.placed:
            one.part.draw(pages[one.sheet], one.x, one.y)
        for one in under.placed if under else ():
            one.part.draw(pages[overviews - 1], one.x, one.y)
        for each in poured.breaks:
            self._draw_break(pages, each)
        return pages

    def _draw_break(self, pages: Sequence[Page], at: Break) -> None:
        """The marks at a parted block: where it goes on, and where it comes from."""
        if at.sheet == at.to_sheet:
            goes, comes = "goes on in the next column", ""
        else:
            goes = f"goes on: {self._where(at.to_sheet, at.to_x, at.to_y)}"
            comes = f"from {self._where(at.sheet, at.x, at.foot)}"
        pages[at.sheet].text(at.x, at.foot + 1.2 + TEXT_MM, goes, TEXT_MM)
        if comes:
            right = at.to_x + self._look.width_mm
            pages[at.to_sheet].text(right, at.to_y + 6.9, comes, TEXT_MM, anchor="end")
