"""What fits round a wire: from an outside diameter, a stock and a shape to printable faces, or why not. Millimetres.

Knows no harness, no words and no printer. Circumference = pi * D throughout.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, NamedTuple

from harnessdoc.labels.material import SleeveSize, Stock
from harnessdoc.sheet.marks import Rect

# A symbol bent round a wire, without its quiet zone: at most this share of the circumference. Computed: in a simulation
# (tests/labels/reading, no camera) two readers read every symbol up to it, tilted by 20 degrees too; from 0.07 tilted
# ones are lost, from 0.25 on those that face the camera. The remembered rule of about 0.3 is not read at all.
SYMBOL_SHARE: Final = 0.03
LEAST_FACE_MM: Final = (8.0, 2.1)  # own choice: below it no number is read; 2.1 just holds capitals of 1.8 (ISO 3098)
LEAST_COPY_MM: Final = 4.5  # own choice: one line with a number of 3.5 mm
GOOD_COPY_MM: Final = 8.2  # own choice: the number and a line of 2.5 mm under it
MOST_COPIES: Final = 3  # own choice: a third of the circumference is what one sees well from one side
OVERLAP_MM: Final = 2.0  # own choice: least that a wrap sticks to itself
MOST_TURNS: Final = 5.0  # own choice: a longer roll springs open
SLIP: Final = 1.1  # common practice, no source: a sleeve's bore to the thickest that it slides over
TIE_MM: Final = 5.0  # common practice, no source: what a cable tie takes along the wire
NEEDS_NO_DIAMETER: Final = frozenset({"tag", "plate"})
CURVED: Final = frozenset({"wrap", "self-laminating", "sleeve"})


class SymbolSize(NamedTuple):
    """The side of the smallest symbol that may be printed, mm: without its quiet zone, and with it."""

    width_mm: float
    full_mm: float


@dataclass(frozen=True, slots=True)
class Fit:
    """What can be printed on one label, or `refusal`. Lengths in mm, `faces` from the label's own top left corner.

    `faces`: equal rectangles, margins taken off, each to say the same: the leaves of a flag, copies round a wrap.
    `along_mm`: length taken on the wire. `turns`: times round. `cut_mm`: length to cut from tape or sleeve, None on
    sheets. `fold_mm`: where a flag is folded, from its left edge. `symbol_mm`: the widest symbol, without its quiet
    zone, that still scans when bent; None on flat faces, 0 where none does. `shrinks_to`: what is left of heights when
    a sleeve has shrunk. `sleeve`: the size taken.
    """

    shape: str
    faces: tuple[Rect, ...] = ()
    why: str = ""
    refusal: str = ""
    along_mm: float = 0.0
    turns: float | None = None
    cut_mm: float | None = None
    fold_mm: float | None = None
    symbol_mm: float | None = None
    shrinks_to: float = 1.0
    sleeve: SleeveSize | None = None

    @property
    def area_mm(self) -> tuple[float, float]:
        """Width and height of one face; (0, 0) where refused."""
        return (self.faces[0].width, self.faces[0].height) if self.faces else (0.0, 0.0)

    @property
    def copies(self) -> int:
        """How many faces say the same on one label."""
        return len(self.faces)

    def no_symbol(self, symbol: SymbolSize) -> str:
        """Why it can't carry the symbol, "" if it can."""
        if self.refusal:
            return self.refusal
        if self.symbol_mm == 0:
            return "print on a sleeve is squeezed as it shrinks, so a symbol would not scan"
        if self.symbol_mm is not None and symbol.width_mm > self.symbol_mm + 1e-9:
            return (
                f"a symbol of {symbol.width_mm:.1f} mm takes more than {SYMBOL_SHARE:g} of the way round "
                f"({self.symbol_mm:.1f} mm) and would not scan"
            )
        if symbol.full_mm > min(self.area_mm) + 1e-9:
            width, height = self.area_mm
            return (
                f"a symbol of {symbol.full_mm:.1f} mm with its quiet zone is larger than {width:.1f} x {height:.1f} mm"
            )
        return ""


class _Asked(NamedTuple):
    outside_mm: float
    stock: Stock
    symbol: SymbolSize | None
    passes_mm: float
    face_mm: float

    @property
    def round_mm(self) -> float:
        return math.pi * self.outside_mm


