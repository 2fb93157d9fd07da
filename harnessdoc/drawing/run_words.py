"""What is written of a run on the overview, and where its splices are dimensioned. Words and heights, no drawing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.model.harness import Harness, Run
from harnessdoc.model.quantities import format_celsius, format_length
from harnessdoc.routing import Bundle, Routing, splice_spot
from harnessdoc.sheet.grid import STEP_MM, shortened

MOST_SPLICES: Final = 4
"""Splices that are dimensioned on one run; more of them are counted and stand in the run's own block."""
TIER_MM: Final = 7.2
"""Height of one splice's dimension with its text."""
TOGETHER: Final = "\N{NO-BREAK SPACE}"
_COVER_LINES: Final = 4
_BELOW_LINES: Final = 3


@dataclass(frozen=True, slots=True)
class OnRun:
    """A splice on a run: from which end it is dimensioned, and the share of the run up to it from the run's `a`."""

    name: str
    from_a: bool
    words: str
    share: float


@dataclass(frozen=True, slots=True)
class RunWords:
    """Lines over a run, its length, the splices with their dimensions, how many more there are, and lines under it."""

    above: tuple[str, ...]
    length: str
    splices: tuple[OnRun, ...]
    more: int
    below: tuple[str, ...]

    @property
    def above_mm(self) -> float:
        """Room that is needed over the run, mm."""
        return 3.0 + STEP_MM * len(self.above) + (STEP_MM if self.splices else 0.0)

    @property
    def below_mm(self) -> float:
        """Room that is needed under it, mm."""
        return 7.5 + TIER_MM * len(self.splices) + STEP_MM * len(self.below)


def run_words(harness: Harness, routing: Routing, index: int, width_mm: float) -> RunWords:
    """Return what is written of a run in a gap of that width, mm."""
    run, bundle = harness.runs[index], routing.bundles[index]
    texts = bundle_lines(bundle, len(routing.in_run[index]))
    above = [line for text in texts for line in shortened(text, width_mm, most=2)]
    for text in cover_texts(run, bundle):
        above += shortened(text, width_mm, most=_COVER_LINES)
    splices = _splices(harness, index)
    shown = splices[:MOST_SPLICES] if len(splices) > MOST_SPLICES else splices
    more = len(splices) - len(shown)
    below = shortened(f"and {more} more splices", width_mm) if more else []
    around = surroundings(run)
    below += shortened(around, width_mm, most=_BELOW_LINES) if around else []
    length = format_length(run.length_mm) if run.length_mm is not None else "length unknown"
    return RunWords(tuple(above), length, tuple(shown), more, tuple(below))


def bundle_lines(bundle: Bundle, wires: int) -> list[str]:
    """Return what is written of a bundle: its diameter, and how far that is verified."""
    count = f"{wires} wire" + ("" if wires == 1 else "s")
    if not bundle.members:
        return ["no wire known here"]
    if bundle.diameter_mm is None:
        return ["Ø unknown", count]
    size = f"{bundle.diameter_mm:.1f} mm"
    if bundle.verified:
        return [f"Ø {size}", count]
    return [f"Ø > {size}", "not verified", count]


def cover_texts(run: Run, bundle: Bundle) -> list[str]:
    """Return the covering and the inside diameter that it needs: the bundle's, with no allowance for filling.

    Common practice, no source: no covering sizes are held, so the least inside is written, never a trade size."""
    if run.cover is None:
        return ["covering not stated"]
    if bundle.diameter_mm is None or "tape" in run.cover.casefold():
        return [run.cover]
    sign = "≥" if bundle.verified else ">"
    return [run.cover, f"inside {sign}{TOGETHER}{bundle.diameter_mm:.1f}{TOGETHER}mm"]


def surroundings(run: Run) -> str:
    """Return what a run passes through and how warm it gets, as written under it."""
    parts = []
    if run.hole_mm is not None:
        rim = {True: "grommet", False: "no grommet", None: "grommet?"}[run.grommet]
        parts.append(f"hole {format_length(run.hole_mm)}, {rim}")
    elif run.grommet is not None:
        parts.append("grommet" if run.grommet else "no grommet")
    if run.warm_c is not None:
        parts.append(f"up to {format_celsius(run.warm_c)}")
    return ", ".join(parts)


def _splices(harness: Harness, index: int) -> Sequence[OnRun]:
    """The splices on a run, those nearest to their datum first."""
    run = harness.runs[index]
    found = []
    for splice in harness.splices.values():
        on_run = splice_spot(harness, splice)
        if on_run is None or on_run.spot is None or on_run.spot.run != index or splice.between is None:
            continue
        from_a = splice.between[0] == run.a
        known = splice.after_mm is not None and on_run.trouble != "beyond"
        after = format_length(splice.after_mm) if splice.after_mm is not None else "?"
        share = _share(splice.after_mm if known else None, run.length_mm)
        found.append(OnRun(splice.name, from_a, f"{splice.name} {after}", share if from_a else 1 - share))
    return sorted(found, key=lambda one: one.share if one.from_a else 1 - one.share)


def _share(after_mm: float | None, length_mm: float | None) -> float:
    """How far along the run from its datum a splice is drawn: the middle where nobody knows."""
    if after_mm is None or not length_mm:
        return 0.5
    return min(after_mm / length_mm, 1.0)
