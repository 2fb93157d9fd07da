"""Tables on paper: columns of fixed width, cells that wrap, rows as tall as they need. Knows no harness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.model.colours import Colour
from harnessdoc.sheet import inks, lettering
from harnessdoc.sheet.page import Page

TEXT_MM: Final = 2.5
STEP_MM: Final = TEXT_MM * lettering.LINE_SPACING
PAD_MM: Final = 1.0
SLEEVE_MM: Final = (8.0, 3.2)
MOST_LINES: Final = 6  # own choice: a cell with more is shortened, so that no text takes a sheet
_RULE_MM: Final = 0.18
_HEAD_RULE_MM: Final = 0.5


@dataclass(frozen=True, slots=True)
class Column:
    """A column's heading and its width in mm."""

    title: str
    width_mm: float


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in a cell: text; with `sleeves`, one band a colour (None: unknown) and its code beside it."""

    text: str = ""
    bold: bool = False
    sleeves: tuple[Colour | None, ...] = ()


Row = Sequence[Cell]


@dataclass(frozen=True, slots=True)
class Grid:
    """A table's columns; draws its heading and rows anywhere. A cell with more than `most_lines` is shortened."""

    columns: tuple[Column, ...]
    most_lines: int = MOST_LINES

    @property
    def width_mm(self) -> float:
        """The whole width, mm."""
        return sum(column.width_mm for column in self.columns)

    @property
    def head_mm(self) -> float:
        """Height of the heading, mm."""
        return _height_mm(max(len(_wrapped(c.title, c.width_mm, True)) for c in self.columns))

    def row_mm(self, row: Row) -> float:
        """Height of a row, mm."""
        return _height_mm(
            max(
                len(_code_lines(cell.sleeves, column.width_mm))
                or len(_wrapped(cell.text, column.width_mm, cell.bold, self.most_lines))
                for cell, column in zip(row, self.columns, strict=True)
            )
        )

    def draw_head(self, page: Page, x: float, y: float) -> float:
        """Draw the heading with its top left at (x, y); return the y below it."""
        bottom = y + self.head_mm
        for left, column in self._lefts(x):
            page.lines(left + PAD_MM, y + PAD_MM + TEXT_MM, _wrapped(column.title, column.width_mm, True), bold=True)
        page.line(x, bottom, x + self.width_mm, bottom, stroke_mm=_HEAD_RULE_MM)
        return bottom

    def draw_row(self, page: Page, x: float, y: float, row: Row, rule: bool = True) -> float:
        """Draw a row and, with `rule`, the thin rule under it; return the y below."""
        bottom = y + self.row_mm(row)
        for (left, column), cell in zip(self._lefts(x), row, strict=True):
            if cell.sleeves:
                _draw_sleeves(page, left, y, column.width_mm, cell.sleeves)
            else:
                lines = _wrapped(cell.text, column.width_mm, cell.bold, self.most_lines)
                page.lines(left + PAD_MM, y + PAD_MM + TEXT_MM, lines, TEXT_MM, bold=cell.bold)
        if rule:
            page.line(x, bottom, x + self.width_mm, bottom, stroke_mm=_RULE_MM)
        return bottom

    def draw_sides(self, page: Page, x: float, top: float, bottom: float, inner: bool = False) -> None:
        """Close a drawn table at both sides, with `inner` also between its columns."""
        for left, _ in self._lefts(x):
            if inner and left > x:
                page.line(left, top, left, bottom, stroke_mm=_RULE_MM)
        for side in (x, x + self.width_mm):
            page.line(side, top, side, bottom, stroke_mm=_RULE_MM)

    def _lefts(self, x: float) -> Iterator[tuple[float, Column]]:
        for column in self.columns:
            yield x, column
            x += column.width_mm


def code_of(colour: Colour | None) -> str:
    """The printed code of a colour, or `unknown`."""
    return colour.code if colour else "unknown"


def draw_sleeve(page: Page, x: float, y: float, colour: Colour | None, length_mm: float, height_mm: float) -> None:
    """Draw a wire's band round (x, y); an unknown colour is an empty band with a question mark."""
    base, tracers = (colour.base, colour.tracers) if colour else ("", ())
    inks.sleeve(page, x, y, length_mm, height_mm, base, tracers)


def _draw_sleeves(page: Page, x: float, y: float, width: float, colours: Sequence[Colour | None]) -> None:
    length, height = SLEEVE_MM
    for index, (banded, colour, text) in enumerate(_code_lines(colours, width)):
        base = y + PAD_MM + TEXT_MM + index * STEP_MM
        if banded:
            draw_sleeve(page, x + PAD_MM + length / 2, base - TEXT_MM / 2, colour, length, height)
        page.text(x + 2 * PAD_MM + length, base, text, TEXT_MM)


def _code_lines(colours: Sequence[Colour | None], width: float) -> list[tuple[bool, Colour | None, str]]:
    """The lines of a colour cell: whether a band stands before it, its colour, the text.

    A code too long for one line goes on under itself after a slash; it is never shortened.
    """
    room = width - SLEEVE_MM[0] - 3 * PAD_MM
    lines: list[tuple[bool, Colour | None, str]] = []
    for colour in colours:
        banded, line = True, ""
        for piece in code_of(colour).replace("/", "/ ").split(" "):
            if line and lettering.text_width_mm(line + piece, TEXT_MM) > room:
                lines.append((banded, colour, line))
                banded, line = False, ""
            line += piece
        lines.append((banded, colour, line))
    return lines


def _height_mm(lines: int) -> float:
    return STEP_MM * max(lines, 1) - (STEP_MM - TEXT_MM) + 2 * PAD_MM + 0.3


def _wrapped(text: str, width_mm: float, bold: bool, most: int = MOST_LINES) -> list[str]:
    return shortened(text, width_mm - 2 * PAD_MM, bold, most)


def shortened(text: str, width_mm: float, bold: bool = False, most: int = MOST_LINES, after: str = "") -> list[str]:
    """Return the text in at most so many lines of that width; what is left out is marked with …

    A word too long for a line goes on after one of the characters `after` where it has one."""
    lines = lettering.wrap(text, width_mm, TEXT_MM, bold, after)
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], lettering.fit(lines[most - 1] + "…" * 3, width_mm, TEXT_MM, bold)]
