"""What was computed of a circuit, as words and charts for its page: currents, losses, what is live when.

Where nothing was computed it says so; nothing here passes as verified that was not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from harnessdoc.checks.report_text import live_words
from harnessdoc.checks.wire_limits import WireLimits
from harnessdoc.drawing.fuse_chart import FuseFigures, WireLimit, fuse_figures, fuse_page
from harnessdoc.drawing.voltage_profile import profile_page, source_words, state_words
from harnessdoc.electrics.drops import Drop, worst_drop
from harnessdoc.electrics.operation import Verdict, live_table, told, verify
from harnessdoc.electrics.probes import supply_v
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness, Operation, Wire
from harnessdoc.model.quantities import format_amps, format_percent, format_volts
from harnessdoc.records.inline_svg import inline_svg
from harnessdoc.sheet.page import Page

BOUND = "sum of islands: upper bound"
LITTLE_A = 1e-6
"""Less counts as no current."""


@dataclass(frozen=True, slots=True)
class VerdictWords:
    """What was found for some names of an operation line. `mark`: holds, fails or open, for the page's style."""

    mark: str
    names: tuple[str, ...]
    text: str


@dataclass(frozen=True, slots=True)
class LiveWords:
    """When an item is live."""

    name: str
    title: str
    when: str


@dataclass(frozen=True, slots=True)
class ChartWords:
    """A chart and its figures as a table. `svg` "" where it can't be drawn, `why` then says so."""

    title: str
    svg: Markup
    letters: str = ""
    heads: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()
    why: str = ""


class Computed:
    """The study of a harness, asked for by its circuits' pages. `study` None: nothing was computed."""

    def __init__(self, harness: Harness, study: Study | None) -> None:
        self.harness, self.study = harness, study

    @cached_property
    def _verdicts(self) -> Mapping[tuple[int, str, bool], Verdict]:
        if self.study is None:
            return {}
        numbers = {id(line): at for at, line in enumerate(self.harness.operation)}
        return {(numbers[id(v.line)], v.name, v.live): v for v in verify(self.study, self.harness.operation)}

    @cached_property
    def _tables(self) -> Mapping[str, tuple[LiveWords, ...]]:
        if self.study is None:
            return {}
        title = self.harness.title_of
        return {
            table.circuit: tuple(LiveWords(row.name, title(row.name), live_words(row)) for row in table.rows)
            for table in live_table(self.study)
        }

    @cached_property
    def _limits(self) -> WireLimits | None:
        return None if self.study is None else WireLimits(self.harness, self.study.routing)

    def verdicts(self, line: Operation, live: Sequence[str], dead: Sequence[str]) -> tuple[VerdictWords, ...]:
        """What was found for these names of a line; names with the same answer together."""
        at = next(number for number, one in enumerate(self.harness.operation) if one is line)
        found: dict[tuple[str, str], list[str]] = {}
        for wanted, names in ((True, live), (False, dead)):
            for name in names:
                found.setdefault(_words(self._verdicts.get((at, name, wanted))), []).append(name)
        everything = len(found) == 1
        return tuple(
            VerdictWords(mark, () if everything else tuple(names), text) for (mark, text), names in found.items()
        )

    def live(self, circuit: str) -> tuple[LiveWords, ...]:
        """When each load, lamp and relay of a circuit is live."""
        return self._tables.get(circuit, ())

    def flow(self, wire: Wire) -> tuple[tuple[str, str], ...]:
        """Caption and text of a wire's worst current and what it loses then; () where nothing was computed."""
        if self.study is None:
            return ()
        worst = self.study.worst_of_part(wire.name)
        if worst is None:
            return (("carries", f"not computed: {self._why_not(wire.name)}"),)
        if worst.amps < LITTLE_A:
            return (("carries", "no current in any state that was computed"),)
        ohm = sum(self.study.circuit.branches[index].ohm for index in self.study.by_part[wire.name])
        lost_v = worst.amps * ohm
        share = format_percent(100 * lost_v / supply_v(self.study.circuit), 2)
        text = f"up to {format_amps(worst.amps, 3)}, loses {format_volts(lost_v, 2)}, {share}"
        notes = [("carries", f"{text}; {BOUND}" if worst.bound else text)]
        assumed = [one.text for one in self.study.circuit.assumptions if one.about == wire.name]
        return (*notes, *(("assumed", one) for one in assumed))

    def _why_not(self, name: str) -> str:
        assert self.study is not None
        left_out = [one.text for one in self.study.circuit.left_out if one.about == name]
        if left_out:
            return left_out[0]
        indices = set(self.study.by_part.get(name, ()))
        for island in self.study.too_many:
            if indices & island.own:
                return f"its island has {island.states} states, too many to settle"
        return "it is part of nothing that a source feeds"

    def charts(self, circuit: str, prefix: str) -> tuple[ChartWords, ...]:
        """The voltage along the run and the fuses; () where nothing was computed. `prefix`: for ids."""
        if self.study is None:
            return ()
        return self._profile(self.study, circuit, f"{prefix}volts"), self._fuses(self.study, circuit, f"{prefix}fuses")

    def _profile(self, study: Study, circuit: str, name: str) -> ChartWords:
        title = "Voltage along the run"
        drop = worst_drop(study, circuit)
        if drop is None:
            return ChartWords(title, Markup(), why="No load of this circuit is fed in any state that was computed.")
        page = profile_page(study, self.harness, circuit, drop)
        said = _profile_said(study, drop)
        svg = inline_svg(page, name, f"{title} to {drop.load}", f"{' '.join(said)} The table after it has all figures.")
        heads = ("part", "current", "loses") + (("at most",) if drop.shared else ())
        return ChartWords(title, svg, _letters(page), heads, tuple(_profile_rows(drop)), said)

    def _fuses(self, study: Study, circuit: str, name: str) -> ChartWords:
        title = "Fuses"
        figures = fuse_figures(study, self.harness, circuit, self._limit_of)
        if not figures:
            return ChartWords(title, Markup(), why="No fuse belongs to this circuit or stands before its load.")
        page = fuse_page(self.harness, circuit, figures)
        said = "; ".join(f"{one.fuse}: " + ", ".join(f"{m.text} {m.value}" for m in one.marks) for one in figures)
        svg = inline_svg(page, name, f"{title} against load and wire", f"{said}.")
        heads = ("fuse", "load, worst", "rating", "smallest wire behind it", "short circuit")
        notes = tuple(f"{one.fuse}: {one.note}" for one in figures if one.note)
        return ChartWords(title, svg, _letters(page), heads, tuple(_fuse_rows(figures)), notes)

    def _limit_of(self, wire: Wire) -> WireLimit | None:
        assert self._limits is not None
        limit = self._limits.of(wire)
        if limit is None:
            return None
        note = f"{wire.name} carries {limit.how} ({limit.source})"
        return WireLimit(limit.least_a, f"{note}; {limit.assumed}" if limit.assumed else note, bool(limit.assumed))