def fit(
    outside_mm: float | None,
    stock: Stock,
    shape: str,
    *,
    symbol: SymbolSize | None = None,
    passes_mm: float = 0.0,
    free_mm: float | None = None,
    face_mm: float | None = None,
) -> Fit:
    """Return what of this stock fits a wire, as this shape.

    `outside_mm`: None if unknown, which only tags and plates can do without. `symbol`: kept in one undivided face
    where the curve allows it. `passes_mm`: the widest thing that a sleeve must slide over, the wire itself aside.
    `free_mm`: how much of the wire can be covered. `face_mm`: length of a face on tape or sleeve, the stock's own if
    None. Raises ValueError for a diameter that is not above 0 or a shape that is not known.
    """
    if shape not in _MAKERS:
        raise ValueError(f"no label has the shape {shape!r:.40}; there are {', '.join(_MAKERS)}")
    if outside_mm is not None and not outside_mm > 0:
        raise ValueError(f"a wire's outside diameter is above 0 mm, not {outside_mm:g}")
    if shape not in stock.shapes:
        return Fit(shape, refusal=f"it makes no {shape}")
    if outside_mm is None and shape not in NEEDS_NO_DIAMETER:
        return Fit(shape, refusal="the outside diameter is not known")
    asked = _Asked(outside_mm or 0.0, stock, symbol, passes_mm, face_mm if face_mm is not None else stock.face_mm)
    return _checked(_MAKERS[shape](asked), stock, free_mm)


def largest_symbol_mm(outside_mm: float) -> float:
    """Return the widest symbol, without its quiet zone, that may be bent round this diameter, mm."""
    return SYMBOL_SHARE * math.pi * outside_mm


def _checked(made: Fit, stock: Stock, free_mm: float | None) -> Fit:
    """The same, or refused for what all shapes share: too small to read, too long for the wire or the tape."""
    if made.refusal:
        return made
    width, height = made.area_mm
    if width < LEAST_FACE_MM[0] or height * made.shrinks_to < LEAST_FACE_MM[1]:
        size = f"{max(width, 0):.1f} x {max(height * made.shrinks_to, 0):.1f} mm"
        least = " x ".join(f"{one:g}" for one in LEAST_FACE_MM)
        return Fit(made.shape, refusal=f"{size} are left to print on, less than the {least} mm that can be read")
    if made.cut_mm is not None and stock.longest_mm and made.cut_mm > stock.longest_mm:
        return Fit(made.shape, refusal=f"it would be {made.cut_mm:.0f} mm long, the longest is {stock.longest_mm:g}")
    if free_mm is not None and made.along_mm > free_mm:
        return Fit(made.shape, refusal=f"it takes {made.along_mm:.0f} mm along a piece of {free_mm:g} mm")
    return made


def _flag(asked: _Asked) -> Fit:
    """Two leaves, printed outward, glued back to back; the part between them lies round the wire."""
    stock, margin, waist = asked.stock, asked.stock.margin_mm, asked.round_mm
    if stock.form == "tape":
        leaf = asked.face_mm + 2 * margin
        width, top, height = 2 * leaf + waist, _edge(stock), stock.printable_mm
    else:
        if stock.waist_mm is not None:
            if stock.waist_mm < waist:
                return Fit("flag", refusal=f"its waist of {stock.waist_mm:g} mm does not go round {waist:.1f} mm")
            waist = stock.waist_mm
        width, top, height = stock.width_mm, margin, stock.height_mm - 2 * margin
        leaf = (width - waist) / 2
    left = Rect(margin, top, leaf - 2 * margin, height)
    return Fit(
        "flag",
        (left, left._replace(x=leaf + waist + margin)),
        f"{asked.round_mm:.1f} mm go round the wire, two flat leaves of {leaf:.1f} mm are left",
        along_mm=stock.neck_mm or stock.tape_mm or stock.height_mm,
        cut_mm=width if stock.form == "tape" else None,
        fold_mm=width / 2,
    )


def _wrap(asked: _Asked) -> Fit:
    """Text along the wire; what is seen is the last turn, so print is no higher than pi * D."""
    stock = asked.stock
    width, high, edge, length = _size(asked)
    turns = high / asked.round_mm
    if high < asked.round_mm + OVERLAP_MM:
        need = f"{asked.round_mm + OVERLAP_MM:.1f} mm with {OVERLAP_MM:g} mm to stick to itself"
        return Fit("wrap", refusal=f"{high:g} mm do not go round the wire: it takes {need}")
    if turns > MOST_TURNS:
        return Fit("wrap", refusal=f"it would go {turns:.1f} times round and spring open; {MOST_TURNS:g} is the most")
    top = max(edge, high - asked.round_mm)
    zone = Rect(stock.margin_mm, top, width - 2 * stock.margin_mm, high - edge - top)
    why = f"{turns:.1f} times round {asked.round_mm:.1f} mm; print {zone.height:.1f} mm high stays in sight"
    return _bent(asked, "wrap", zone, why, width, turns, length)


