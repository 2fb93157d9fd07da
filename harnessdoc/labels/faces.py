"""What is printed on each face of one label: the leaves of a flag, copies round a wrap, a print zone, a plate.

All faces say the same, so that one can be read from every side; of two leaves too small for words and symbol together,
the second has number and symbol. Millimetres from the label's own top left corner. Knows no sheet and no printer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from harnessdoc.labels.address import most_modules, shorter_address
from harnessdoc.labels.arrange import Arrangement, arrange
from harnessdoc.labels.dots import dot_mm, least_dots, module_dots
from harnessdoc.labels.fit import Fit
from harnessdoc.labels.flow import LOST
from harnessdoc.labels.heights import FLOOR_MM, SIZES_MM, SMALL_SIZES_MM, Heights
from harnessdoc.labels.label import Label
from harnessdoc.labels.material import Stock
from harnessdoc.labels.qr import Level, Symbol, SymbolError, symbol
from harnessdoc.sheet.marks import Rect

_SMALL_TAPE_MM = 6.0


@dataclass(frozen=True, slots=True)
class Face:
    """One printed face: where it lies on the label, and what stands on it."""

    box: Rect
    arrangement: Arrangement


@dataclass(frozen=True, slots=True)
class Laid:
    """A label ready to be printed. `no_symbol`: why a wanted symbol is on no face, "" if it is or none is wanted.

    `advice`: which address would fit instead, "" where it fits or nobody can tell.
    `shortened`, `left_out`: texts that no face says in full, or at all.
    """

    label: Label
    faces: tuple[Face, ...]
    symbol: Symbol | None
    no_symbol: str
    shortened: tuple[str, ...]
    left_out: tuple[str, ...]
    cost: int = 0
    advice: str = ""

    @property
    def lost(self) -> int:
        """How much of what it should say is on no face: 0 where all is. Counts by what the texts weigh."""
        return self.cost // LOST


def lay(label: Label, fit: Fit, stock: Stock, dpi: int, level: Level = "M", no_symbol: str = "") -> Laid:
    """Lay out a label on all faces that its stock gives it.

    `fit`: without refusal. `no_symbol`: why it is decided already that it carries none.
    """
    made, why_not = _symbol_of(label, level) if not no_symbol else (None, no_symbol)
    width, height = fit.area_mm
    if made is not None:
        why_not = _too_large(made, fit, dpi)
    modules = made.modules_with_quiet if made is not None and not why_not else None
    sizes = sizes_mm(stock, fit)
    found = _on_faces(label, fit.copies, width, height, modules, dpi, sizes)
    carried = any(one.place is not None for one in found)
    if modules is not None and not carried:
        why_not = "its words leave no room for a symbol that scans"
    advice = ""
    if why_not and label.payload and label.key and fit.symbol_mm != 0:
        most = most_modules(width, height, dpi, fit.symbol_mm)
        advice = shorter_address(label.payload, label.key, level, most)
    faces = tuple(Face(box, one) for box, one in zip(fit.faces, found, strict=True))
    told = min(found, key=lambda one: one.place is not None)
    return Laid(label, faces, made if carried else None, why_not, told.shortened, told.left_out, told.cost, advice)


@lru_cache(maxsize=256)
def _scaled(sizes: tuple[Heights, ...], factor: float) -> tuple[Heights, ...]:
    return tuple(Heights(one.number_mm * factor, one.body_mm * factor) for one in sizes)


def sizes_mm(stock: Stock, fit: Fit) -> tuple[Heights, ...]:
    """Return the heights of text to try on a stock, as they are printed: on a sleeve larger by what it shrinks."""
    if fit.sleeve is not None:
        return _scaled(SMALL_SIZES_MM, 1 / fit.shrinks_to)
    return SMALL_SIZES_MM if 0 < stock.tape_mm <= _SMALL_TAPE_MM else SIZES_MM


def floor_mm(stock: Stock, fit: Fit) -> float:
    """Return the least height of capitals on a label as it is read, mm."""
    return FLOOR_MM if sizes_mm(stock, fit) is not SIZES_MM else SIZES_MM[-1].body_mm


def _on_faces(
    label: Label, copies: int, width: float, height: float, modules: int | None, dpi: int, sizes: Sequence[Heights]
) -> tuple[Arrangement, ...]:
    """An arrangement for each face."""
    bar, caption = label.bar, label.key if modules is not None else ""

    def arranged(modules: int | None, caption: str = "", must: bool = False) -> Arrangement:
        return arrange(
            label.number,
            label.fields,
            width,
            height,
            modules,
            dpi,
            bar=bar,
            caption=caption,
            sizes=sizes,
            must=must,
        )

    if copies != 2 or modules is None:
        return (arranged(modules, caption),) * copies
    alike = arranged(modules, caption)
    if alike.place is not None and not alike.loses:
        return (alike, alike)
    words, symbol_too = arranged(None), arranged(modules, caption, must=True)
    if symbol_too.place is None or symbol_too.number_cut > words.number_cut:
        return (words, words)
    if alike.place is not None and alike.cost <= words.cost:
        return (alike, alike)
    return (words, symbol_too)


def _symbol_of(label: Label, level: Level) -> tuple[Symbol | None, str]:
    if label.payload is None:
        return None, label.no_payload or "nothing to point at"
    try:
        return symbol(label.payload, level), ""
    except SymbolError as error:
        return None, str(error)


def _too_large(made: Symbol, fit: Fit, dpi: int) -> str:
    """Say why no face holds the symbol, "" if one does."""
    modules, dot = made.modules_with_quiet, dot_mm(dpi)
    room = min(fit.area_mm) - dot
    if module_dots(modules, room, dpi) is None:
        side = modules * least_dots(dpi) * dot
        return (
            f"its symbol (version {made.version}) takes {side:.1f} mm at {least_dots(dpi)} dots of {dpi} dpi a module, "
            f"the label has {room:.1f} mm"
        )
    return ""
