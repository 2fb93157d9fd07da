"""Draws a run on the overview: its bundle with its covering, its splices and dimensions. Knows words, no harness."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from harnessdoc.drawing import marks
from harnessdoc.drawing.run_words import TIER_MM, OnRun, RunWords
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import BLACK, WHITE, Page

_BUNDLE_MM: Final = (2.2, 1.5)  # outer and inner width of a bundle's double line
DIMENSION_MM: Final = 5.5  # from the bundle to its dimension line
_DOT_MM: Final = 1.6
_END_MM: Final = 6.5  # least way from a run's end to a splice: room for two arrowheads
_COVER_TICKS: Final = (("tape", (0.2, 0.7)), ("", (0.3, 1.7)))  # dashes across the bundle; the last for all else


def draw_above(page: Page, gap: Rect, lines: Sequence[str], lift_mm: float = 0.0) -> None:
    """Write lines over the bundle in the gap between two plates."""
    y = gap.y - 2.6 - lift_mm - STEP_MM * (len(lines) - 1)
    page.lines(gap.x + gap.width / 2, y, lines, TEXT_MM, anchor="middle")


def draw_run_words(page: Page, gap: Rect, said: RunWords, a_left: bool) -> None:
    """Write and dimension a run in its gap; `a_left`: its first end is on the left."""
    draw_above(page, gap, said.above, STEP_MM if said.splices else 0.0)
    places = _dots(said.splices, gap, a_left)
    for tier, (splice, x) in enumerate(zip(said.splices, places, strict=True)):
        _draw_splice(page, gap, splice, x, gap.y + 3.6 + TIER_MM * tier, splice.from_a == a_left)
    y = gap.y + DIMENSION_MM + TIER_MM * len(said.splices)
    marks.dimension(page, gap.x, gap.right, y, said.length)
    page.lines(gap.x + gap.width / 2, y + 4, said.below, TEXT_MM, anchor="middle")


def _dots(splices: Sequence[OnRun], gap: Rect, a_left: bool) -> list[float]:
    """Where splices are drawn on a run: in order and apart, as near to their share as that leaves."""
    if not splices:
        return []
    shares = [one.share if a_left else 1 - one.share for one in splices]
    order = sorted(range(len(splices)), key=lambda index: shares[index])
    apart = min((gap.width - 2 * _END_MM) / max(len(splices) - 1, 1), _END_MM)
    wanted = [gap.x + _END_MM + (gap.width - 2 * _END_MM) * shares[index] for index in order]
    for index in range(1, len(wanted)):
        wanted[index] = max(wanted[index], wanted[index - 1] + apart)
    limit = gap.right - _END_MM
    for index in range(len(wanted) - 1, -1, -1):
        wanted[index] = min(wanted[index], limit)
        limit = wanted[index] - apart
    places = dict(zip(order, wanted, strict=True))
    return [places[index] for index in range(len(splices))]


def _draw_splice(page: Page, gap: Rect, splice: OnRun, x: float, y: float, from_left: bool) -> None:
    """A dot on the bundle, and under it the dimension from its datum with its text below."""
    with page.group(f"splice-{splice.name}", f"splice {splice.name}", desc=splice.words):
        page.circle(x, gap.y, _DOT_MM, fill=BLACK, stroke=WHITE, stroke_mm=0.25)
        marks.dimension_line(page, gap.x if from_left else gap.right, x, y)
        words = lettering.fit(splice.words, gap.width - 1, TEXT_MM)
        at = gap.x + 0.5 if from_left else gap.right - 0.5
        page.text(at, y + 1.0 + TEXT_MM, words, TEXT_MM, anchor="start" if from_left else "end")


def draw_bundle(page: Page, points: Sequence[tuple[float, float]], cover: str | None) -> None:
    """A double line, with ticks across it where the bundle is covered."""
    page.polyline(points, stroke_mm=_BUNDLE_MM[0], join="round")
    page.polyline(points, stroke=WHITE, stroke_mm=_BUNDLE_MM[1], join="round")
    if cover:
        ticks = next(dash for word, dash in _COVER_TICKS if word in cover.lower())
        for leg in pairwise(points):  # each by itself: a dash round a corner would be a blot
            page.polyline(leg, stroke=BLACK, stroke_mm=_BUNDLE_MM[1], dash=ticks)