def _self_laminating(asked: _Asked) -> Fit:
    """Print zone once round at most, then a clear tail that covers all of it."""
    stock, around = asked.stock, asked.round_mm
    zone_mm = stock.zone_mm or 0.0
    tail = stock.height_mm - zone_mm
    if zone_mm > around:
        return Fit(
            "self-laminating",
            refusal=f"its print zone of {zone_mm:g} mm is more than once round ({around:.1f} mm)",
        )
    if stock.height_mm < zone_mm + around:
        need = f"{zone_mm:g} + {around:.1f} mm"
        return Fit(
            "self-laminating", refusal=f"{stock.height_mm:g} mm in all are less than {need}: the tail leaves print bare"
        )
    margin = stock.margin_mm
    zone = Rect(margin, margin, stock.width_mm - 2 * margin, zone_mm - 2 * margin)
    spare = "with a spare turn" if tail >= 2 * around else "without a spare turn"
    why = f"print {zone_mm:g} mm of {around:.1f} mm round, the clear tail goes round {tail / around:.1f} times, {spare}"
    return _bent(asked, "self-laminating", zone, why, stock.width_mm, stock.height_mm / around, None)


def _bent(asked: _Asked, shape: str, zone: Rect, why: str, along_mm: float, turns: float, cut_mm: float | None) -> Fit:
    """A zone round the wire: whole where it carries a symbol, else in copies, so that one of them faces the reader."""
    limit = largest_symbol_mm(asked.outside_mm)
    whole = Fit(shape, (zone,), why, along_mm=along_mm, turns=turns, cut_mm=cut_mm, symbol_mm=limit)
    if asked.symbol is not None and not whole.no_symbol(asked.symbol):
        return whole
    count = _copies(zone.height)
    high = zone.height / count
    faces = tuple(zone._replace(y=zone.y + index * high, height=high) for index in range(count))
    return Fit(shape, faces, why, along_mm=along_mm, turns=turns, cut_mm=cut_mm, symbol_mm=limit)


def _copies(height_mm: float) -> int:
    """Copies one under another: three or two of the number and a line, else two of the number, else one."""
    for count in range(MOST_COPIES, 1, -1):
        if height_mm / count >= (GOOD_COPY_MM if count > 2 else LEAST_COPY_MM):
            return count
    return 1


def _sleeve(asked: _Asked) -> Fit:
    """The smallest that slides over what it must pass and grips the wire once shrunk."""
    stock, wire = asked.stock, asked.outside_mm
    passes = max(wire, asked.passes_mm)
    over = [size for size in stock.sizes if size.before_mm >= SLIP * passes]
    if not over:
        return Fit("sleeve", refusal=f"its widest, {stock.sizes[-1].text}, does not slide over {passes:.1f} mm")
    size = over[0]
    if size.after_mm >= wire:
        what = f"{passes:.1f} mm of terminal" if passes > wire else f"{wire:.1f} mm"
        return Fit(
            "sleeve",
            refusal=f"{size.text}, the smallest that slides over {what}, would not grip a wire of {wire:.1f} mm",
        )
    margin, shrinks_to = stock.margin_mm, wire / size.before_mm
    face = Rect(margin, margin, asked.face_mm - 2 * margin, size.flat_mm - 2 * margin)
    return Fit(
        "sleeve",
        (face,),
        f"{size.text} slides over {passes:.1f} mm and grips {wire:.1f} mm; letters keep {shrinks_to:.0%} of height",
        along_mm=asked.face_mm,
        cut_mm=asked.face_mm,
        symbol_mm=0.0,
        shrinks_to=shrinks_to,
        sleeve=size,
    )


def _tag(asked: _Asked) -> Fit:
    """Hangs by a cable tie, whatever the wire's diameter; the slot's strip stays free."""
    stock, margin = asked.stock, asked.stock.margin_mm
    left, width, _ = stock.slot_mm or (0.0, 0.0, 0.0)
    start = left + width + margin
    face = Rect(start, margin, stock.width_mm - start - margin, stock.height_mm - 2 * margin)
    return Fit("tag", (face,), "a tag hangs by a cable tie on a wire of any diameter", along_mm=TIE_MM)


def _plate(asked: _Asked) -> Fit:
    """The whole label, on something flat."""
    width, high, edge, length = _size(asked)
    margin = asked.stock.margin_mm
    face = Rect(margin, edge, width - 2 * margin, high - 2 * edge)
    return Fit("plate", (face,), f"{width:g} x {high:g} mm on a flat face", cut_mm=length)


def _size(asked: _Asked) -> tuple[float, float, float, float | None]:
    """Width and height of the whole label, the edge kept clear above and below, and the cut on tape."""
    stock = asked.stock
    if stock.form == "tape":
        length = asked.face_mm + 2 * stock.margin_mm
        return length, stock.tape_mm, _edge(stock), length
    return stock.width_mm, stock.height_mm, stock.margin_mm, None


def _edge(stock: Stock) -> float:
    return (stock.tape_mm - stock.printable_mm) / 2


_MAKERS: Final[dict[str, Callable[[_Asked], Fit]]] = {
    "flag": _flag,
    "wrap": _wrap,
    "self-laminating": _self_laminating,
    "sleeve": _sleeve,
    "tag": _tag,
    "plate": _plate,
}
