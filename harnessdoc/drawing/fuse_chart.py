"""A fuse against what it stands between: load, rating, smallest wire behind it, short circuit, on one current axis.

For each fuse a stair of four steps on a logarithmic axis. Where each step leads to the right, the fuse carries the
load, opens before the wire is too warm, and a short circuit opens it. Takes figures; the verdict is the checks'."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from harnessdoc.drawing.chart_axes import (
    GREY,
    NARROW_MM,
    RULE,
    TEXT_MM,
    WIDE_MM,
    WIDTH_MM,
    Decades,
    amps_text,
    decades,
    head,
)
from harnessdoc.electrics.drops import worst_drop
from harnessdoc.electrics.short_circuit import Reach, ShortCircuits
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness, Wire
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.quantities import format_amps, format_celsius
from harnessdoc.sheet.page import BLACK, WHITE, Page
from harnessdoc.tables.ampacity import LOWEST_C, sure_ampacity

NAMES_MM: Final = 72.0
ROW_MM: Final = 4.6
HEAD_ROW_MM: Final = 6.0
LANE_GAP_MM: Final = 3.0
MOST_FUSES: Final = 8
"""So many fuses fit on a sheet of A4 between its margins; of more the chart says how many it leaves out."""

StepSort = Literal["load", "fuse", "wire", "short"]


@dataclass(frozen=True, slots=True)
class WireLimit:
    """What a wire carries for long, in A. `note`: how it was found; `assumed`: a figure that it rests on was not
    stated, or was only remembered."""

    amps: float
    note: str = ""
    assumed: bool = False


LimitOf = Callable[[Wire], WireLimit | None]


@dataclass(frozen=True, slots=True)
class Mark:
    """One step: the words before its mark, its current in A (None: unknown, and the words say so)."""

    sort: StepSort
    text: str
    amps: float | None
    assumed: bool = False

    @property
    def value(self) -> str:
        """The current as written."""
        return "unknown" if self.amps is None else f"{'≈' if self.assumed else ''}{format_amps(self.amps, 3)}"


@dataclass(frozen=True, slots=True)
class FuseFigures:
    """A fuse with its four steps. `unsized`: wires behind it whose limit is not known; `note`: of the wire's limit."""

    fuse: str
    title: str
    marks: tuple[Mark, Mark, Mark, Mark]
    unsized: tuple[str, ...] = ()
    note: str = ""


def fuse_chart(study: Study, harness: Harness, circuit: str, limit_of: LimitOf | None = None) -> Page | None:
    """The chart of a circuit's fuses; of the last fuse before its load where it has none; None where there is none.

    `limit_of`: what a wire carries where it lies; by the harness's table in free air at 30 °C if None."""
    figures = fuse_figures(study, harness, circuit, limit_of)
    return fuse_page(harness, circuit, figures) if figures else None


def fuse_figures(
    study: Study, harness: Harness, circuit: str, limit_of: LimitOf | None = None
) -> tuple[FuseFigures, ...]:
    """The figures that the chart shows."""
    limits = limit_of or (lambda wire: table_limit(harness, wire))
    short = ShortCircuits(study)
    return tuple(
        _figures(study, harness, name, short.behind(name), limits) for name in fuses_of(study, harness, circuit)
    )


def fuses_of(study: Study, harness: Harness, circuit: str) -> tuple[str, ...]:
    """Fuses and breakers that a circuit lists or feeds through, else the last one on the way to its load."""
    wires = harness.by_circuit.get(circuit, ())
    owners = dict.fromkeys((*harness.circuit(circuit).items, *(p.owner for w in wires for p in w.points)))
    own = tuple(name for name in owners if name in harness.items and isinstance(harness.items[name].kind, Fuse))
    if own:
        return own
    drop = worst_drop(study, circuit)
    passed = [one.part for one in drop.feed if one.sort == "fuse"] if drop is not None else []
    return tuple(passed[-1:])


def table_limit(harness: Harness, wire: Wire) -> WireLimit | None:
    """A wire's limit by the harness's table in free air at 30 °C, its insulation as stated, else the lowest."""
    if wire.size is None:
        return None
    stated = wire.insulation_c if wire.insulation_c is not None else harness.title.insulation_c
    found = sure_ampacity(wire.size, stated if stated is not None else LOWEST_C, harness.title.ampacity_rule)
    if found is None:
        return None
    note = f"{found.source}, {found.note}"
    if stated is None:
        note += f"; insulation not stated: taken for {format_celsius(LOWEST_C)}"
    return WireLimit(found.value, note, stated is None)


def _figures(study: Study, harness: Harness, name: str, reach: Reach | None, limit_of: LimitOf) -> FuseFigures:
    item = harness.items[name]
    worst = study.worst_of_part(name)
    load = "load, at most (sum of islands)" if worst is not None and worst.bound else "load, worst"
    rating = item.kind.rating_a if isinstance(item.kind, Fuse) else None
    wires = reach.wires if reach is not None else ()
    known = {wire: limit for wire in wires if (limit := limit_of(harness.wires[wire])) is not None}
    least = min(known, key=lambda wire: known[wire].amps, default="")
    marks = (
        Mark("load", load, worst.amps if worst is not None else None),
        Mark("fuse", "fuse rating", rating),
        _wire_mark(harness, least, known[least]) if least else Mark("wire", "smallest wire behind it", None),
        _short_mark(reach),
    )
    unsized = tuple(wire for wire in wires if wire not in known)
    return FuseFigures(name, item.title, marks, unsized, known[least].note if least else "")