def _words(verdict: Verdict | None) -> tuple[str, str]:
    if verdict is None:
        return "open", "not verified: nothing was computed when this book was made"
    if verdict.holds is None:
        return "open", f"not verified: {verdict.why}"
    if verdict.holds:
        states = {1: "the one state that matches", 2: "both states that match"}
        return "holds", f"holds in {states.get(verdict.states, f'all {verdict.states} states that match')}"
    kind = "live" if verdict.live else "dead"
    return "fails", f"fails: not {kind} in state {told(verdict.state or {})}: {verdict.why}"


def _profile_said(study: Study, drop: Drop) -> tuple[str, ...]:
    share = format_percent(drop.percent(drop.lost_v), 2)
    lost = f"{format_volts(drop.lost_v, 3)} is lost on the way and back, {share} of {drop.source}'s own voltage"
    said = [f"{drop.load} gets {format_volts(drop.load_v)}; {lost}.", f"State: {state_words(study, drop)}."]
    said.append(source_words(drop))
    if drop.shared:
        most = f"{format_volts(drop.most_v, 3)}, {format_percent(drop.percent(drop.most_v), 2)}"
        said.append(f"With all that shares the way at its worst, at most {most} ({BOUND}).")
    return tuple(said)


def _profile_rows(drop: Drop) -> Iterable[tuple[str, ...]]:
    ways = (("", drop.feed), (" (return)", drop.back))
    for way, steps in ways:
        for one in steps:
            if one.sort == "joint":
                continue
            about = "≈" if one.assumed else ""
            row = (f"{one.part}{way}", format_amps(one.amps, 3), f"{about}{format_volts(one.drop_v, 2)}")
            yield (*row, f"{about}{format_volts(one.most_v, 2)}") if drop.shared else row


def _fuse_rows(figures: Iterable[FuseFigures]) -> Iterable[tuple[str, ...]]:
    for one in figures:
        load, rating, wire, short = one.marks
        at_most = f"{load.value}, at most ({BOUND})" if "at most" in load.text else load.value
        carries = wire.text.removeprefix("wire ").removesuffix(" carries")
        where = short.text.removeprefix("short circuit").strip()
        yield (
            f"{one.fuse} {one.title}".strip(), at_most, rating.value,
            f"{carries}: {wire.value}" if wire.amps is not None else "not known",
            f"{short.value} {where}".strip(),
        )  # fmt: skip


def _letters(page: Page) -> str:
    """All that is written on a chart."""
    return "".join(sorted({letter for mark in page.marks for letter in getattr(mark, "text", "")}))
