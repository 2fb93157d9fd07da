"""The harness drawing: the trunk with its places, and beside or behind it what stands at each and its wire list.

One A3 sheet where all fits, else an overview and list sheets, never smaller text. Reads the model and the
routing; decides nothing about either.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count
from typing import Final

from harnessdoc.drawing.flow import Block, Frame, Placed, columns_of, pour, pour_level
from harnessdoc.drawing.layout import Edge, lay_out
from harnessdoc.drawing.legend import legend_block
from harnessdoc.drawing.stations import Plan, plan
from harnessdoc.drawing.trunk import Spot, TrunkDrawing, capacity, height_mm, spread
from harnessdoc.drawing.wire_lists import WIDTH_MM, loose_block, station_block
from harnessdoc.model import cautions
from harnessdoc.model.harness import Harness
from harnessdoc.routing import Routing
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titles import title_block

PAPER: Final = "A3"
KIND: Final = "harness drawing"
_COLUMNS: Final = 3
_MARGIN_MM: Final = 6.0  # clear of the centring marks, which reach 5 mm into the frame
_ABOVE_LISTS_MM: Final = 6.0


def harness_sheets(harness: Harness, routing: Routing, mark: str = "") -> list[Page]:
    """Return the harness drawing's pages, A3 landscape. `mark`: the content mark for the title block."""
    layout = plan(harness)
    area = _area(_open(harness, 1, 1, mark))
    spots = _spots(layout, area)
    drawing = TrunkDrawing(harness, routing, layout, spots)
    blocks = [station_block(harness, routing, station) for station in layout.stations]
    loose = loose_block(routing, layout)
    lists = [*blocks, loose] if loose else blocks
    legend = legend_block(harness, routing)
    overviews = 1 + max((spot.sheet for spot in spots), default=0)
    if overviews == 1:
        below = _below(spots, area, 0)
        placed = pour_level([*lists, legend], below, _COLUMNS, _gutter_mm(area))
        if placed:
            return _drawn(harness, drawing, spots, placed, 1, mark)
    placed = _on_sheets(lists, legend, spots, area, overviews)
    return _drawn(harness, drawing, spots, placed, 1 + max(one.sheet for one in placed), mark)


def _spots(layout: Plan, area: Rect) -> list[Spot]:
    edges = [Edge(index, link.a, link.b) for index, link in enumerate(layout.links)]
    return spread(lay_out(len(layout.stations), edges, *capacity(area)), area)


def _on_sheets(
    lists: Sequence[Block], legend: Block, spots: Sequence[Spot], area: Rect, overviews: int
) -> list[Placed]:
    """The legend under the last overview's trunk where it fits, the lists on sheets of their own."""
    below = _below(spots, area, overviews - 1)
    under = pour_level([legend], below, _COLUMNS, _gutter_mm(area))
    placed = [Placed(overviews - 1, one.x, one.y, one.part) for one in under or ()]
    poured = pour([*lists] if under else [*lists, legend], _list_frames(area, overviews))
    assert poured is not None  # the frames never end
    return placed + poured


def _list_frames(area: Rect, first: int) -> Iterator[Frame]:
    for sheet in count(first):
        yield from columns_of(sheet, area, _COLUMNS, _gutter_mm(area))


def _below(spots: Sequence[Spot], area: Rect, sheet: int) -> Rect:
    """What the trunk leaves of a sheet."""
    taken = height_mm(spots, area, sheet) + _ABOVE_LISTS_MM
    return Rect(area.x, area.y + taken, area.width, max(area.height - taken, 0.0))


def _gutter_mm(area: Rect) -> float:
    return (area.width - _COLUMNS * WIDTH_MM) / (_COLUMNS - 1)


def _area(sheet: Sheet) -> Rect:
    return sheet.area.inset(_MARGIN_MM)


def _open(harness: Harness, number: int, sheets: int, mark: str) -> Sheet:
    title = title_block(harness, KIND, mark, number, sheets)
    return open_sheet(PAPER, "landscape", title, cautions.DRAWING)


def _drawn(
    harness: Harness,
    drawing: TrunkDrawing,
    spots: Sequence[Spot],
    placed: Sequence[Placed],
    sheets: int,
    mark: str,
) -> list[Page]:
    pages = [_open(harness, number, sheets, mark).page for number in range(1, sheets + 1)]
    for spot in spots:
        drawing.draw(pages[spot.sheet], spot)
    for one in placed:
        one.part.draw(pages[one.sheet], one.x, one.y)
    return pages
