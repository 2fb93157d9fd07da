"""Pouring parts into columns: breaks, repeated headings, level columns. Heights worked by hand."""

from harnessdoc.drawing.flow import BETWEEN_MM, Block, Break, Frame, Part, pour, pour_level
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
    poured = pour([block], iter(_frames(2, 50)))
    assert poured is not None
    second = [(one.part, one.y) for one in poured.placed if one.sheet == 1]
    assert second == [(again, 0), (table_head, 8), (rows[3], 13)]
    assert poured.breaks == [Break(0, 0, 0, 45, 1, 0, 0)]
    assert poured.begins == [(0, 0, 0)]
    assert poured.bottom == 45


def test_an_edge_is_drawn_where_a_part_s_follower_goes_elsewhere() -> None:
    """Head 10, rows of 10 in a column of 25: the first row's edge at 20, none for the last."""
    edge = _part(0)
    rows = [_part(10, over=edge), _part(10, over=edge)]
    poured = pour([Block(_part(10, glued=True), _part(5), tuple(rows))], iter(_frames(2, 25)))
    assert poured is not None
    assert [(one.sheet, one.y) for one in poured.placed if one.part is edge] == [(0, 20)]


def test_parts_that_stay_together_but_fill_more_than_a_column_are_parted() -> None:
    """Five glued rows of 10 with a head of 10 in columns of 40 (5 for the heading there): no part leaves its column."""
    block = Block(_part(10, glued=True), _part(5), tuple(_part(10, glued=True) for _ in range(5)))
    poured = pour([block], iter(_frames(3, 40)))
    assert poured is not None
    assert max(one.y + one.part.height_mm for one in poured.placed) <= 40
    assert {one.sheet for one in poured.placed} == {0, 1}


def test_a_heading_never_stands_alone_at_the_foot() -> None:
    """20 + 6 + head 10 = 36 of 40, but its first part of 10 does not fit: both go to the next column."""
    first = Block(_part(20), _part(1), ())
    second = Block(_part(10, glued=True), _part(1), (_part(10),))
    poured = pour([first, second], iter(_frames(2, 40)))
    assert poured is not None
    assert [(one.sheet, one.y) for one in poured.placed] == [(0, 0), (1, 0), (1, 10)]


def test_blocks_stand_apart() -> None:
    blocks = [Block(_part(10), _part(1), ()), Block(_part(10), _part(1), ())]
    poured = pour(blocks, iter(_frames(1, 100)))
    assert poured is not None
    assert poured.placed[1].y == 10 + BETWEEN_MM


def test_too_much_for_the_frames_is_said() -> None:
    blocks = [Block(_part(30), _part(1), ()) for _ in range(3)]
    assert pour(blocks, iter(_frames(1, 50))) is None
    assert pour([], iter([])) is None


def test_columns_are_filled_level() -> None:
    """Three blocks of 30 in three columns of a high area: one each."""
    blocks = [Block(_part(30), _part(1), ()) for _ in range(3)]
    poured = pour_level(blocks, Rect(0, 0, 320, 200), 3, 10)
    assert poured is not None
    assert [(one.x, one.y) for one in poured.placed] == [(0, 0), (110, 0), (220, 0)]
    assert pour_level(blocks, Rect(0, 0, 320, 20), 3, 10) is None
