"""One tile on paper: its part of the board at 1:1, cut lines, crosses, its neighbours' names, the bar to measure.

Knows no harness but for the words in its strip."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.board.cells import OVERLAP_MM, Cells, Tile
from harnessdoc.drawing.board.path import meet
from harnessdoc.drawing.board.things import Thing
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Paper

MARGIN_MM: Final = 12.0
STRIP_MM: Final = 26.0
BAR_MM: Final = 100.0
MEASURE: Final = "Measure this: 100 mm. Print at 100 %, no fit to page."
_CROSS_MM: Final = 3.5
_TEXT_MM: Final = 2.5
_CUT_DASH: Final = (3.0, 1.5)


@dataclass(frozen=True, slots=True)
class Imprint:
    """What each tile says of itself: the harness, then `sheet`: "sheet 4 / 43"."""

    harness: str
    state: str
    sheet: str


def cells_of(paper: Paper) -> Cells:
    """Return the grid that a sheet of this paper makes: what margins, strip and overlap leave of it."""
    return Cells(
        paper.width_mm - 2 * MARGIN_MM - OVERLAP_MM,
        paper.height_mm - MARGIN_MM - STRIP_MM - OVERLAP_MM,
    )


def tile_page(
    paper: Paper, cells: Cells, tile: Tile, printed: Container[Tile], things: Sequence[Thing], imprint: Imprint
) -> Page:
    """Return the sheet of one tile."""
    page = Page(paper.width_mm, paper.height_mm, title=f"{imprint.harness} tile {tile.name}")
    window, cell = cells.window(tile), cells.cell(tile)
    shown = [thing for thing in things if any(meet(rect, cell if thing.text else window) for rect in thing.rects)]
    with page.group(
        f"board-{tile.name}",
        f"tile {tile.name}, full size",
        x=MARGIN_MM - window.x,
        y=MARGIN_MM - window.y,
        clip=window,
    ):
        for thing in shown:
            thing.draw(page)
    with page.group("joints", "cut lines, crosses and neighbours"):
        _draw_joints(page, cells, tile, printed)
    with page.group("strip", "scale bar and tile name"):
        _draw_strip(page, tile, imprint)
    return page


def _draw_joints(page: Page, cells: Cells, tile: Tile, printed: Container[Tile]) -> None:
    """Left and above: cut here. Right and below: the neighbour's cut edge comes to lie here. Crosses in the strips."""
    row, column = tile
    left, top = MARGIN_MM, MARGIN_MM
    right, bottom = left + cells.width_mm + OVERLAP_MM, top + cells.height_mm + OVERLAP_MM
    beside = {
        "left": Tile(row, column - 1),
        "right": Tile(row, column + 1),
        "above": Tile(row - 1, column),
        "below": Tile(row + 1, column),
    }
    there = {side: other in printed for side, other in beside.items()}
    joint_x, joint_y = left + cells.width_mm, top + cells.height_mm
    for side, line in (
        ("left", (left, top, left, bottom)),
        ("above", (left, top, right, top)),
        ("right", (joint_x, top, joint_x, bottom)),
        ("below", (left, joint_y, right, joint_y)),
    ):
        if there[side]:
            cut = side in ("left", "above")
            page.line(*line, stroke_mm=0.35 if cut else 0.18, dash=_CUT_DASH if cut else (0.5, 1.5))
    for side in beside:
        _name_neighbour(page, cells, side, beside[side], there[side])
    for x, y in _crosses(cells, tile, printed):
        page.line(left + x - _CROSS_MM, top + y, left + x + _CROSS_MM, top + y, stroke_mm=0.18)
        page.line(left + x, top + y - _CROSS_MM, left + x, top + y + _CROSS_MM, stroke_mm=0.18)


def _crosses(cells: Cells, tile: Tile, printed: Container[Tile]) -> list[tuple[float, float]]:
    """Where crosses stand in a tile's window: in the middle of each shared strip, at its ends and half way."""
    row, column = tile
    half = OVERLAP_MM / 2
    found: dict[tuple[float, float], None] = {}
    for dx, x in ((-1, half), (1, cells.width_mm + half)):
        if Tile(row, column + dx) in printed:
            found.update(dict.fromkeys((x, y) for y in (half, cells.height_mm / 2, cells.height_mm + half)))
    for dy, y in ((-1, half), (1, cells.height_mm + half)):
        if Tile(row + dy, column) in printed:
            found.update(dict.fromkeys((x, y) for x in (half, cells.width_mm / 2, cells.width_mm + half)))
    return list(found)


def _name_neighbour(page: Page, cells: Cells, side: str, other: Tile, there: bool) -> None:
    if other.row < 0 or other.column < 0:
        return
    level, upright = MARGIN_MM + cells.width_mm / 2, MARGIN_MM + cells.height_mm / 2
    right, bottom = MARGIN_MM + cells.width_mm + OVERLAP_MM, MARGIN_MM + cells.height_mm + OVERLAP_MM
    if not there:
        text = f"{other.name}: nothing on it, not printed"
    elif side in ("left", "above"):
        text = f"cut here, lay this edge on {other.name}, cross on cross"
    else:
        text = f"{other.name} comes to lie on this strip"
    if side == "above":
        page.text(level, MARGIN_MM - 2.5, text, _TEXT_MM, anchor="middle")
    elif side == "below":
        page.text(level, bottom + 1.5 + _TEXT_MM, text, _TEXT_MM, anchor="middle")
    elif side == "left":
        page.text(MARGIN_MM - 2.5, upright, text, _TEXT_MM, anchor="middle", rotate=-90)
    else:
        page.text(right + 2.5, upright, text, _TEXT_MM, anchor="middle", rotate=90)


def _draw_strip(page: Page, tile: Tile, imprint: Imprint) -> None:
    x, y = MARGIN_MM, page.height_mm - STRIP_MM + 11.0
    with page.group("scale-bar", f"scale bar, {BAR_MM:.0f} mm"):
        page.line(x, y, x + BAR_MM, y, stroke_mm=0.5)
        for step in range(11):
            tall = 3.0 if step % 5 == 0 else 1.8
            page.line(x + step * BAR_MM / 10, y - tall, x + step * BAR_MM / 10, y, stroke_mm=0.25)
    page.text(x, y + 5.0, MEASURE, 3.5, bold=True)
    page.text(page.width_mm - MARGIN_MM, y + 5.0, tile.name, 10.0, bold=True, anchor="end")
    middle = Rect(x + BAR_MM + 14, y, page.width_mm - 2 * MARGIN_MM - BAR_MM - 14 - 30, 0)
    page.text(middle.x, y - 2.0, imprint.harness, _TEXT_MM, bold=True, box_mm=middle.width)
    page.text(
        middle.x + 20, y + 5.0, f"{imprint.sheet}, scale 1:1, {imprint.state}", _TEXT_MM, box_mm=middle.width - 20
    )
