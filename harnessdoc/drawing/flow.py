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

    `glued`: it stays with the part after it. `under`: what is repeated above it at the top of a column.
    """

    height_mm: float
    draw: Draw
    glued: bool = False
    under: Part | None = None


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


def pour(blocks: Sequence[Block], frames: Iterator[Frame]) -> list[Placed] | None:
    """Return where every part goes, or None when the frames run out.

    A group taller than a fresh column is placed there all the same: make columns tall enough.
    """
    placed: list[Placed] = []
    frame = next(frames, None)
    if frame is None:
        return None
    y, fresh = frame.rect.y, True
    for block in blocks:
        for index, group in enumerate(_groups(block)):
            gap = BETWEEN_MM if index == 0 and not fresh else 0.0
            height = gap + sum(part.height_mm for part in group)
            if not fresh and y + height > frame.rect.bottom + 1e-6:
                frame = next(frames, None)
                if frame is None:
                    return None
                y, gap, fresh = frame.rect.y, 0.0, True
            heading = [part for part in (block.again, group[0].under) if part] if index and fresh else []
            y += gap
            for part in (*heading, *group):
                placed.append(Placed(frame.sheet, frame.rect.x, y, part))
                y += part.height_mm
            fresh = False
    return placed


def columns_of(sheet: int, area: Rect, count: int, gutter_mm: float) -> list[Frame]:
    """Return equal columns of an area, left to right."""
    width = (area.width - gutter_mm * (count - 1)) / count
    return [
        Frame(sheet, Rect(area.x + index * (width + gutter_mm), area.y, width, area.height)) for index in range(count)
    ]


def pour_level(blocks: Sequence[Block], area: Rect, count: int, gutter_mm: float) -> list[Placed] | None:
    """Pour into one sheet's columns, filled to about the same height; None if the area is too small.

    Blocks stay whole where there is room for that.
    """
    whole = [replace(block, parts=_glued(block.parts)) for block in blocks]
    return _level(whole, area, count, gutter_mm) or _level(blocks, area, count, gutter_mm)


def _glued(parts: Sequence[Part]) -> tuple[Part, ...]:
    return tuple(replace(part, glued=index + 1 < len(parts)) for index, part in enumerate(parts))


def _level(blocks: Sequence[Block], area: Rect, count: int, gutter_mm: float) -> list[Placed] | None:
    step = 5.0
    height = min(step, area.height)
    while height <= area.height:
        level = Rect(area.x, area.y, area.width, height)
        if placed := pour(blocks, iter(columns_of(0, level, count, gutter_mm))):
            bottom = max(one.y + one.part.height_mm for one in placed)
            if bottom <= area.y + height + 1e-6:
                return placed
        if height == area.height:
            break
        height = min(height + step, area.height)
    return None


def _groups(block: Block) -> Iterator[list[Part]]:
    group: list[Part] = [block.head]
    for part in block.parts:
        if group and not group[-1].glued:
            yield group
            group = []
        group.append(part)
    if group:
        yield group
