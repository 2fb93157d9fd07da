"""The shortest way between two places, or spots on runs, be they a tree or closed in loops. Knows no wires."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

from harnessdoc.model.harness import Run

_Cost = tuple[int, float, int, tuple[int, ...]]


class Spot(NamedTuple):
    """A spot on a run, by the run's index; its distance from the run's first end in mm, None if unknown."""

    run: int
    from_a_mm: float | None = None


class Way(NamedTuple):
    """The runs that are passed, in order, and how much of each, mm (None where nobody knows)."""

    runs: tuple[int, ...] = ()
    shares_mm: tuple[float | None, ...] = ()

    @property
    def length_mm(self) -> float | None:
        """The sum of the shares; None where one is unknown, or where no run is passed."""
        known = [share for share in self.shares_mm if share is not None]
        return sum(known) if known and len(known) == len(self.shares_mm) else None


class Ways:
    """Shortest ways over one harness's runs; each place's ways are found once and kept."""

    def __init__(self, runs: Sequence[Run]) -> None:
        """Take the runs; a run is named by its index here. A run from a place to itself leads nowhere."""
        self.runs = tuple(runs)
        self._at: dict[str, list[tuple[int, str]]] = {}
        for index, run in enumerate(self.runs):
            if run.a != run.b:
                self._at.setdefault(run.a, []).append((index, run.b))
                self._at.setdefault(run.b, []).append((index, run.a))
        self._known: dict[str, dict[str, tuple[int, ...]]] = {}

    def way(self, a: str | Spot, b: str | Spot) -> Way | None:
        """Return the way from a place or spot to another, None if nothing joins them.

        Of several the one with the fewest unknown lengths, then the shortest, as in `between`.
        """
        if isinstance(a, str) and isinstance(b, str):
            return self._whole(self.between(a, b))
        ways = list(self._from_spots(a, b))
        return min(ways, key=_cost_of, default=None)

    def between(self, a: str, b: str) -> tuple[int, ...] | None:
        """Return the indices of the runs from `a` to `b` in order, () within one place, None if nothing joins them.

        Where two ways lead there, the one with fewer runs of unknown length wins, then the shorter, then the one
        with fewer runs, then the one whose runs come first in the file.
        """
        if a == b:
            return ()
        if a not in self._known:
            self._known[a] = self._from(a)
        return self._known[a].get(b)

    def _whole(self, runs: tuple[int, ...] | None) -> Way | None:
        return None if runs is None else Way(runs, tuple(self.runs[run].length_mm for run in runs))

    def _from_spots(self, a: str | Spot, b: str | Spot) -> Iterator[Way]:
        if isinstance(a, Spot) and isinstance(b, Spot) and a.run == b.run:
            share = _difference(a.from_a_mm, b.from_a_mm)
            yield Way((a.run,), (share,)) if share != 0 else Way()
        for (leaving, out), (entering, into) in product(self._ends(a), self._ends(b)):
            middle = self._whole(self.between(leaving, entering))
            if middle is None:
                continue
            runs = (*out.runs, *middle.runs, *into.runs)
            if len(set(runs)) == len(runs):
                yield Way(runs, (*out.shares_mm, *middle.shares_mm, *into.shares_mm))

    def _ends(self, at: str | Spot) -> Iterator[tuple[str, Way]]:
        """The places from which one leaves for the net of runs, with the share of the own run up to there."""
        if isinstance(at, str):
            yield at, Way()
            return
        run = self.runs[at.run]
        rest = _difference(run.length_mm, at.from_a_mm)
        for place, share in ((run.a, at.from_a_mm), (run.b, rest)):
            yield place, Way((at.run,), (share,)) if share != 0 else Way()

    def _from(self, start: str) -> dict[str, tuple[int, ...]]:
        """All ways from one place (Dijkstra); costs add up run by run, so the order above holds throughout."""
        reached: dict[str, tuple[int, ...]] = {}
        waiting: list[tuple[_Cost, str]] = [((0, 0.0, 0, ()), start)]
        while waiting:
            (unknown, length_mm, count, way), place = heapq.heappop(waiting)
            if place in reached:
                continue
            reached[place] = way
            for index, other in self._at.get(place, ()):
                if other in reached:
                    continue
                run_mm = self.runs[index].length_mm
                cost = (
                    unknown + (run_mm is None),
                    length_mm + (run_mm or 0.0),
                    count + 1,
                    (*way, index),
                )
                heapq.heappush(waiting, (cost, other))
        return reached


def _difference(a: float | None, b: float | None) -> float | None:
    return None if a is None or b is None else abs(a - b)


def _cost_of(way: Way) -> _Cost:
    unknown = sum(share is None for share in way.shares_mm)
    return unknown, sum(share or 0.0 for share in way.shares_mm), len(way.runs), way.runs
