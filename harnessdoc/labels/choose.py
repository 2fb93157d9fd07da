"""Which stock each label is printed on: the first of those offered that works there, and why; or why none does.

Joins `ends` (what it sits on), `tries` (what fits there) and `surroundings` (what it must stand). Lays nothing out.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from harnessdoc.labels.about import About, Abouts
from harnessdoc.labels.ends import FLAT, Seat, Seats
from harnessdoc.labels.faces import Laid, lay
from harnessdoc.labels.fit import Fit
from harnessdoc.labels.label import Label
from harnessdoc.labels.material import SleeveSize, Stock
from harnessdoc.labels.qr import Level, modules_of
from harnessdoc.labels.surroundings import Surroundings, surroundings_at
from harnessdoc.labels.tries import ON_FLAT, ON_WIRE, Try, levels_for, stretched, try_all, why_refused, why_taken
from harnessdoc.model.harness import Harness
from harnessdoc.routing import Routing
from harnessdoc.sheet.lettering import text_width_mm

DPI: Final = 300
Progress = Callable[[int, int], None]
_EVERY: Final = 50  # own choice: labels between two words of progress
_ALL: Final = (False, False, 0)  # a rank: nothing is missing


@dataclass(frozen=True, slots=True)
class Choice:
    """What one label is printed on, and `laid`: how its words stand there. Lengths in mm.

    `stock` None: it is not printed, since it is `refused` (why none works) or not `needed` (`why` says so).
    `area_mm`: width and height of one printable face, of which a label has `copies` that say the same; where they lie
    is in `fit`. `sleeve`: the size to take, which goes on before the end is made (`before_end`). `placement`: where it
    goes, in words. `no_symbol`: why a wanted QR symbol is not carried, "" if it is or none is wanted. `dpi`: what it is
    printed at. `level`: of the symbol's damage that can be read past.
    """

    label: Label
    stock: Stock | None
    shape: str
    area_mm: tuple[float, float]
    copies: int
    sleeve: SleeveSize | None
    placement: str
    why: str
    refused: str
    no_symbol: str
    needed: bool
    before_end: bool
    dpi: int
    fit: Fit | None
    seat: Seat
    surroundings: Surroundings
    level: Level = "M"
    laid: Laid | None = None


def choose(
    harness: Harness,
    routing: Routing,
    labels: Sequence[Label],
    stocks: Sequence[Stock],
    dpi: int = DPI,
    progress: Progress | None = None,
) -> tuple[Choice, ...]:
    """Return a choice for each label, in the labels' order.

    `stocks`: those offered, the liked best first. Of those that fit and stand the surroundings, one that holds the
    number in full goes first, then one that carries the label's symbol, then one that holds all words, then the order
    offered; within a stock the order of its shapes. `dpi`: of sheets; tape and sleeve take the nearest of their own. A
    wire of 3 to 7 in has one label: its first one here; its other, and both of a shorter wire, are not `needed`.
    `progress`: told how many labels of how many are done, now and then and at the end.
    """
    chooser = _Chooser(harness, routing, tuple(stocks), dpi)
    chosen = []
    for count, label in enumerate(labels):
        if progress is not None and count % _EVERY == 0:
            progress(count, len(labels))
        chosen.append(chooser.choose(label))
    if progress is not None:
        progress(len(labels), len(labels))
    return tuple(chosen)


class _Ranked(NamedTuple):
    """A label laid out on one stock. `rank`: the least is the best: number cut, symbol missing, how much is lost."""

    one: Try
    laid: Laid
    no_symbol: str
    rank: tuple[bool, bool, int]

    @property
    def worse(self) -> str:
        """Why another is better."""
        if self.rank[0]:
            return "it does not hold the number"
        return self.no_symbol or ("it does not hold all words" if self.rank[2] else "")


class _Tried(NamedTuple):
    """All tries in one kind of seat, those that work, and what was said of them before."""

    tries: tuple[Try, ...]
    works: tuple[Try, ...]
    said: dict[tuple[object, ...], str]


class _Chooser:
    """Keeps what many labels share: surroundings by place, tries by seat, the first label of each short wire."""

    def __init__(self, harness: Harness, routing: Routing, stocks: tuple[Stock, ...], dpi: int) -> None:
        self.harness = harness
        self.stocks = stocks
        self.dpi = dpi
        self.abouts = Abouts(harness)
        self.seats = Seats(harness, routing)
        self.needs: dict[str | None, Surroundings] = {}
        self.tried: dict[tuple[object, ...], _Tried] = {}
        self.first: dict[str, str] = {}

    def choose(self, label: Label) -> Choice:
        """The choice for the next label."""
        about = self.abouts.of(label)
        seat = self.seats.of(about)
        if seat.place not in self.needs:
            self.needs[seat.place] = surroundings_at(self.harness, seat.place)
        needs = self.needs[seat.place]
        if spare := self._spare(label, about, seat):
            return _none(label, seat, needs, why=spare)
        for level in levels_for(needs) if label.payload else ("M",):  # the strongest first; a weaker one than none
            tried = self._tried(label, seat, needs, level)
            if not tried.works:
                return _none(label, seat, needs, refused=why_refused(seat, tried.tries))
            ranked = self._ranked(label, seat, tried.works, level)
            at = min(range(len(ranked)), key=lambda index: ranked[index].rank)
            if not ranked[at].no_symbol:
                break
        best, worse = ranked[at].one, tuple(one.worse for one in ranked[:at])
        known = (seat.source, best.stock.name, best.shape, ranked[at].rank[0], worse)
        if known not in tried.said:
            passed = dict(zip(((one.stock.name, one.shape) for one in tried.works), worse, strict=False))
            tried.said[known] = why_taken(seat, needs, best, tried.tries, passed, number_cut=ranked[at].rank[0])
        return self._taken(label, seat, needs, best, tried.said[known], level, ranked[at])

    def _ranked(self, label: Label, seat: Seat, works: Sequence[Try], level: Level) -> list[_Ranked]:
        """How well each holds the label's words and symbol, up to the first that holds all."""
        modules = modules_of(label.payload, level)
        found: list[_Ranked] = []
        for one in works:
            best = self._rank(label, one, level)
            for longer in stretched(one, seat, modules, self.dpi) if best.rank > _ALL else ():
                other = self._rank(label, longer, level)
                best = min(best, other, key=lambda ranked: ranked.rank)
                if best.rank[2] == 0:
                    break
            found.append(best)
            if best.rank == _ALL:
                break
        return found

    def _rank(self, label: Label, one: Try, level: Level) -> _Ranked:
        laid = lay(label, one.fit, one.stock, one.stock.dpi_for(self.dpi), level, one.no_symbol)
        no_symbol = laid.no_symbol if label.payload else ""
        cuts = one.cuts(text_width_mm(label.number, 1.0, bold=True))
        return _Ranked(one, laid, no_symbol, (cuts, bool(no_symbol), laid.lost))

    def _spare(self, label: Label, about: About, seat: Seat) -> str:
        """Why a wire's end needs no label of its own, "" if it does."""
        if seat.marks is None or seat.marks.ends == 2 or about.wire is None:
            return ""
        if seat.marks.ends == 0:
            return seat.where
        first = self.first.setdefault(about.wire.name, label.subject)
        if first == label.subject:
            return ""
        return f"the label of {first} stands at the middle of the wire for both ends"

    def _tried(self, label: Label, seat: Seat, needs: Surroundings, level: Level) -> _Tried:
        shapes = ON_FLAT if label.role.value in FLAT else ON_WIRE
        modules = modules_of(label.payload, level)
        key = (shapes is ON_FLAT, seat.outside_mm, seat.free_mm, seat.passes_mm, seat.no_sleeve, seat.place, modules)
        if key not in self.tried:
            tries = tuple(try_all(self.stocks, shapes, seat, needs, modules, self.dpi))
            self.tried[key] = _Tried(tries, tuple(one for one in tries if not one.trouble), {})
        return self.tried[key]

    def _taken(
        self, label: Label, seat: Seat, needs: Surroundings, best: Try, why: str, level: Level, ranked: _Ranked
    ) -> Choice:
        sleeve = best.fit.sleeve
        return Choice(
            label=label,
            stock=best.stock,
            shape=best.shape,
            area_mm=best.fit.area_mm,
            copies=best.fit.copies,
            sleeve=sleeve,
            placement=f"{seat.where}; {seat.sleeve_note}" if sleeve and seat.sleeve_note else seat.where,
            why=why,
            refused="",
            no_symbol=ranked.no_symbol,
            needed=True,
            before_end=sleeve is not None,
            dpi=best.stock.dpi_for(self.dpi),
            fit=best.fit,
            seat=seat,
            surroundings=needs,
            level=level,
            laid=ranked.laid,
        )


def _none(label: Label, seat: Seat, needs: Surroundings, why: str = "", refused: str = "") -> Choice:
    """Nothing is printed: no label is needed (`why`), or none works (`refused`)."""
    return Choice(
        label=label,
        stock=None,
        shape="",
        area_mm=(0.0, 0.0),
        copies=0,
        sleeve=None,
        placement=seat.where,
        why=why,
        refused=refused,
        no_symbol="",
        needed=not why,
        before_end=False,
        dpi=0,
        fit=None,
        seat=seat,
        surroundings=needs,
    )
