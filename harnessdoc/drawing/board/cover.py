"""The cover of a full-size board: which tile goes where, how to join them, the places and runs with their tiles.

Knows the laid board and its tiles; draws none of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count
from typing import Final

from harnessdoc.drawing.board.cells import OVERLAP_MM, Tile
from harnessdoc.drawing.board.furnish import Furnisher
from harnessdoc.drawing.board.ground import BEND_MM, CLEAR_MM
from harnessdoc.drawing.board.lay import Board
from harnessdoc.drawing.board.path import meet
from harnessdoc.drawing.flow import Block, Frame, Part, columns_of, pour
from harnessdoc.drawing.stations import Plan
from harnessdoc.model import cautions
from harnessdoc.model.harness import Harness
from harnessdoc.model.quantities import plain_number
from harnessdoc.sheet import lettering
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, Cell, Column, Grid, Row, shortened
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titles import title_block

KIND: Final = "full-size board"
WIDTH_MM: Final = 123.0
PLACES: Final = Grid((Column("no.", 12.0), Column("place", 79.0), Column("tile", 16.0), Column("list on", 16.0)))
RUNS: Final = Grid((Column("run", 50.0), Column("length, as drawn", 39.0), Column("tiles", 34.0)))
_INSET_MM: Final = 6.0  # clear of the centring marks
_PLAN_MM: Final = 62.0
_PLAN_WORDS_MM: Final = 12.0
_EMPTY: Final = "#ffffff"
_FULL: Final = "#e8e8e8"


@dataclass(frozen=True, slots=True)
class Cover:
    """What the cover tells. `left`: what found no room on the board; `unlaid`: what is not on it at all."""

    harness: Harness
    plan: Plan
    board: Board
    furnisher: Furnisher
    tiles: Sequence[Tile]
    left: Sequence[str]
    unlaid: Sequence[str]


def cover_pages(cover: Cover, paper: str, mark: str) -> list[Page]:
    """Return the cover's pages; the sheets are numbered with the tiles after them."""
    trial = _open(cover, paper, mark, 1, 1)
    area = trial.area.inset(_INSET_MM)
    columns = max(1, int((area.width + 4) // (WIDTH_MM + 4)))
    blocks = list(_blocks(cover))
    top = _PLAN_WORDS_MM + _Scaled(area, cover).height_mm
    poured = pour(blocks, _frames(area, columns, top))
    assert poured is not None  # the frames never end
    placed = poured.placed
    covers = 1 + max((one.sheet for one in placed), default=0)
    pages = [_open(cover, paper, mark, number, covers + len(cover.tiles)).page for number in range(1, covers + 1)]
    _draw_plan(pages[0], area, cover)
    for one in placed:
        one.part.draw(pages[one.sheet], one.x, one.y)
    return pages


def _open(cover: Cover, paper: str, mark: str, number: int, sheets: int) -> Sheet:
    title = title_block(cover.harness, KIND, mark, number, sheets)
    return open_sheet(paper, "landscape", replace(title, scale="tiles 1:1"), cautions.DRAWING)


def _frames(area: Rect, columns: int, top: float) -> Iterator[Frame]:
    gutter = (area.width - columns * WIDTH_MM) / max(1, columns - 1)
    first = Rect(area.x, area.y + top, area.width, area.height - top)
    for sheet in count():
        yield from columns_of(sheet, first if sheet == 0 else area, columns, gutter)


# --- the plan


class _Scaled:
    """The plan's measures on a sheet: as wide as the area, but no taller than _PLAN_MM."""

    def __init__(self, area: Rect, cover: Cover) -> None:
        cells = cover.board.cells
        self.rows = max(tile.row for tile in cover.tiles) + 1
        self.columns = max(tile.column for tile in cover.tiles) + 1
        whole = self.columns * cells.width_mm, self.rows * cells.height_mm
        self.board_mm = whole
        self.scale = min(area.width / whole[0], _PLAN_MM / whole[1])
        self.wide, self.tall = cells.width_mm * self.scale, cells.height_mm * self.scale
        self.x, self.y = area.x + (area.width - self.columns * self.wide) / 2, area.y
        self.height_mm = self.rows * self.tall

    def tile(self, tile: Tile) -> Rect:
        """Where a tile lies on the plan."""
        return Rect(self.x + tile.column * self.wide, self.y + tile.row * self.tall, self.wide, self.tall)

    def line(self, line: Rect) -> Rect:
        """Where a stretch of a run lies on the plan, with a little room around it."""
        x, y, width, height = (value * self.scale for value in line)
        return Rect(self.x + x - 0.6, self.y + y - 0.6, width + 1.2, height + 1.2)


def _draw_plan(page: Page, area: Rect, cover: Cover) -> None:
    """All tiles small, named where a name fits, grey where printed; the runs as lines, the pegs as dots."""
    plan, printed = _Scaled(area, cover), set(cover.tiles)
    with page.group("tile-plan", "which tile lies where"):
        for row in range(plan.rows):
            for column in range(plan.columns):
                tile = Tile(row, column)
                page.rect(*plan.tile(tile), fill=_FULL if tile in printed else _EMPTY, stroke_mm=0.25)
        with page.group(x=plan.x, y=plan.y, scale=plan.scale):
            for laid in cover.board.laid:
                page.path(laid.path.data, stroke_mm=0.5 / plan.scale, stroke="#555555")
            for peg in cover.board.pegs:
                page.circle(*peg.at, 0.9 / plan.scale, fill="#000000", stroke="none")
        lines = [plan.line(taken.line) for taken in cover.board.ground.lines]
        for tile in cover.tiles:
            _name_tile(page, plan.tile(tile), tile, lines)
    words = (
        f"Board {plain_number(round(plan.board_mm[0]))} mm × {plain_number(round(plan.board_mm[1]))} mm, "
        f"{len(cover.tiles)} tiles (grey), empty ones not printed. Lines: runs; dots: pegs."
    )
    page.text(area.x + area.width / 2, plan.y + plan.height_mm + 5.0, words, TEXT_MM, anchor="middle")


def _name_tile(page: Page, rect: Rect, tile: Tile, lines: Sequence[Rect]) -> None:
    """The tile's name, in the first of some spots in it that no run passes through."""
    width = lettering.text_width_mm(tile.name, TEXT_MM, True)
    if width + 1.0 > rect.width or rect.height < TEXT_MM + 1.0:
        return
    rooms = [
        Rect(rect.x + 0.5 + (rect.width - width - 1.0) * right, rect.y + 0.6 + (rect.height - TEXT_MM - 1.2) * down,
             width, TEXT_MM)
        for down in (0.0, 1.0, 0.5, 0.25, 0.75) for right in (0.0, 1.0, 0.5)
    ]  # fmt: skip
    clear = [room for room in rooms if not any(meet(room, line) for line in lines)]
    if clear:
        page.text(clear[0].x, clear[0].bottom, tile.name, TEXT_MM, bold=True)


# --- the words


def _blocks(cover: Cover) -> Iterator[Block]:
    yield _block("How to use it", [_words(text) for text in _how(cover)])
    yield _table("Places", PLACES, list(_places(cover)))
    yield _table("Runs", RUNS, list(_runs(cover)))
    if cover.left or cover.unlaid:
        yield _block("Not on the board", [_words(text) for text in (*cover.unlaid, *cover.left)])


def _how(cover: Cover) -> Iterator[str]:
    yield "1. Print all sheets at 100 %, no fit to page. Measure the 100 mm bar on one of them before you go on."
    yield (
        f"2. Cut along the dashed line at the left and the top of a tile, lay that edge on the {OVERLAP_MM:.0f} mm "
        "strip of its neighbour so that cross lies on cross, and tape it. The neighbours' names stand along the edges."
    )
    yield (
        "3. Drive a nail at each circle with a cross and at each small circle inside a bend, lay the wires between "
        "them, tie them. The list beside a peg says which wires end there; → gives the number of the other end's place."
    )
    yield (
        f"A run's length is that of its centre line, from the middle of one peg to the middle of the next, bends of "
        f"{BEND_MM:.0f} mm radius included. Nothing is added for what fans out beyond a peg. A run is drawn whole "
        "unless a break says how much is left out, or that its length is not known."
    )
    yield (
        f"Runs lie where there is room, not as on the vehicle; {CLEAR_MM:.0f} mm at least between centre lines, but "
        "near a shared peg. A bundle is as thick as drawn. Strokes across it: every 100 mm; a heavy bar: its covering "
        "begins or ends; a black diamond: a splice; a heavy broken line: the length is not known."
    )


def _places(cover: Cover) -> Iterator[Row]:
    cells = cover.board.cells
    for peg in sorted(cover.board.pegs, key=lambda one: (one.station, one.echo)):
        station = cover.plan.stations[peg.station]
        name = f"{station.name} (again)" if peg.echo else station.name
        lists = "" if peg.echo else ", ".join(dict.fromkeys(cells.at(box.x, box.y).name for box in peg.boxes))
        yield (Cell(str(station.number), bold=True), Cell(name), Cell(cells.at(*peg.at).name), Cell(lists or "–"))


def _runs(cover: Cover) -> Iterator[Row]:
    for laid in sorted(cover.board.laid, key=lambda one: one.drawn.run):
        at: Mapping[str, None] = {}
        steps = max(2, int(laid.path.length_mm // 10))
        spots = (laid.path.at(laid.path.length_mm * step / steps)[:2] for step in range(steps + 1))
        at = dict.fromkeys(cover.board.cells.at(*spot).name for spot in spots)
        run = cover.harness.runs[laid.drawn.run]
        yield (Cell(run.name), Cell(cover.furnisher.length_words(laid)), Cell(" ".join(at)))


def _table(title: str, grid: Grid, rows: Sequence[Row]) -> Block:
    heading = Part(grid.head_mm, lambda page, x, y: _drawn(grid.draw_head(page, x, y)), glued=True)
    parts = [heading]
    for index, row in enumerate(rows):
        parts.append(_row(grid, row, None if index == 0 else heading))
    return _block(title, parts)


def _row(grid: Grid, row: Row, under: Part | None) -> Part:
    return Part(grid.row_mm(row), lambda page, x, y: _drawn(grid.draw_row(page, x, y, row)), under=under)


def _block(title: str, parts: Sequence[Part]) -> Block:
    return Block(_head(title), _head(f"{title}, continued"), tuple(parts))


def _head(title: str) -> Part:
    def draw(page: Page, x: float, y: float) -> None:
        page.line(x, y, x + WIDTH_MM, y, stroke_mm=0.7)
        page.text(x, y + 5.5, title, 3.5, bold=True)

    return Part(8.0, draw, glued=True)


def _words(text: str) -> Part:
    lines = shortened(text, WIDTH_MM, most=12)
    return Part(len(lines) * STEP_MM + 1.5, lambda page, x, y: _drawn(page.lines(x, y + TEXT_MM, lines)))


def _drawn(_: float) -> None:
    """Drop the y that a drawing function returns."""
