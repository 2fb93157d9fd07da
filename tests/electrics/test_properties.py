"""What holds for any circuit of one source and resistors, and for any harness read again."""

from __future__ import annotations

from dataclasses import replace
from math import isnan
from random import Random

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.electrics.circuit import Branch, Circuit
from harnessdoc.electrics.settle import Plant, Settled
from tests.electrics.circuits import plant_of, volts
from tests.electrics.random_harness import random_harness

SEEDS = st.integers(0, 10**9)


def resistors(seed: int) -> Circuit:
    """A random circuit: node 0 the return, node 1 the feed of 12 V behind 0.01 ohm, the rest resistors."""
    random = Random(seed)
    nodes = random.randrange(2, 14)
    ends = [tuple(random.sample(range(nodes), 2)) for _ in range(random.randrange(1, 2 * nodes + 2))]
    branches = [Branch(1, 0, 0.01, "G1", "G1", "source", 12.0)]
    branches += [Branch(a, b, 10.0 ** random.uniform(-4, 4), f"R{n}", f"R{n}", "load") for n, (a, b) in enumerate(ends)]
    return Circuit({}, nodes, tuple(branches), {}, (), (0,))


def settled(circuit: Circuit) -> Settled:
    return Plant(circuit).settle({})


@settings(max_examples=200, deadline=None)
@given(SEEDS, st.data())
def test_one_conductor_more_never_lowers_the_sources_current(seed: int, data: st.DataObject) -> None:
    circuit = resistors(seed)
    a = data.draw(st.integers(0, circuit.nodes - 1))
    b = data.draw(st.integers(0, circuit.nodes - 1))
    more = Branch(a, b, data.draw(st.floats(1e-4, 1e4)), "R", "R", "load")
    before = -settled(circuit).amps[0]
    after = -settled(replace(circuit, branches=(*circuit.branches, more))).amps[0]
    assert after >= before - 1e-9 * max(1.0, before)


@settings(max_examples=200, deadline=None)
@given(SEEDS)
def test_currents_sum_to_nothing_at_each_node(seed: int) -> None:
    circuit = resistors(seed)
    found = settled(circuit)
    sums, sizes = [0.0] * circuit.nodes, [1e-9] * circuit.nodes
    for branch, amps in zip(circuit.branches, found.amps, strict=True):
        for node, sign in ((branch.a, -1), (branch.b, 1)):
            sums[node] += sign * amps
            sizes[node] += 12 * 1e-15 / branch.ohm + abs(amps) * 1e-9
    assert all(abs(total) <= size for total, size in zip(sums, sizes, strict=True))


@settings(max_examples=100, deadline=None)
@given(SEEDS, st.floats(1e-2, 1e2))
def test_scaling_all_resistances_scales_currents_inversely(seed: int, factor: float) -> None:
    circuit = resistors(seed)
    scaled = replace(circuit, branches=tuple(b._replace(ohm=b.ohm * factor) for b in circuit.branches))
    one, other = settled(circuit), settled(scaled)
    floats = [isnan(v) for v in one.volts]
    assert floats == [isnan(v) for v in other.volts]
    known = [node for node, floating in enumerate(floats) if not floating]
    assert [other.volts[n] for n in known] == pytest.approx([one.volts[n] for n in known], rel=1e-9, abs=1e-12)
    assert other.amps[0] * factor == pytest.approx(one.amps[0], rel=1e-6, abs=1e-9 * factor)


@settings(max_examples=100, deadline=None)
@given(SEEDS, st.floats(1e-3, 1e3))
def test_two_in_parallel_are_one(seed: int, ohm: float) -> None:
    circuit = resistors(seed)
    first = circuit.branches[1]
    beside = replace(circuit, branches=(*circuit.branches, first._replace(ohm=ohm)))
    merged_ohm = 1 / (1 / first.ohm + 1 / ohm)
    merged = replace(circuit, branches=(circuit.branches[0], first._replace(ohm=merged_ohm), *circuit.branches[2:]))
    assert list(settled(beside).volts) == pytest.approx(list(settled(merged).volts), rel=1e-9, abs=1e-12, nan_ok=True)


@pytest.mark.parametrize("seed", range(10))
def test_a_harness_written_read_and_solved_again_is_equal(seed: int) -> None:
    """Written by PyYAML, with keys in another order: the same voltage at every point, in three states."""
    text = random_harness(seed)
    parsed = yaml.load(text, Loader=yaml.BaseLoader)
    turned = {section: dict(reversed(list(parts.items()))) for section, parts in parsed.items()}
    first, again = plant_of(text), plant_of(yaml.safe_dump(turned, sort_keys=False))
    random = Random(seed)
    for _ in range(3):
        state = {device: random.choice(positions) for device, positions in first.circuit.devices.items()}
        one, two = first.settle(state), again.settle(state)
        if one.cycle:
            continue
        assert one.positions == two.positions
        battery = next(str(point) for point in first.circuit.node if point.owner == "G1" and point.terminal == "-")
        for point in first.circuit.node:
            mine, theirs = (volts(p, s, str(point), battery) for p, s in ((first, one), (again, two)))
            assert mine == pytest.approx(theirs, rel=1e-9, abs=1e-9, nan_ok=True), point
