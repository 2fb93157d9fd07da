"""Each shape of each stock tried in one seat: what fits, what does not and why, told in words.

Knows a seat and stock; takes no decision (`choose` does).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import takewhile
from typing import Final, NamedTuple

from harnessdoc.labels.dots import dot_mm, least_dots
from harnessdoc.labels.ends import Seat
from harnessdoc.labels.fit import NEEDS_NO_DIAMETER, Fit, SymbolSize, fit
from harnessdoc.labels.material import Stock
from harnessdoc.labels.qr import QUIET_MODULES, Level
from harnessdoc.labels.surroundings import Surroundings, fails

# The least height of a label's number, mm: 3.5 (own choice), on sleeves and tape of 6 mm ISO 3098's smallest, 1.8. On a
# sleeve it is what is left after shrinking.
LEAST_NUMBER_MM: Final = 3.5
LEAST_NUMBER_SMALL_MM: Final = 1.8
_SMALL_TAPE_MM: Final = 6.0
STRETCH: Final = (1.5, 2.0, 2.5)  # own choice: a face on tape or sleeve is at most so many times its usual length
ON_WIRE: Final = frozenset({"flag", "self-laminating", "sleeve", "wrap", "tag"})
ON_FLAT: Final = frozenset({"plate", "tag"})


class Try(NamedTuple):
    """One shape of one stock in one seat: it fits, or `trouble` says why not; `no_symbol` why it carries no symbol.

    `misplaced`: a shape that never goes on such a thing. `number_mm`: the least height that its number is printed at.
    """

    stock: Stock
    shape: str
    fit: Fit
    trouble: str
    no_symbol: str
    misplaced: bool = False
    number_mm: float = LEAST_NUMBER_MM

    def cuts(self, number_wide: float) -> bool:
        """Whether a number does not go on a line. `number_wide`: its width in heights of its capitals."""
        return number_wide * self.number_mm > self.fit.area_mm[0]


def try_all(
    stocks: Sequence[Stock], shapes: frozenset[str], seat: Seat, needs: Surroundings, modules: int | None, dpi: int
) -> Iterator[Try]:
    """Yield every shape of every stock, in their order. `modules`: of the label's symbol, None for none."""
    for stock in stocks:
        weak = fails(stock, needs)
        size = symbol_size(modules, stock.dpi_for(dpi))
        for shape in stock.shapes:
            if shape not in shapes:
                wanted = "flat face" if shapes == ON_FLAT else "wire"
                yield Try(stock, shape, Fit(shape), f"a {shape} does not go on a {wanted}", "", misplaced=True)
                continue
            found = fit(seat.outside_mm, stock, shape, symbol=size, passes_mm=seat.passes_mm, free_mm=seat.free_mm)
            trouble = weak or found.refusal or (seat.no_sleeve if shape == "sleeve" else "")
            no_symbol = found.no_symbol(size) if size else ""
            yield Try(stock, shape, found, trouble, no_symbol, number_mm=least_number_mm(stock, found))


def stretched(one: Try, seat: Seat, modules: int | None, dpi: int) -> Iterator[Try]:
    """Yield the same on a longer face, step by step: tape and sleeve are cut as long as their words need."""
    stock = one.stock
    if stock.form == "sheet":
        return
    size = symbol_size(modules, stock.dpi_for(dpi))
    for factor in STRETCH:
        found = fit(
            seat.outside_mm,
            stock,
            one.shape,
            symbol=size,
            passes_mm=seat.passes_mm,
            free_mm=seat.free_mm,
            face_mm=factor * stock.face_mm,
        )
        if found.refusal:
            return
        yield one._replace(fit=found, no_symbol=found.no_symbol(size) if size else "")


def least_number_mm(stock: Stock, found: Fit) -> float:
    """The least height of the number as printed, mm: larger on a sleeve by what it loses in shrinking."""
    if found.sleeve is not None:
        return LEAST_NUMBER_SMALL_MM / found.shrinks_to
    return LEAST_NUMBER_SMALL_MM if 0 < stock.tape_mm <= _SMALL_TAPE_MM else LEAST_NUMBER_MM


def symbol_size(modules: int | None, dpi: int) -> SymbolSize | None:
    """The smallest side at a density of a symbol of so many modules without quiet zone, None for no symbol."""
    if modules is None:
        return None
    module_mm = least_dots(dpi) * dot_mm(dpi)
    return SymbolSize(modules * module_mm, (modules + 2 * QUIET_MODULES) * module_mm)


def levels_for(needs: Surroundings) -> tuple[Level, ...]:
    """The levels of a QR symbol to try, the best first: Q (25 %) where dirt, fluids or hands get at it, else M (15 %).

    Own choice. A symbol at M is better than none, so M is tried where Q does not fit.
    """
    return ("Q", "M") if needs.fluids or needs.abrasion or needs.heats else ("M",)


def why_taken(
    seat: Seat,
    needs: Surroundings,
    best: Try,
    tries: Sequence[Try],
    passed: Mapping[tuple[str, str], str],
    number_cut: bool,
) -> str:
    """Why this one: how it fits, by which diameter, what was passed over and what was assumed.

    `passed`: by stock's name and shape, why what works too is worse for this label.
    """
    parts = [best.fit.why]
    if seat.outside_mm is not None:
        parts.append(f"outside {seat.outside_mm:g} mm ({seat.source})")
    elif seat.source:
        parts.append(seat.source)
    if best.no_symbol:
        parts.append(f"no QR: {best.no_symbol}")
    if number_cut:
        parts.append("its number is too long for any stock offered that works here")
    earlier = takewhile(lambda stock: stock is not best.stock, dict.fromkeys(one.stock for one in tries))
    told = [_told(stock, tries) for stock in earlier]
    reasons = _by_reason((one, one.trouble or passed.get((one.stock.name, one.shape), "")) for one in told)
    parts += [f"{names} passed over: {reason}" for names, reason in reasons if reason]
    return "; ".join([*parts, *needs.assumed])


def why_refused(seat: Seat, tries: Sequence[Try]) -> str:
    """Why none works: first what would help most, then stock by stock."""
    if not tries:
        return "no stock is offered"
    told = [_told(stock, tries) for stock in dict.fromkeys(one.stock for one in tries)]
    asks = seat.outside_mm is None and any(one.shape not in NEEDS_NO_DIAMETER for one in told)
    reasons = [f"{names}: {reason}" for names, reason in _by_reason((one, one.trouble) for one in told)]
    return "; ".join([seat.source, *reasons] if asks and seat.source else reasons)


def _told(stock: Stock, tries: Sequence[Try]) -> Try:
    """Which of a stock's shapes a reason speaks of: the first that could go there at all."""
    of = [one for one in tries if one.stock is stock]
    return next((one for one in of if not one.misplaced), of[0])


def _by_reason(told: Iterable[tuple[Try, str]]) -> list[tuple[str, str]]:
    """(names of stocks, reason): those that have one reason together."""
    found: dict[str, list[str]] = {}
    for one, reason in told:
        found.setdefault(reason, []).append(one.stock.name)
    return [(", ".join(names), reason) for reason, names in found.items()]
