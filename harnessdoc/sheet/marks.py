"""The marks a page is made of: plain values in millimetres, that the SVG and the PDF writer draw alike.

Made by `page.Page` only, which checks and cleans what goes in; writers may trust them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from harnessdoc.sheet.paths import Segment

Anchor = Literal["start", "middle", "end"]
Cap = Literal["butt", "round", "square"]
Join = Literal["miter", "round", "bevel"]


class Rect(NamedTuple):
    """A rectangle on the sheet, in mm from its top left corner, y down."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge, mm."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The lower edge, mm."""
        return self.y + self.height

    def inset(self, margin_mm: float) -> Rect:
        """The rectangle that leaves a margin free on all four sides."""
        return Rect(self.x + margin_mm, self.y + margin_mm, self.width - 2 * margin_mm, self.height - 2 * margin_mm)


class Ink(NamedTuple):
    """How a shape is drawn: colours as #rrggbb or none, widths and dashes in mm."""

    fill: str
    stroke: str
    stroke_mm: float
    dash: tuple[float, ...]
    cap: Cap
    join: Join


@dataclass(frozen=True, slots=True)
class Shape:
    """A line, polyline, polygon or path, as absolute segments."""

    segments: tuple[Segment, ...]
    ink: Ink


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle, its corners perhaps round."""

    x: float
    y: float
    width: float
    height: float
    radius: float
    ink: Ink


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    x: float
    y: float
    radius: float
    ink: Ink


@dataclass(frozen=True, slots=True)
class Text:
    """One line of clean text. (x, y): where its base line starts, ends or has its middle."""

    x: float
    y: float
    text: str
    height_mm: float
    bold: bool
    anchor: Anchor
    rotate: float
    fill: str


@dataclass(frozen=True, slots=True)
class Modules:
    """A matrix of black and white squares (a QR symbol), as runs (column, row, length) of black."""

    x: float
    y: float
    module_mm: float
    runs: tuple[tuple[int, int, int], ...]
    fill: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A PNG picture."""

    x: float
    y: float
    width: float
    height: float
    png: bytes


@dataclass(frozen=True, slots=True)
class Use:
    """A symbol of the page, drawn at a place."""

    symbol: str
    x: float
    y: float
    rotate: float
    scale: float


@dataclass(slots=True)
class Group:
    """Marks that belong together, moved, turned and scaled as one; perhaps a link, perhaps clipped."""

    marks: list[Mark] = field(default_factory=list)
    id: str = ""
    title: str = ""
    desc: str = ""
    potential: int | None = None
    x: float = 0.0
    y: float = 0.0
    rotate: float = 0.0
    scale: float = 1.0
    href: str = ""
    clip: Rect | None = None


Mark = Shape | Box | Circle | Text | Modules | Picture | Use | Group


def runs_of(rows: Sequence[Sequence[bool]]) -> tuple[tuple[int, int, int], ...]:
    """Return the (column, row, length) runs of true modules, row by row."""
    runs: list[tuple[int, int, int]] = []
    for y, row in enumerate(rows):
        bits = bytes(map(bool, row))
        x = bits.find(1)
        while x >= 0:
            end = bits.find(0, x)
            end = len(bits) if end < 0 else end
            runs.append((x, y, end - x))
            x = bits.find(1, end)
    return tuple(runs)
