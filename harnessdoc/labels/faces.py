"""What is printed on each face of one label: the leaves of a flag, copies round a wrap, a print zone, a plate.

All faces have the number, so that it can be read from every side. They say the same where one face holds all; else
the next says what the one before it had no room for, and of two leaves the second carries the symbol. Millimetres from
the label's own top left corner. Knows no sheet and no printer.
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
from harnessdoc.labels.label import Field, Label
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
    found, told = _Filler(label, fit, modules, dpi, sizes).fill()
    carried = any(one.place is not None for one in found)
    if modules is not None and not carried:
        why_not = "its words leave no room for a symbol that scans"
    advice = ""
    if why_not and label.payload and label.key and fit.symbol_mm != 0:
        most = most_modules(width, height, dpi, fit.symbol_mm)
        advice = shorter_address(label.payload, label.key, level, most)
    faces = tuple(Face(box, one) for box, one in zip(fit.faces, found, strict=True))
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


class _Filler:
    """Fills the equal faces of one label."""

    def __init__(self, label: Label, fit: Fit, modules: int | None, dpi: int, sizes: Sequence[Heights]) -> None:
        self.label, self.modules, self.dpi, self.sizes = label, modules, dpi, sizes
        self.copies = fit.copies
        self.width, self.height = fit.area_mm

    def fill(self) -> tuple[tuple[Arrangement, ...], Arrangement]:
        """An arrangement for each face, and the one that tells what no face says."""
        alike = self._arranged(self.label.fields, self.modules)
        if not alike.loses or self.copies == 1:
            return (alike,) * self.copies, alike
        if self.modules is None:
            return self._in_turn(alike)
        words = self._arranged(self.label.fields)
        if self.copies > 2:
            return (alike,) * self.copies, alike
        rest = _unsaid(self.label.fields, words)
        second = self._arranged(rest or self.label.fields, self.modules, must=True)
        if second.place is None or second.number_cut > words.number_cut:
            return self._in_turn(words)
        return (words, second), (second if rest else words)

    def _in_turn(self, first: Arrangement) -> tuple[tuple[Arrangement, ...], Arrangement]:
        """Faces that all have the number, and each the words that those before it had no room for."""
        found, fields = [first], self.label.fields
        while len(found) < self.copies:
            left = _unsaid(fields, found[-1])
            if not left or len(left) == len(fields):
                break
            fields = left
            found.append(self._arranged(fields))
        told = found[-1]
        said = len(found)
        return tuple(found[at % said] for at in range(self.copies)), told

    def _arranged(self, fields: tuple[Field, ...], modules: int | None = None, must: bool = False) -> Arrangement:
        label = self.label
        return arrange(
            label.number,
            fields,
            self.width,
            self.height,
            modules,
            self.dpi,
            bar=label.bar,
            caption=label.key if modules is not None else "",
            sizes=self.sizes,
            must=must,
        )


def _unsaid(fields: tuple[Field, ...], found: Arrangement) -> tuple[Field, ...]:
    """The fields that an arrangement does not say in full."""
    missing = {*found.shortened, *found.left_out}
    return tuple(one for one in fields if one.full in missing)


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
