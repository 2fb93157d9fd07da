"""An item at the end of its wires: an outline across its terminals' rows with what joins them inside, and its words.

Knows items and leads; places nothing on a sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from harnessdoc.drawing import symbols
from harnessdoc.drawing.breakouts.insides import HALF_MM, LANE_MM, in_order, inside_of
from harnessdoc.drawing.breakouts.rows import AFTER_MM, Row, Slot, rows_of, words_in
from harnessdoc.drawing.breakouts.ruler import LINE_UP_MM, Ruler, draw_spine
from harnessdoc.drawing.flow import Part
from harnessdoc.model.harness import Item
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import TEXT_MM
from harnessdoc.sheet.page import Page

TALLEST_MM: Final = 60.0
"""An item with taller rows than this is drawn as a strip of cells, which can go on in the next column."""
OUTLINE_MM: Final = 0.5
POST_MM: Final = 1.2
_PAD_MM: Final = 1.4
_NAME_CAP_MM: Final = 16.0
_TOP_MM: Final = 0.6
_UNDER_MM: Final = 0.9  # what the outline reaches under its last row
_SYMBOL: Final = 1.0  # of its size: its letters stay 2.5 mm
_TALL: Final = frozenset({"motor", "source", "lamp", "battery"})
_TALL_PITCH_MM: Final = 7.2


def item_part(ruler: Ruler, item: Item, slots: Sequence[Slot], remark: str) -> Part:
    """Return an item as one part; `slots` in the order of `slot_order`."""
    rows = rows_of(slots, ruler, _TALL_PITCH_MM if item.kind.name in _TALL else 0.0)
    inside = inside_of(item.kind)
    shown = {slot.terminal for slot in slots}
    if inside is not None and not all({path.a, path.b} <= shown for path, _ in inside.paths):
        inside = None
    names = max((lettering.text_width_mm(slot.terminal, TEXT_MM) for slot in slots), default=0.0)
    names = min(names, _NAME_CAP_MM)
    lanes = inside.lanes * LANE_MM if inside else symbols.WIDTH_MM * _SYMBOL + 1.0
    width = _PAD_MM + names + 1.0 + lanes + (0.8 if inside else 1.0)
    room = ruler.body_mm - width - 2.5
    words = words_in(room, item.name, item.kind.marked(), (item.title or item.kind.name, remark))
    least = 0.0 if inside else symbols.HEIGHT_MM * _SYMBOL + 2.4
    bottom = max(rows[-1].foot_mm + _UNDER_MM, least + _TOP_MM)
    height = max(bottom, words.height_mm) + AFTER_MM

    def draw(page: Page, x: float, y: float) -> None:
        draw_spine(page, x, y, y + height)
        edge = x + ruler.end_mm
        for row in rows:
            if row.lead is not None:
                ruler.draw(page, x, y + row.foot_mm, row.lead)
        with page.group(f"item-{item.name}", f"{item.name} {item.title or item.kind.name}", desc=item.kind.marked()):
            page.rect(edge, y + _TOP_MM, width, bottom - _TOP_MM, stroke_mm=OUTLINE_MM)
            for index in range(len(slots)):
                draw_post(page, edge, y, [row for row in rows if row.slot == index])
            for row in rows:
                name = slots[row.slot].terminal  # of every wire that ends there
                page.text(edge + _PAD_MM, y + row.line_mm - 0.9, name, TEXT_MM, box_mm=_NAME_CAP_MM)
            if inside is not None:
                lines = {slot.terminal: y + foot - LINE_UP_MM for foot, slot in _bases(rows, slots)}
                inside.draw(page, edge, edge + _PAD_MM + names + 1.0 + HALF_MM + 0.4, lines)
            else:
                middle = edge + width - 1.0 - symbols.WIDTH_MM * _SYMBOL / 2, y + (_TOP_MM + bottom) / 2
                with page.group(x=middle[0], y=middle[1], scale=_SYMBOL):
                    symbols.draw_symbol(page, symbols.symbol_name(item.kind), 0, 0)
            words.draw(page, edge + width + 2.0, y)

    return Part(height, draw)


def slot_order(item: Item) -> tuple[str, ...]:
    """Return an item's terminals in the order they are drawn."""
    return in_order(item.kind)


def _bases(rows: Sequence[Row], slots: Sequence[Slot]) -> Iterator[tuple[float, Slot]]:
    """The foot of the first row of each slot."""
    seen: set[int] = set()
    for row in rows:
        if row.slot not in seen:
            seen.add(row.slot)
            yield row.foot_mm, slots[row.slot]


def draw_post(page: Page, edge: float, y: float, rows: Sequence[Row]) -> None:
    """Draw the post that the wires of one terminal share, from the first to the last of its rows."""
    if len(rows) > 1:
        page.line(edge, y + rows[0].line_mm - 0.6, edge, y + rows[-1].line_mm + 0.6, stroke_mm=POST_MM)
