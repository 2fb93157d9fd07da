"""What stands at the foot of a sheet with the title block: cautions and the list of revisions.

Beside the block where the sheet is wide enough, else above it. Knows no harness and no paper.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from harnessdoc.layouts import LayoutError
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import PAD_MM, Cell, Column, Grid, Row, shortened
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titleblock import RevisionLine

CAUTION_MM: Final = 2.5
BESIDE_MM: Final = 65.0  # own choice: least width for what stands beside the title block
MOST_REVISION_MM: Final = 220.0  # own choice: the list's width
MOST_ABOVE: Final = 4  # own choice: revisions in the list where it takes room from the drawing,
PART_ABOVE: Final = 1 / 6  # and the part of the frame's height that it may take there, if more than one is listed
_WHAT_LINES: Final = 2  # own choice
_PADDING_MM: Final = 1.5  # own choice
_RULE_MM: Final = 0.35
_MARK_MM: Final = 12.0
_DATE_MM: Final = 25.0


def draw_foot(
    page: Page, frame: Rect, block: Rect, cautions: Sequence[str], revisions: Sequence[RevisionLine]
) -> float:
    """Draw both round a title block at the frame's lower right; return the upper edge of the foot, mm.

    `revisions`: the newest first; those that have no room are counted. Raises LayoutError where the cautions take
    more than a third of the sheet.
    """
    beside = Rect(frame.x, block.y, block.x - frame.x, block.height)
    lines = _lines(cautions, beside.width) if beside.width >= BESIDE_MM else []
    if lines and _height_mm(lines) <= beside.height:
        at = Rect(beside.x, beside.bottom - _height_mm(lines), beside.width, _height_mm(lines))
        top = block.y
    else:
        lines = _lines(cautions, frame.width)
        top = block.y - _height_mm(lines)
        at = Rect(frame.x, top, frame.width, _height_mm(lines))
    if at.height > frame.height / 3:
        raise LayoutError(f"the cautions take more than a third of the sheet ({at.height:.0f} mm)")
    if revisions:
        free = Rect(beside.x, block.y, beside.width, (at.y if at.y > block.y else block.bottom) - block.y)
        most_mm = frame.height * PART_ABOVE
        top = _draw_revisions(page, free, Rect(frame.x, top - most_mm, frame.width, most_mm), revisions)
    if at.y > block.y and not revisions:
        at = Rect(at.x, block.y, at.width, at.height)
    with page.group("cautions", "cautions" if lines else ""):
        page.line(frame.x, top, frame.right, top, stroke_mm=_RULE_MM)
        page.lines(at.x + _PADDING_MM, at.y + _PADDING_MM + CAUTION_MM, lines, CAUTION_MM)
    return top


def _draw_revisions(page: Page, free: Rect, above: Rect, revisions: Sequence[RevisionLine]) -> float:
    """Draw the list in the free part beside the block, else at the foot of `above`; return the foot's upper edge."""
    if free.width >= BESIDE_MM:
        width = min(free.width, MOST_REVISION_MM)
        grid = _grid(width)
        rows = _rows_that_fit(grid, revisions, free.height, len(revisions))
        if rows:
            _draw_list(page, grid, free.right - width, free.y, rows)
            return free.y
    width = min(above.width, MOST_REVISION_MM)
    grid = _grid(width)
    rows = _rows_that_fit(grid, revisions, above.height, MOST_ABOVE) or _rows_that_fit(grid, revisions, math.inf, 1)
    height = grid.head_mm + sum(map(grid.row_mm, rows))
    _draw_list(page, grid, above.right - width, above.bottom - height, rows)
    return above.bottom - height


def _draw_list(page: Page, grid: Grid, x: float, y: float, rows: Sequence[Row]) -> None:
    with page.group("revisions", "revisions, the newest first"):
        bottom = grid.draw_head(page, x, y)
        for row in rows:
            bottom = grid.draw_row(page, x, bottom, row)
        grid.draw_sides(page, x, y, bottom, inner=True)


def _grid(width_mm: float) -> Grid:
    what_mm = width_mm - _MARK_MM - _DATE_MM
    return Grid((Column("Rev.", _MARK_MM), Column("Date", _DATE_MM), Column("What was changed", what_mm)))


def _rows_that_fit(grid: Grid, revisions: Sequence[RevisionLine], height_mm: float, most: int) -> list[Row]:
    """The newest revisions as rows, at most so many; the last row counts those left out. Empty: not one fits."""
    whole = [_row(grid, revision) for revision in revisions]
    for count in range(min(most, len(whole)), 0, -1):
        left_out = len(whole) - count
        rows = whole[:count] + ([(Cell(), Cell(), Cell(f"and {left_out} earlier"))] if left_out else [])
        if grid.head_mm + sum(map(grid.row_mm, rows)) <= height_mm:
            return rows
    return []


def _row(grid: Grid, revision: RevisionLine) -> Row:
    texts = (revision.mark, revision.date, revision.what)
    most = (1, 1, _WHAT_LINES)
    return [
        Cell("\n".join(shortened(text, column.width_mm - 2 * PAD_MM, bold, lines)), bold)
        for text, column, lines, bold in zip(texts, grid.columns, most, (True, False, False), strict=True)
    ]


def _height_mm(lines: Sequence[str]) -> float:
    if not lines:
        return 0.0
    step = CAUTION_MM * lettering.LINE_SPACING
    descender = CAUTION_MM * 0.33  # of the carried font: 483 of 2048 em under the base line
    return 2 * _PADDING_MM + CAUTION_MM + step * (len(lines) - 1) + descender


def _lines(cautions: Sequence[str], width_mm: float) -> list[str]:
    return [
        line
        for caution in cautions
        if lettering.clean(caution)
        for line in lettering.wrap(caution, width_mm - 2 * _PADDING_MM, CAUTION_MM)
    ]
