"""Every label of a harness that carries a symbol, printed to dots as the tool prints it, ready to be looked at."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from harnessdoc.labels.choose import Choice, choose
from harnessdoc.labels.fit import CURVED
from harnessdoc.labels.material import Stock
from harnessdoc.labels.printing import PlacedLabel, PlacedSymbol, Printed, place
from harnessdoc.labels.says import labels
from harnessdoc.labels.tapes import edge_mm, label_bitmap, thread
from harnessdoc.model.harness import Harness
from harnessdoc.routing import Routing
from harnessdoc.sheet.bitmap import Bitmap
from harnessdoc.sheet.marks import Rect
from tests.labels.reading.bending import EDGE_MM, Pose
from tests.labels.reading.printing import MM_PER_INCH, Bools, Print
from tests.labels.reading.scanning import TILTED, Scan, scan


@dataclass(frozen=True)
class Size:
    """What makes symbols with the same text different to read. `diameter_mm`: of the wire it goes round, None: flat."""

    dpi: int
    dots: int
    level: str
    version: int
    diameter_mm: float | None

    @property
    def module_mm(self) -> float:
        """Side of a module."""
        return self.dots * MM_PER_INCH / self.dpi


@dataclass(frozen=True)
class Carried:
    """A label with a symbol, on its stock: not printed yet."""

    subject: str
    text: str
    stock: Stock
    shape: str
    size: Size
    placed: PlacedLabel
    symbol: PlacedSymbol

    def scans(self, poses: Sequence[Pose] = TILTED) -> Iterator[Scan]:
        """Print it to dots, hold it in each pose, read it."""
        side_mm = self.symbol.symbol.modules * self.symbol.module_mm
        reach_mm = side_mm + EDGE_MM  # the symbol in the middle half, its neighbours around it
        x = self.symbol.x - self.placed.box.x + side_mm / 2
        y = self.symbol.y - edge_mm(self.placed) - self.placed.box.y + side_mm / 2
        made, centre = _window(_dots(label_bitmap(self.placed)), self.size.dpi, (x, y), reach_mm)
        for pose in poses:
            yield scan(made, self.text, pose, self.size.diameter_mm, centre, reach_mm)


def carried(harness: Harness, routing: Routing, stocks: Sequence[Stock], dpi: int) -> tuple[list[Carried], int]:
    """Return the labels of a harness that carry a symbol on these stocks, and how many are printed without one."""
    found, without = [], 0
    for choice in choose(harness, routing, labels(harness, routing), stocks, dpi):
        if choice.stock is None:
            continue
        one = _carried(choice, choice.stock)
        found.extend([one] if one else [])
        without += one is None
    return found, without


def _carried(choice: Choice, stock: Stock) -> Carried | None:
    if choice.laid is None or choice.fit is None or choice.laid.symbol is None:
        return None
    printed = Printed(choice.laid, stock, choice.dpi, choice.fit)
    if stock.form == "sheet":
        placed = place(printed, 0, 1, Rect(0.0, 0.0, stock.width_mm, stock.height_mm))
    else:
        (placed,) = thread([printed])
    if placed.symbol is None or choice.label.payload is None:
        return None
    diameter_mm = choice.seat.outside_mm if choice.shape in CURVED else None
    drawn = placed.symbol
    size = Size(choice.dpi, drawn.dots, drawn.symbol.level, drawn.symbol.version, diameter_mm)
    return Carried(choice.label.subject, choice.label.payload, stock, choice.shape, size, placed, drawn)


def _dots(made: Bitmap) -> Bools:
    """True is ink."""
    rows = np.array([np.frombuffer(row, dtype=np.uint8) for row in made.rows])
    ink: Bools = np.unpackbits(rows, axis=1)[:, : made.width] == 0
    return ink


def _window(dots: Bools, dpi: int, centre: tuple[float, float], reach_mm: float) -> tuple[Print, tuple[float, float]]:
    """What of a label can be in the picture, and where the symbol's middle lies in that, mm."""
    dot = MM_PER_INCH / dpi
    half = round(1.1 * reach_mm / dot)
    left, top = (max(0, round(at / dot) - half) for at in centre)
    shown = dots[top : round(centre[1] / dot) + half, left : round(centre[0] / dot) + half]
    return Print(shown, dpi), (centre[0] - left * dot, centre[1] - top * dot)
