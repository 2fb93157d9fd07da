"""The shortest way between two places along the runs, be they a tree or closed in loops. Knows no wires."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from harnessdoc.model.harness import Run

_Cost = tuple[int, float, int, tuple[int, ...]]


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
