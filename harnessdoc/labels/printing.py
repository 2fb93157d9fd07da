"""A label put at its place and drawn there: its texts, its symbol on the printer's dots, a flag's fold.

Knows a page and millimetres; decides neither words nor places.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from harnessdoc.labels.arrange import Arrangement
from harnessdoc.labels.dots import dot_mm, snap_up
from harnessdoc.labels.faces import Laid
from harnessdoc.labels.fit import Fit
from harnessdoc.labels.label import Label
from harnessdoc.labels.material import Stock
from harnessdoc.labels.qr import QUIET_MODULES, Symbol
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import BLACK, NONE, Page

GREY: Final = "#808080"
CUT_LINE_MM: Final = 0.1
FOLD_DASH_MM: Final = (1.0, 1.0)


@dataclass(frozen=True, slots=True)
class PlacedSymbol:
    """A symbol as drawn: its own top left corner (quiet zone outside of it) on the page, and its module, mm."""

    x: float
    y: float
    module_mm: float
    dots: int
    symbol: Symbol


@dataclass(frozen=True, slots=True)
class PlacedFace:
    """A printed face: where it lies on the page, mm, what stands on it, its symbol if it carries one."""

    box: Rect
    arrangement: Arrangement
    symbol: PlacedSymbol | None


@dataclass(frozen=True, slots=True)
class Printed:
    """A label with what it is printed on and at, before it has a place."""

    laid: Laid
    stock: Stock
    dpi: int
    fit: Fit


@dataclass(frozen=True, slots=True)
class PlacedLabel:
    """A label on its page. `sheet` counts from 0, `position` from 1 within it; `box` is the whole label, mm."""

    printed: Printed
    sheet: int
    position: int
    box: Rect
    faces: tuple[PlacedFace, ...]

    @property
    def label(self) -> Label:
        """What it says."""
        return self.printed.laid.label

    @property
    def stock(self) -> Stock:
        """What it is printed on."""
        return self.printed.stock

    @property
    def dpi(self) -> int:
        """The printer's dots per inch."""
        return self.printed.dpi

    @property
    def fit(self) -> Fit:
        """How it goes round the wire."""
        return self.printed.fit

    @property
    def arrangement(self) -> Arrangement:
        """Of its first face."""
        return self.faces[0].arrangement

    @property
    def symbol(self) -> PlacedSymbol | None:
        """On the first face that has one."""
        return next((face.symbol for face in self.faces if face.symbol is not None), None)


def place(one: Printed, sheet: int, position: int, box: Rect, origin: tuple[float, float] = (0.0, 0.0)) -> PlacedLabel:
    """Return the label at its place. `box`: the whole label on its page. `origin`: where the printer's dots begin."""
    faces = []
    for face in one.laid.faces:
        at = Rect(box.x + face.box.x, box.y + face.box.y, face.box.width, face.box.height)
        faces.append(PlacedFace(at, face.arrangement, _symbol(one.laid, face.arrangement, at, one.dpi, origin)))
    return PlacedLabel(one, sheet, position, box, tuple(faces))


def _symbol(
    laid: Laid, arrangement: Arrangement, at: Rect, dpi: int, origin: tuple[float, float]
) -> PlacedSymbol | None:
    if laid.symbol is None or arrangement.place is None:
        return None
    kept = arrangement.place
    module_mm = kept.dots * dot_mm(dpi)
    quiet_mm = QUIET_MODULES * module_mm
    x = origin[0] + snap_up(at.x + kept.x - origin[0], dpi)
    y = origin[1] + snap_up(at.y + kept.y - origin[1], dpi)
    return PlacedSymbol(x + quiet_mm, y + quiet_mm, module_mm, kept.dots, laid.symbol)


def draw(page: Page, one: PlacedLabel, shift: tuple[float, float] = (0.0, 0.0)) -> None:
    """Draw a label on its page, everything moved by `shift` mm."""
    dx, dy = shift
    for face in one.faces:
        for line in face.arrangement.lines:
            page.text(face.box.x + line.x + dx, face.box.y + line.y + dy, line.text, line.height_mm, bold=line.bold)
        for bar in face.arrangement.bars:
            x, y = face.box.x + bar.x + dx, face.box.y + bar.y + dy
            page.rect(x, y, bar.width, bar.height, fill=BLACK, stroke=NONE)
        if face.symbol is not None:
            symbol = face.symbol
            page.modules(symbol.x + dx, symbol.y + dy, symbol.module_mm, symbol.symbol.rows)


def draw_fold(page: Page, one: PlacedLabel, ink: str = GREY, shift: tuple[float, float] = (0.0, 0.0)) -> None:
    """Draw where a flag is folded round the wire: a dashed line between its leaves."""
    if one.fit.fold_mm is None:
        return
    x, first = one.box.x + one.fit.fold_mm + shift[0], one.faces[0].box
    page.line(
        x, first.y + shift[1], x, first.bottom + shift[1], stroke=ink, stroke_mm=CUT_LINE_MM * 2, dash=FOLD_DASH_MM
    )
