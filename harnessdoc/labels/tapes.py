"""Tapes and sleeves: a strip to be cut, label after label in working order, and each label alone at exact dots.

What is printed is the middle of a tape, or a sleeve lying flat. Decides nothing about words; knows no file.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from harnessdoc.labels.dots import dot_mm, snap_down, snap_up
from harnessdoc.labels.lazy import LazyPages
from harnessdoc.labels.printing import PlacedLabel, Printed, draw, draw_fold, place
from harnessdoc.sheet.bitmap import Bitmap, bitmap
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import BLACK, Page

STRIP_MM: Final = 1000.0  # own choice: a strip is no longer; printers take at least a metre
_TICK_MM: Final = 1.0
_TICK_LINE_MM: Final = 0.2


def width_mm(one: Printed | PlacedLabel) -> float:
    """Return how wide the material lies: the tape, or the sleeve pressed flat."""
    return one.fit.sleeve.flat_mm if one.fit.sleeve is not None else one.stock.tape_mm


def edge_mm(one: Printed | PlacedLabel) -> float:
    """Return what the printer spares at each long edge."""
    stock = one.stock
    return stock.margin_mm if one.fit.sleeve is not None else (stock.tape_mm - stock.printable_mm) / 2


def thread(printed: Sequence[Printed], offset: tuple[float, float] = (0.0, 0.0)) -> list[PlacedLabel]:
    """Return the labels one after the other on strips, in their order, each beginning on a dot.

    `printed`: all of one width. `offset`: how far print is moved along and across, mm.
    """
    placed: list[PlacedLabel] = []
    strip, position, x = 0, 0, 0.0
    for one in printed:
        long = snap_up(one.fit.cut_mm or 0.0, one.dpi)
        if position and x + long > STRIP_MM + 1e-6:
            strip, position, x = strip + 1, 0, 0.0
        position += 1
        box = Rect(x, 0.0, long, width_mm(one))
        origin = (x + offset[0], edge_mm(one) + offset[1])
        moved = box._replace(x=origin[0], y=offset[1])
        placed.append(replace(place(one, strip, position, moved, origin), box=box))  # an offset moves no cut
        x += long
    return placed


def strip_pages(placed: Sequence[PlacedLabel], title: str) -> LazyPages:
    """Return the strips of one width, a page each."""
    strips: list[list[PlacedLabel]] = [[] for _ in range(placed[-1].sheet + 1 if placed else 0)]
    for one in placed:
        strips[one.sheet].append(one)
    return LazyPages([partial(_drawn, labels, f"{title} {number}") for number, labels in enumerate(strips, 1)])


def _drawn(labels: Sequence[PlacedLabel], title: str) -> Page:
    """A strip, with ticks where it is cut."""
    page = Page(labels[-1].box.right, labels[0].box.height, title)
    edge = edge_mm(labels[0])
    for one in labels:
        draw(page, one)
        draw_fold(page, one, BLACK)
        if one is not labels[0]:
            for y in (edge, one.box.height - edge - _TICK_MM):
                page.line(one.box.x, y, one.box.x, y + _TICK_MM, stroke_mm=_TICK_LINE_MM)
    return page


def label_bitmap(one: PlacedLabel) -> Bitmap:
    """Return one label alone as the printer's dots: as long as it is cut, as high as the head prints."""
    edge = edge_mm(one)
    high = snap_down(one.box.height - 2 * edge, one.dpi)
    page = Page(one.box.width, max(high, dot_mm(one.dpi)))
    shift = (-one.box.x, -edge)
    draw(page, one, shift)
    draw_fold(page, one, BLACK, shift)
    return bitmap(page, one.dpi)
