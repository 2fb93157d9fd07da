"""Rows of a face put on their base lines: the number with its bar, then texts, spread over what room there is.

Knows plans and the texts that flowed into their rows; millimetres from the face's top left corner.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, NamedTuple

from harnessdoc.labels.flow import Flow, wide
from harnessdoc.labels.heights import BAR, DROP, drop, rise
from harnessdoc.labels.plans import GAP_MM, Band, Plan
from harnessdoc.sheet.marks import Rect

_LOOSE: Final = 0.55  # own choice: rows are never spread further apart than this much of their height more
OVER_MM: Final = 0.1  # own choice: what hangs below a line may reach so far into the margin


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text: where its base line starts, mm; capitals `height_mm` tall."""

    x: float
    y: float
    text: str
    height_mm: float
    bold: bool = False


class Number(NamedTuple):
    """The number as it is set, on one line or two. `beside_up`, `beside_down`: reach of a text on its line, mm."""

    texts: tuple[str, ...]
    height_mm: float
    bar: bool = False
    beside_up: float = 0.0
    beside_down: float = 0.0

    @property
    def up(self) -> float:
        """How far a line reaches over its base line, mm."""
        return max(max(map(rise, self.texts)) * self.height_mm, self.beside_up)

    @property
    def down(self) -> float:
        """How far a line reaches under its base line, its bar included, mm."""
        under = max(BAR.bottom(text) if self.bar else drop(text) for text in self.texts)
        return max(under * self.height_mm, self.beside_down)

    @property
    def high(self) -> float:
        """Height of all its lines, mm."""
        return (self.up + self.down) * len(self.texts)


class Rows(NamedTuple):
    """Rows for texts: the band each is in (-1: beside the number), their widths in heights, and height of text, mm.

    `up`: how far a row reaches over its base line, mm.
    """

    bands: tuple[int, ...]
    widths: tuple[float, ...]
    body_mm: float
    up: float

    @property
    def down(self) -> float:
        """How far a row reaches under its base line, mm."""
        return DROP * self.body_mm


def place_rows(plan: Plan, head: Number, rows: Rows, found: Flow, height: float) -> tuple[list[Line], list[Rect]]:
    """Return the lines, the number's first, and the bars under it. `height`: of the face."""
    used = {piece.row for piece in found.pieces}
    heads: list[float] = []
    base: dict[int, float] = {}
    for index, band in enumerate(plan.bands):
        own = [row for row in sorted(used) if rows.bands[row] == index]
        bottom = height if index == 0 and _alone(plan, rows, used) else band.bottom
        _stack(band._replace(bottom=bottom), head, own, rows, heads, base)
    if plan.apart:  # the number stands on the middle of the rows beside it
        down = max(0.0, (height - head.high) / 2)
        heads = [y + down for y in heads]
    lines = [Line(0.0, y, text, head.height_mm, True) for y, text in zip(heads, head.texts, strict=True)]
    bars = [BAR.under(line) for line in lines] if head.bar else []
    beside_x = wide(head.texts[0], True) * head.height_mm + GAP_MM
    for piece in found.pieces:
        at = rows.bands[piece.row]
        x, y = (beside_x, heads[0]) if at < 0 else (plan.bands[at].x, base[piece.row])
        lines.append(Line(x + piece.x * rows.body_mm, y, piece.text, rows.body_mm, piece.bold))
    return lines, bars


def _alone(plan: Plan, rows: Rows, used: set[int]) -> bool:
    """Whether nothing stands under the first band beside a symbol at the top, so that it may take all the height."""
    at_top = plan.place is not None and not plan.place.y
    return at_top and not any(rows.bands[row] > 0 for row in used)


def _stack(band: Band, head: Number, own: list[int], rows: Rows, heads: list[float], base: dict[int, float]) -> None:
    """Give the rows of a band their base lines, one under another: spread, but not torn apart."""
    steps = [(head.up, head.down)] * len(head.texts) if band.numbered else []
    count = len(steps)
    steps += [(rows.up, rows.down)] * len(own)
    tall = sum(up + down for up, down in steps)
    gap = min((band.bottom - band.top - tall) / max(1, len(steps) - 1), _LOOSE * rows.body_mm)
    y = band.top
    for at, (up, down) in enumerate(steps):
        y += up
        if at < count:
            heads.append(y)
        else:
            base[own[at - count]] = y
        y += down + max(0.0, gap)
