"""A plug, a strip or anything with many terminals: a cell a terminal, its number in it, its wires at the cell's edge.

Goes on in the next column, under its name, where it is too tall for one. Knows leads, no harness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.breakouts.items import OUTLINE_MM, POST_MM
from harnessdoc.drawing.breakouts.rows import AFTER_MM, Row, Slot, Words, rows_of
from harnessdoc.drawing.breakouts.ruler import LINE_UP_MM, Ruler, draw_spine
from harnessdoc.drawing.flow import Draw, Part
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import TEXT_MM
from harnessdoc.sheet.page import BLACK, Page

WHOLE_ROWS: Final = 6
"""So many rows are never parted."""
_LEAST_MM: Final = 8.0
_NAME_CAP_MM: Final = 20.0
_BRIDGE_MM: Final = 3.0
_TOP_MM: Final = 0.5
_AGAIN_MM: Final = 6.0


@dataclass(frozen=True, slots=True)
class Strip:
    """What is drawn as cells. `bridged`: of each slot, whether it is joined to the one after it.

    `aside`: what is drawn under the words, from its top left corner; `aside_mm`: its height."""

    name: str
    title: str
    words: Words
    slots: tuple[Slot, ...]
    bridged: tuple[bool, ...] = ()
    aside: Draw | None = None
    aside_mm: float = 0.0

    @property
    def beside_mm(self) -> float:
        """Height of all that stands beside the cells."""
        return self.words.height_mm + self.aside_mm


def strip_parts(ruler: Ruler, strip: Strip) -> Iterator[Part]:
    """Return the parts of a strip, a row each; enough of them stay together for the words beside them."""
    rows = rows_of(strip.slots, ruler)
    width = cells_mm(strip.slots)
    again = _again(ruler, strip.name, width)
    over = Part(0.0, lambda page, x, y: _torn(page, x + ruler.end_mm, y, width))
    drawn = _Cells(ruler, strip, rows, width)
    total = rows[-1].foot_mm + _TOP_MM
    spare = max(0.0, strip.beside_mm - total)
    for index, row in enumerate(rows):
        last = index == len(rows) - 1
        height = row.height_mm + (_TOP_MM if index == 0 else 0.0) + (spare + AFTER_MM if last else 0.0)
        whole = len(rows) <= WHOLE_ROWS or row.foot_mm < strip.beside_mm or index >= len(rows) - 3
        same_slot = not last and rows[index + 1].slot == row.slot
        yield Part(
            height,
            drawn.of_row(index, height),
            glued=not last and (whole or same_slot),
            under=again if index else None,
            over=None if last else over,
        )


def cells_mm(slots: Sequence[Slot]) -> float:
    """Return the width of the cells of these slots."""
    widest = max((lettering.text_width_mm(slot.terminal, TEXT_MM) for slot in slots), default=0.0)
    return max(_LEAST_MM, min(widest, _NAME_CAP_MM) + 2.4)


class _Cells:
    """Draws one row of a strip with its piece of the outline."""

    def __init__(self, ruler: Ruler, strip: Strip, rows: Sequence[Row], width: float) -> None:
        self._ruler, self._strip, self._rows, self._width = ruler, strip, rows, width

    def of_row(self, index: int, height: float) -> Draw:
        """The drawing function of one row's part."""

        def draw(page: Page, x: float, y: float) -> None:
            self._draw(page, x, y, index, height)

        return draw

    def _draw(self, page: Page, x: float, y: float, index: int, height: float) -> None:
        row, rows = self._rows[index], self._rows
        first = index == 0
        top = y + (_TOP_MM if first else 0.0)
        foot = top + row.height_mm
        edge, right = x + self._ruler.end_mm, x + self._ruler.end_mm + self._width
        draw_spine(page, x, y, y + height)
        if row.lead is not None:
            self._ruler.draw(page, x, foot, row.lead)
        for side in (edge, right):
            page.line(side, top, side, foot, stroke_mm=OUTLINE_MM)
        if index == len(rows) - 1:
            page.line(edge - OUTLINE_MM / 2, foot, right + OUTLINE_MM / 2, foot, stroke_mm=OUTLINE_MM)
        begins = first or rows[index - 1].slot != row.slot
        if begins:
            self._draw_edge(page, edge, top, index)
        goes_on = index + 1 < len(rows) and rows[index + 1].slot == row.slot
        if goes_on or not begins:
            line = foot - LINE_UP_MM
            page.line(edge, line - 0.6 if begins else top, edge, foot if goes_on else line + 0.6, stroke_mm=POST_MM)
        name = self._strip.slots[row.slot].terminal  # of every wire that ends in the cell
        middle = foot - LINE_UP_MM - 0.75 + TEXT_MM / 2
        page.text(edge + self._width / 2, middle, name, TEXT_MM, anchor="middle", box_mm=self._width - 1.6)
        self._draw_bridge(page, right, top, foot, row, begins)
        if first:
            bridge = _BRIDGE_MM if any(self._strip.bridged) else 0.0
            with page.group(f"item-{self._strip.name}", f"{self._strip.name} {self._strip.title}"):
                self._strip.words.draw(page, right + bridge + 2.0, y)
                if self._strip.aside is not None:
                    self._strip.aside(page, right + bridge + 2.0, y + self._strip.words.height_mm)

    def _draw_edge(self, page: Page, edge: float, top: float, index: int) -> None:
        line_mm = OUTLINE_MM if index == 0 else 0.25
        start = edge - (OUTLINE_MM / 2 if index == 0 else 0)
        page.line(start, top, edge + self._width + (OUTLINE_MM / 2 if index == 0 else 0), top, stroke_mm=line_mm)

    def _draw_bridge(self, page: Page, right: float, top: float, foot: float, row: Row, begins: bool) -> None:
        bridged, slot = self._strip.bridged, row.slot
        if not any(bridged):
            return
        x, line = right + _BRIDGE_MM - 1.0, foot - LINE_UP_MM - 0.75
        up = slot > 0 and bridged[slot - 1]
        down = slot < len(bridged) and bridged[slot]
        if begins and (up or down):
            page.line(right, line, x, line, stroke_mm=0.35)
            page.circle(x, line, 0.6, fill=BLACK, stroke="none")
        if up and begins:
            page.line(x, top, x, line, stroke_mm=0.35)
        if down or (up and not begins):
            page.line(x, line if begins else top, x, foot, stroke_mm=0.35)


def _again(ruler: Ruler, name: str, width: float) -> Part:
    def draw(page: Page, x: float, y: float) -> None:
        draw_spine(page, x, y, y + _AGAIN_MM)
        edge = x + ruler.end_mm
        words = lettering.fit(f"{name}, continued", ruler.body_mm, TEXT_MM, True)
        page.text(edge, y + 3.4, words, TEXT_MM, bold=True)
        _torn(page, edge, y + _AGAIN_MM, width)

    return Part(_AGAIN_MM, draw)


def _torn(page: Page, edge: float, y: float, width: float) -> None:
    """The dashed edge where an outline goes on elsewhere."""
    page.line(edge, y, edge + width, y, stroke_mm=0.35, dash=(1.2, 0.8))
