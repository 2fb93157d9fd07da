"""Trees of runs for the board's tests, made from a seed, and the exact distance of two laid lines."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import numpy as np

from harnessdoc.drawing.board.path import Path, Point
from harnessdoc.model.harness import Harness, Place, Run, Title


def runs_only(*runs: Run) -> Harness:
    """A harness of places and runs, with nothing in them."""
    names = dict.fromkeys(name for run in runs for name in (run.a, run.b))
    return Harness(Title("Runs only", "R-1"), {name: Place(name) for name in names}, runs)


def random_tree(seed: int, places: int) -> Harness:
    """A tree of places with runs of 60 mm to 2.5 m."""
    dice = random.Random(seed)
    runs = [
        Run(f"p{dice.randrange(max(0, number - 4), number)}", f"p{number}", float(dice.randrange(60, 2500)))
        for number in range(1, places)
    ]
    return runs_only(*runs)


def flattened(path: Path, step_mm: float = 4.0) -> list[Point]:
    """Points along a line, close enough for distances within 0.1 mm on bends of 40 mm."""
    steps = max(1, math.ceil(path.length_mm / step_mm))
    return [path.at(path.length_mm * step / steps)[:2] for step in range(steps + 1)]


def crossings(one: list[Point], other: list[Point]) -> list[Point]:
    """Where two lines of points properly cross."""
    found: list[Point] = []
    if nearest_mm(one, other) > 5.0:
        return found
    for a, b in pairwise(one):
        for c, d in pairwise(other):
            if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
                continue
            if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
                continue
            if _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0:
                found.append(a)
    return found


def _side(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def nearest_mm(one: list[Point], other: list[Point]) -> float:
    """The least distance between the points of one line and another, taken point by point."""
    if not one or not other:
        return math.inf
    return float(np.min(np.hypot(*(np.array(one)[:, None] - np.array(other)[None]).transpose(2, 0, 1))))
