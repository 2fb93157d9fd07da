"""Elimination against numpy's linear solver, and by its own laws."""

from __future__ import annotations

from fractions import Fraction
from math import isnan
from random import Random
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.electrics.elimination import plan

Network = tuple[int, list[tuple[int, int]], list[float], list[float], list[float]]


def network(seed: int, most: int = 24) -> Network:
    """A random network, in one piece and grounded: nodes, pairs, conductances over twelve decades, ground, currents."""
    random = Random(seed)
    nodes = random.randrange(1, most + 1)
    pairs = [(random.randrange(node), node) for node in range(1, nodes)]
    pairs += [(random.randrange(nodes), random.randrange(nodes)) for _ in range(random.randrange(nodes + 3))]
    conductances = [10.0 ** random.uniform(-6, 6) for _ in pairs]
    ground = [10.0 ** random.uniform(-6, 6) if random.random() < 0.2 else 0.0 for _ in range(nodes)]
    ground[0] += 1.0
    currents = [random.uniform(-1, 1) if random.random() < 0.5 else 0.0 for _ in range(nodes)]
    return nodes, pairs, conductances, ground, currents


def by_numpy(
    nodes: int, pairs: list[tuple[int, int]], g: list[float], ground: list[float], amps: list[float]
) -> tuple[Any, float]:
    """Node voltages by the conductance matrix, and its condition number."""
    matrix = np.diag(np.array(ground, dtype=np.float64))
    for (a, b), value in zip(pairs, g, strict=True):
        if a != b:
            matrix[[a, b], [a, b]] += value
            matrix[[a, b], [b, a]] -= value
    return np.linalg.solve(matrix, np.array(amps)), float(np.linalg.cond(matrix))


@pytest.mark.parametrize("seed", range(150))
def test_equals_numpy_as_far_as_numpy_is_good(seed: int) -> None:
    """A matrix takes differences: it is right to about its condition number times 1e-16, 1e-9 at best is asked."""
    nodes, pairs, g, ground, amps = network(seed)
    expected, condition = by_numpy(nodes, pairs, g, ground, amps)
    keep = set(Random(seed).sample(range(nodes), nodes // 2)) if seed % 2 else None
    found = np.array(plan(nodes, pairs, keep).solve(g, ground, amps))
    allowed = max(1e-9, 10 * condition * np.finfo(float).eps)
    assert np.abs(found - expected).max() <= allowed * np.abs(expected).max()


@pytest.mark.parametrize("seed", range(60))
def test_equals_exact_fractions_to_twelve_digits(seed: int) -> None:
    """Over twelve decades, where floating point on the matrix has nothing left; currents inwards only."""
    nodes, pairs, g, ground, amps = network(seed, most=10)
    amps = [abs(one) for one in amps]
    expected = by_fractions(nodes, pairs, g, ground, amps)
    keep = set(Random(seed).sample(range(nodes), nodes // 2)) if seed % 2 else None
    found = plan(nodes, pairs, keep).solve(g, ground, amps)
    assert found == pytest.approx([float(one) for one in expected], rel=1e-12)


def by_fractions(
    nodes: int, pairs: list[tuple[int, int]], g: list[float], ground: list[float], amps: list[float]
) -> list[Fraction]:
    """Gauss and Jordan without rounding."""
    rows = [[Fraction(0)] * nodes + [Fraction(into)] for into in amps]
    for node in range(nodes):
        rows[node][node] += Fraction(ground[node])
    for (a, b), value in zip(pairs, g, strict=True):
        if a != b:
            for one, other in ((a, b), (b, a)):
                rows[one][one] += Fraction(value)
                rows[one][other] -= Fraction(value)
    for at in range(nodes):
        pivot = next(row for row in range(at, nodes) if rows[row][at])
        rows[at], rows[pivot] = rows[pivot], rows[at]
        rows[at] = [value / rows[at][at] for value in rows[at]]
        for row in range(nodes):
            if row != at and rows[row][at]:
                rows[row] = [mine - rows[row][at] * theirs for mine, theirs in zip(rows[row], rows[at], strict=True)]
    return [row[-1] for row in rows]


def test_a_milliohm_beside_a_megohm_costs_no_digits() -> None:
    """1 A into 1 Mohm to ground through a milliohm: 1e6 V and 1e6 + 0.001 V, by hand."""
    low, high = plan(2, [(0, 1)]).solve([1e3], [1e-6, 0.0], [0.0, 1.0])
    assert low == pytest.approx(1e6, rel=1e-15)
    assert high - low == pytest.approx(1e-3, rel=1e-6)


def test_what_hangs_on_nothing_is_not_a_number() -> None:
    volts = plan(4, [(0, 1), (2, 3)]).solve([1.0, 1.0], [1.0, 0, 0, 0], [1.0, 0, 0, 0])
    assert volts[:2] == [1.0, 1.0]
    assert all(isnan(one) for one in volts[2:])


def test_an_open_pair_is_no_path() -> None:
    volts = plan(2, [(0, 1)]).solve([0.0], [1.0, 0.0], [1.0, 0.0])
    assert volts[0] == 1.0
    assert isnan(volts[1])


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.floats(1e-6, 1e6))
def test_one_of_two_in_parallel_may_be_merged(seed: int, more: float) -> None:
    nodes, pairs, g, ground, amps = network(seed)
    if not pairs:
        return
    apart = plan(nodes, [*pairs, pairs[0]]).solve([*g, more], ground, amps)
    merged = plan(nodes, pairs).solve([g[0] + more, *g[1:]], ground, amps)
    assert apart == pytest.approx(merged, rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("nodes", [1_000, 20_000])
def test_a_long_chain_takes_no_time_and_no_depth(nodes: int) -> None:
    """1 A in at the end of n - 1 ohms and one to ground: n volts."""
    pairs = [(node, node + 1) for node in range(nodes - 1)]
    volts = plan(nodes, pairs).solve([1.0] * (nodes - 1), [1.0] + [0.0] * (nodes - 1), [0.0] * (nodes - 1) + [1.0])
    assert volts[-1] == pytest.approx(nodes, rel=1e-9)
    assert volts[0] == pytest.approx(1.0, rel=1e-9)
