"""One run of labels: chosen, laid out and put on sheets, tapes and sleeves of each stock, with the notes that go along.

Joins `select`, `choose`, `faces`, `imposing`, `tapes` and `notes`; writes no file.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from harnessdoc.labels.choose import Choice, Progress, choose
from harnessdoc.labels.faces import Laid
from harnessdoc.labels.imposing import impose, sheet_pages
from harnessdoc.labels.lazy import LazyPages, drawn_already
from harnessdoc.labels.material import SleeveSize, Stock
from harnessdoc.labels.notes import Chapter, Remark, note_pages
from harnessdoc.labels.printing import PlacedLabel, Printed
from harnessdoc.labels.select import select
from harnessdoc.labels.tapes import strip_pages, thread
from harnessdoc.labels.told import chapters
from harnessdoc.model.harness import Harness, Title
from harnessdoc.routing import Routing
from harnessdoc.sheet.page import Page

DPI: Final = 300
Offset = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Section:
    """All labels on one stock, and of sleeves on one size. `pages`: its sheets or strips, drawn when asked for."""

    stock: Stock
    dpi: int
    labels: tuple[PlacedLabel, ...]
    pages: LazyPages
    sleeve: SleeveSize | None = None

    @property
    def name(self) -> str:
        """`a4-65-38x21`, `sleeve-2to1 3.2/1.6 mm`."""
        return f"{self.stock.name} {self.sleeve.text}" if self.sleeve else self.stock.name


@dataclass(frozen=True, slots=True)
class LabelRun:
    """What came out. `notes`: pages on plain paper. Remarks name labels by their subjects.

    `without_qr`: why; `shortened`: texts cut or left out; `refused`: labels that nothing offered works for; `spare`:
    ends that need none of their own.
    """

    sections: tuple[Section, ...]
    notes: list[Page]
    choices: tuple[Choice, ...] = ()
    without_qr: tuple[Remark, ...] = ()
    shortened: tuple[Remark, ...] = ()
    refused: tuple[Remark, ...] = ()
    spare: tuple[Remark, ...] = ()
    _pages: LazyPages = field(default_factory=LazyPages)

    @property
    def labels(self) -> tuple[PlacedLabel, ...]:
        """Every printed label, section by section."""
        return tuple(one for section in self.sections for one in section.labels)

    @property
    def sheets(self) -> int:
        """How many sheets and strips there are."""
        return sum(len(section.pages) for section in self.sections)

    @property
    def pages(self) -> LazyPages:
        """Sheets and strips of all sections, then the notes."""
        return self._pages


def label_run(
    harness: Harness,
    routing: Routing,
    stocks: Sequence[Stock],
    *,
    dpi: int = DPI,
    start: int | Mapping[str, int] = 1,
    offset: Offset | Mapping[str, Offset] = (0.0, 0.0),
    before_cut: str | None = None,
    only: Sequence[str] = (),
    changed_since: Harness | None = None,
    mark: str = "",
    cut_marks: bool = False,
    progress: Progress | None = None,
) -> LabelRun:
    """Choose, lay out and place the labels of a harness, in working order within each stock.

    `stocks`: those offered, the liked best first. `dpi`: the printer's dots per inch on sheets; tape and sleeve take
    the nearest of their own. `start`: the first free label of a used sheet, by the stock's name, or of the first stock.
    `offset`: how far print is moved right and down, mm, by the stock's name or for all. `before_cut`: a plug: only
    what is tied on before it is cut. `only`: names of wires, plugs, items, circuits, places. `changed_since`: only
    labels that say something else than in that state. `mark`: the content mark, on sheets' edges and in the notes, not
    on labels: those outlive revisions. `cut_marks`: outline labels, for paper that is not cut yet. `progress`: told
    how many labels of how many are laid out. Raises select.UnknownNameError for a name that is nothing here,
    ValueError for a start, an offset or a density that can't be.
    """
    harness, routing, wanted = select(harness, routing, before_cut=before_cut, only=only, changed_since=changed_since)
    choices = choose(harness, routing, wanted, stocks, dpi, progress)
    printed = [
        Printed(choice.laid, choice.stock, choice.dpi, choice.fit)
        for choice in choices
        if choice.stock is not None and choice.fit is not None and choice.laid is not None
    ]
    starts = start if isinstance(start, Mapping) else {stocks[0].name: start} if stocks else {}
    return run_of(printed, harness.title, starts, offset, mark, cut_marks, choices)


def run_of(
    printed: Sequence[Printed],
    title: Title,
    starts: Mapping[str, int],
    offset: Offset | Mapping[str, Offset] = (0.0, 0.0),
    mark: str = "",
    cut_marks: bool = False,
    choices: tuple[Choice, ...] = (),
) -> LabelRun:
    """Put labels on their stocks, each stock a section, in the order in which stocks are first needed."""
    together: dict[tuple[str, SleeveSize | None], list[Printed]] = {}
    for one in printed:
        together.setdefault((one.stock.name, one.fit.sleeve), []).append(one)
    sections = []
    for (name, sleeve), ones in sorted(together.items(), key=lambda pair: _sleeves_last(pair[0])):
        moved = offset.get(name, (0.0, 0.0)) if isinstance(offset, Mapping) else offset
        sections.append(_section(ones, sleeve, title, starts.get(name, 1), moved, mark, cut_marks))
    laid = [one.laid for one in printed]
    without_qr = tuple(Remark(one.label.subject, _why_no_qr(one)) for one in laid if one.no_symbol)
    shortened = tuple(Remark(one.label.subject, _lost(one)) for one in laid if one.shortened or one.left_out)
    refused = tuple(Remark(one.label.subject, one.refused) for one in choices if one.refused)
    spare = tuple(Remark(one.label.subject, one.why) for one in choices if not one.needed)
    told: list[Chapter] = chapters(sections, without_qr, shortened, refused, choices)
    notes = note_pages(title, mark, told)
    pages = sum((section.pages for section in sections), LazyPages()) + drawn_already(notes)
    return LabelRun(tuple(sections), notes, choices, without_qr, shortened, refused, spare, pages)


def _why_no_qr(one: Laid) -> str:
    return f"{one.no_symbol}; {one.advice}" if one.advice else one.no_symbol


def _lost(one: Laid) -> str:
    """What a label does not say in full, the most wanted first."""
    both = (("shortened", one.shortened), ("left out", one.left_out))
    return "; ".join(f"{word}: {', '.join(texts)}" for word, texts in both if texts)


def _sleeves_last(key: tuple[str, SleeveSize | None]) -> tuple[bool, str, float]:
    """Sleeves of one stock by size, after the rest; sorting keeps the order of first need among the others."""
    name, sleeve = key
    return (sleeve is not None, name if sleeve else "", sleeve.before_mm if sleeve else 0.0)


def _section(
    ones: Sequence[Printed],
    sleeve: SleeveSize | None,
    title: Title,
    start: int,
    offset: Offset,
    mark: str,
    cut_marks: bool,
) -> Section:
    stock, dpi = ones[0].stock, ones[0].dpi
    if stock.form == "sheet":
        placed = impose(ones, stock, start, offset)
        pages = sheet_pages(placed, stock, title, mark, cut_marks)
    else:
        placed = thread(ones, offset)
        pages = strip_pages(placed, f"{title.number} labels {stock.name}")
    return Section(stock, dpi, tuple(placed), pages, sleeve)
