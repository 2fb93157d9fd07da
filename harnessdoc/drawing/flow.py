"""Pouring blocks of parts into columns of paper, top to bottom, left to right, sheet after sheet.

Knows heights only."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page

BETWEEN_MM: Final = 6.0
"""White between two blocks in a column."""

Draw = Callable[[Page, float, float], None]


@dataclass(frozen=True, slots=True)
class Part:
    """Something that is never broken: its height, and how it is drawn from its top left corner.

    `glued`: it stays with the part after it. `under`: what is repeated above it at the top of a column. `over`: what
    is drawn below it, in no height, where the part after it goes to another column.
    """

    height_mm: float
    draw: Draw
    glued: bool = False
    under: Part | None = None
    over: Part | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """Parts that belong together, with their heading and the heading for where they go on."""

    head: Part
    again: Part
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Frame:
    """A column to fill, on the sheet of that number (from 0)."""

    sheet: int
    rect: Rect


@dataclass(frozen=True, slots=True)
class Placed:
    """A part with its place."""

    sheet: int
    x: float
    y: float
    part: Part


@dataclass(frozen=True, slots=True)
class Break:
    """Where a block is parted: the sheet and place of its last part's foot, and of its heading in the next column."""

    block: int
    sheet: int
    x: float
    foot: float
    to_sheet: int
    to_x: float
    to_y: float


@dataclass(slots=True)
class Poured:
    """Where every part is, where each block begins (sheet, x, y), and where blocks are parted."""

    placed: list[Placed]
    begins: list[tuple[int, float, float]]
    breaks: list[Break]

    @property
    def bottom(self) -> float:
        """The lowest foot of all parts."""
        return max((one.y + one.part.height_mm for one in self.placed), default=0.0)


def pour(blocks: Sequence[Block], frames: Iterator[Frame]) -> Poured | None:
    """Return where every part goes, or None when the frames run out.

    Parts that stay together but are taller than a column are parted; a single part that is taller is placed all the
    same: make columns tall enough.
    """
    poured = Poured([], [], [])
    frame = next(frames, None)
    if frame is None:
        return None
    y, fresh = frame.rect.y, True
    for number, block in enumerate(blocks):
        for index, group in enumerate(_groups(block, frame.rect.height)):
            gap = BETWEEN_MM if index == 0 and not fresh else 0.0
            height = gap + sum(part.height_mm for part in group)
            if not fresh and y + height > frame.rect.bottom + 1e-6:
                left, foot = frame, y
                frame = next(frames, None)
                if frame is None:
                    return None
                y, gap, fresh = frame.rect.y, 0.0, True
                if index:
                    _note_break(poured, number, left, foot, frame)
            heading = [part for part in (block.again, group[0].under) if part] if index and fresh else []
            y += gap
            if index == 0:
                poured.begins.append((frame.sheet, frame.rect.x, y))
            for part in (*heading, *group):
                poured.placed.append(Placed(frame.sheet, frame.rect.x, y, part))
                y += part.height_mm
            fresh = False
    return poured


def _note_break(poured: Poured, number: int, left: Frame, foot: float, frame: Frame) -> None:
    poured.breaks.append(Break(number, left.sheet, left.rect.x, foot, frame.sheet, frame.rect.x, frame.rect.y))
    over = poured.placed[-1].part.over
    if over is not None:
        poured.placed.append(Placed(left.sheet, left.rect.x, foot, over))


def columns_of(sheet: int, area: Rect, count: int, gutter_mm: float) -> list[Frame]:
    """Return equal columns of an area, left to right."""
    width = (area.width - gutter_mm * (count - 1)) / count
    return [
        Frame(sheet, Rect(area.x + index * (width + gutter_mm), area.y, width, area.height)) for index in range(count)
    ]


def pour_level(blocks: Sequence[Block], area: Rect, count: int, gutter_mm: float) -> Poured | None:
    """Pour into one sheet's columns, filled to about the same height; None if the area is too small.

    Blocks stay whole where there is room for that.
    """
    if sum(part.height_mm for block in blocks for part in (block.head, *block.parts)) > area.height * count:
        return None
    whole = [replace(block, parts=_glued(block.parts)) for block in blocks]
    return _level(whole, area, count, gutter_mm) or _level(blocks, area, count, gutter_mm)


def _glued(parts: Sequence[Part]) -> tuple[Part, ...]:
    return tuple(replace(part, glued=index + 1 < len(parts)) for index, part in enumerate(parts))


def _level(blocks: Sequence[Block], area: Rect, count: int, gutter_mm: float) -> Poured | None:
    step = 5.0
    height = min(step, area.height)
    while height <= area.height:
        level = Rect(area.x, area.y, area.width, height)
        poured = pour(blocks, iter(columns_of(0, level, count, gutter_mm)))
        if poured and poured.bottom <= area.y + height + 1e-6:
            return poured
        if height == area.height:
            break
        height = min(height + step, area.height)
    return None


def _groups(block: Block, most_mm: float) -> Iterator[list[Part]]:
    """Parts that stay together, as far as they are no taller than a column with its headings."""
    group: list[Part] = [block.head]
    height = block.head.height_mm
    for part in block.parts:
        spare = block.again.height_mm + (part.under.height_mm if part.under else 0.0)
        if not group[-1].glued or height + part.height_mm + spare > most_mm:
            yield group
            group, height = [], 0.0
        group.append(part)
        height += part.height_mm
    yield group
