"""Pouring parts into columns: breaks, repeated headings, level columns. Heights worked by hand."""

from harnessdoc.drawing.flow import BETWEEN_MM, Block, Frame, Part, pour, pour_level
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page


def _nothing(page: Page, x: float, y: float) -> None:
    """Draw nothing."""


def _part(height_mm: float, **more: object) -> Part:
    return Part(height_mm, _nothing, **more)  # type: ignore[arg-type]


def _frames(count: int, height_mm: float) -> list[Frame]:
    return [Frame(n, Rect(0, 0, 100, height_mm)) for n in range(count)]


def test_a_block_that_breaks_repeats_its_headings() -> None:
    """Column of 50: head 10 + table head 5 + three rows of 10 = 45; the fourth goes on under both headings."""
    table_head = _part(5, glued=True)
    rows = [_part(10), *(_part(10, under=table_head) for _ in range(3))]
    again = _part(8)
    block = Block(_part(10, glued=True), again, (table_head, *rows))
    placed = pour([block], iter(_frames(2, 50)))
    assert placed is not None
    second = [(one.part, one.y) for one in placed if one.sheet == 1]
    assert second == [(again, 0), (table_head, 8), (rows[3], 13)]


def test_a_heading_never_stands_alone_at_the_foot() -> None:
    """20 + 6 + head 10 = 36 of 40, but its first part of 10 does not fit: both go to the next column."""
    first = Block(_part(20), _part(1), ())
    second = Block(_part(10, glued=True), _part(1), (_part(10),))
    placed = pour([first, second], iter(_frames(2, 40)))
    assert placed is not None
    assert [(one.sheet, one.y) for one in placed] == [(0, 0), (1, 0), (1, 10)]


def test_blocks_stand_apart() -> None:
    blocks = [Block(_part(10), _part(1), ()), Block(_part(10), _part(1), ())]
    placed = pour(blocks, iter(_frames(1, 100)))
    assert placed is not None
    assert placed[1].y == 10 + BETWEEN_MM


def test_too_much_for_the_frames_is_said() -> None:
    blocks = [Block(_part(30), _part(1), ()) for _ in range(3)]
    assert pour(blocks, iter(_frames(1, 50))) is None
    assert pour([], iter([])) is None


def test_columns_are_filled_level() -> None:
    """Three blocks of 30 in three columns of a high area: one each."""
    blocks = [Block(_part(30), _part(1), ()) for _ in range(3)]
    placed = pour_level(blocks, Rect(0, 0, 320, 200), 3, 10)
    assert placed is not None
    assert [(one.x, one.y) for one in placed] == [(0, 0), (110, 0), (220, 0)]
    assert pour_level(blocks, Rect(0, 0, 320, 20), 3, 10) is None