def _wire_mark(harness: Harness, name: str, limit: WireLimit) -> Mark:
    return Mark("wire", f"wire {name} ({harness.wires[name].size}) carries", limit.amps, limit.assumed)


def _short_mark(reach: Reach | None) -> Mark:
    if reach is None:
        return Mark("short", "short circuit", None)
    where = f"{reach.far} to chassis" if reach.to_chassis else f"across {reach.far}"
    return Mark("short", f"short circuit {where}", reach.short_a, bool(reach.assumed))


def fuse_page(harness: Harness, circuit: str, figures: Sequence[FuseFigures]) -> Page:
    """The chart of some fuses, one under the other on one axis."""
    shown, left_out = figures[:MOST_FUSES], len(figures) - MOST_FUSES
    lines = ["Each step should lead to the right: load, fuse, wire, short circuit. Amperes, logarithmic."]
    if left_out > 0:
        lines.append(f"{left_out} more fuses are not drawn.")
    lane = HEAD_ROW_MM + 4 * ROW_MM + LANE_GAP_MM
    notes = _notes(shown)
    top = 0.5 + 3.5 + 4.2 * len(lines) + 3
    height = top + 5 + lane * len(shown) + 4.2 * len(notes) + 0.5
    page = Page(WIDTH_MM, height, f"{harness.circuit(circuit).title or circuit}: fuses")
    head(page, page.title, lines)
    amps = [mark.amps for one in shown for mark in one.marks if mark.amps is not None]
    axis = decades((value for value in amps if value >= 0.01), NAMES_MM + 4, WIDTH_MM - 5)
    bottom = top + 5 + lane * len(shown) - LANE_GAP_MM
    _grid(page, axis, top, bottom)
    for number, one in enumerate(shown):
        _lane(page, axis, one, top + 5 + number * lane)
    y = bottom + 5
    for note in notes:
        page.text(0.5, y, note, TEXT_MM, box_mm=WIDTH_MM - 1)
        y += 4.2
    return page


def _notes(figures: Sequence[FuseFigures]) -> list[str]:
    notes = []
    if any(mark.assumed for one in figures for mark in one.marks):
        notes.append("≈ rests on a figure that nobody stated: resistance of a contact or fuse, insulation of a wire.")
    notes += [
        f"{one.fuse}: the limit of {', '.join(one.unsized)} is not known." for one in figures if one.unsized
    ]  # fmt: skip
    return notes


def _grid(page: Page, axis: Decades, top: float, bottom: float) -> None:
    for value, decade in axis.marks():
        x = axis.at(value)
        width = 0.3 if decade else NARROW_MM
        page.line(x, top + 3.2, x, bottom, stroke=RULE, stroke_mm=width, dash=() if decade else (0.3, 1.2))
        if decade:
            page.text(x, top + 2, amps_text(value), TEXT_MM, anchor="middle")
    page.text(NAMES_MM - 2, top + 2, "A", TEXT_MM, bold=True, anchor="end")


def _lane(page: Page, axis: Decades, one: FuseFigures, top: float) -> None:
    """A fuse: its name, then a row a step; the words left of the axis, the stair on it."""
    page.rect(0, top, NAMES_MM, HEAD_ROW_MM - 0.8, fill=GREY, stroke="none")
    page.text(1, top + 3.8, f"{one.fuse} {one.title}".strip(), 3.0, bold=True, box_mm=NAMES_MM - 2)
    at: list[tuple[float, float]] = []
    for row, mark in enumerate(one.marks):
        y = top + HEAD_ROW_MM + (row + 0.5) * ROW_MM
        width = page.text(NAMES_MM, y + TEXT_MM / 2, mark.value, TEXT_MM, bold=True, anchor="end")
        page.text(1, y + TEXT_MM / 2, mark.text, TEXT_MM, box_mm=NAMES_MM - width - 3)
        if mark.amps is not None and mark.amps > 0:
            at.append((axis.at(mark.amps), y))
    for (x1, y1), (x2, y2) in pairwise(at):
        page.polyline([(x1, y1), (x1, y2), (x2, y2)], stroke_mm=WIDE_MM if x2 >= x1 else 0.4,
                      dash=() if x2 >= x1 else (1.0, 0.8))  # fmt: skip
    for mark in one.marks:
        if mark.amps is not None and mark.amps > 0:
            x, y = at.pop(0)
            _mark(page, mark.sort, x, y)
            if mark.amps < 10.0**axis.first * 0.999:
                page.polyline([(x - 2, y - 1.2), (x - 3.4, y), (x - 2, y + 1.2)], stroke_mm=0.4)


def _mark(page: Page, sort: StepSort, x: float, y: float) -> None:
    """Told apart by shape: a full disc, a fuse's box, a bar that stops, a bolt."""
    if sort == "load":
        page.circle(x, y, 1.5, fill=BLACK, stroke="none")
    elif sort == "fuse":
        page.rect(x - 2.2, y - 1.3, 4.4, 2.6, fill=WHITE, stroke_mm=0.4)
        page.line(x - 2.2, y, x + 2.2, y, stroke_mm=0.4)
    elif sort == "wire":
        page.rect(x - 0.6, y - 2.1, 1.2, 4.2, fill=BLACK, stroke="none")
    else:
        bolt = [
            (x + 0.6, y - 2.1),
            (x - 1.4, y + 0.4),
            (x - 0.1, y + 0.4),
            (x - 0.6, y + 2.1),
            (x + 1.4, y - 0.4),
            (x + 0.1, y - 0.4),
        ]
        page.polyline(bolt, closed=True, fill=WHITE, stroke_mm=0.35, join="round")
