"""Label sheets: labels put at their exact places on stock of rows and columns, a page made only when it is asked for.

Decides nothing about words; knows no tape and no file.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final

from harnessdoc.labels.lazy import LazyPages
from harnessdoc.labels.material import Stock
from harnessdoc.labels.printing import CUT_LINE_MM, GREY, PlacedLabel, Printed, draw, draw_fold, place
from harnessdoc.model.harness import Title
from harnessdoc.sheet.page import Page

EDGE_TEXT_MM: Final = 2.5
_EDGE_ROOM_MM: Final = 9.0  # own choice: a top edge narrower than this stays blank (printers spare 4 to 5 mm)
MOST_OFFSET_MM: Final = 10.0  # own choice: a printer that is further off is not set up for the paper


def impose(
    printed: Sequence[Printed], stock: Stock, start: int = 1, offset: tuple[float, float] = (0.0, 0.0)
) -> list[PlacedLabel]:
    """Return the labels at their places, in their order; all are on this stock.

    `start`: the first free label of the first sheet, 1 to `stock.count`. `offset`: how far everything is moved right
    and down, mm, as measured on the calibration page. Raises ValueError for a start or an offset that can't be.
    """
    if not 1 <= start <= stock.count:
        raise ValueError(f"a sheet of {stock.name} has labels 1 to {stock.count}; it can't start at {start}")
    check_offset(offset)
    placed = []
    for index, one in enumerate(printed, start - 1):
        sheet, position = divmod(index, stock.count)
        box = stock.label(position + 1)
        moved = box._replace(x=box.x + offset[0], y=box.y + offset[1])
        placed.append(place(one, sheet, position + 1, moved))
    return placed


def check_offset(offset: tuple[float, float]) -> None:
    """Raise ValueError for an offset that is no calibration."""
    if not all(abs(one) <= MOST_OFFSET_MM for one in offset):
        x, y = offset
        raise ValueError(f"an offset moves labels by at most {MOST_OFFSET_MM:g} mm, not {x:g}, {y:g}")


def sheet_pages(
    placed: Sequence[PlacedLabel], stock: Stock, title: Title, mark: str = "", cut_marks: bool = False
) -> LazyPages:
    """Return the stock's sheets. `cut_marks`: outline each label, for paper that is not cut yet."""
    sheets: list[list[PlacedLabel]] = [[] for _ in range(placed[-1].sheet + 1 if placed else 0)]
    for one in placed:
        sheets[one.sheet].append(one)
    return LazyPages(
        [
            partial(_drawn, labels, stock, title, number, len(sheets), mark, cut_marks)
            for number, labels in enumerate(sheets, 1)
        ]
    )


def _drawn(
    labels: Sequence[PlacedLabel], stock: Stock, title: Title, number: int, sheets: int, mark: str, cut_marks: bool
) -> Page:
    page = _sheet_page(stock, title, number, sheets, mark)
    for one in labels:
        draw(page, one)
        draw_fold(page, one)
        if cut_marks:
            page.rect(*one.box, radius=stock.corner_mm, stroke=GREY, stroke_mm=CUT_LINE_MM)
    return page


def _sheet_page(stock: Stock, title: Title, number: int, sheets: int, mark: str) -> Page:
    """An empty label sheet; its waste edge says what it is, where there is room for that."""
    page = Page(stock.sheet_width_mm, stock.sheet_height_mm, f"{title.number} labels {stock.name} {number}")
    if stock.top_mm >= _EDGE_ROOM_MM:
        parts = [
            title.number,
            f"revision {title.revision}" if title.revision else "",
            f"mark {mark}" if mark else "",
            stock.name,
            f"label sheet {number} of {sheets}",
            "print at 100 %, not fitted to the page",
        ]
        width = stock.sheet_width_mm - 2 * stock.left_mm
        text = "  ·  ".join(filter(None, parts))
        page.text(stock.left_mm, stock.top_mm - EDGE_TEXT_MM, text, EDGE_TEXT_MM, box_mm=width, fill=GREY)
    return page
