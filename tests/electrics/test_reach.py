"""What is live equals reachability, in a graph of networkx that is built from the harness by other code.

A part carries current in a state if and only if it lies on a way from one side of something that gives a voltage to
its other side and not through one node twice: they share a block of the graph. Items and contacts in that graph come
from tests/published/spice.py. Where only a sensor's signal gives a voltage, and not a source or a regulator, nanovolts
along the returns are what is left for most of a block: there it is only asked that nothing else carries current.
Currents between 1 nA and 1 µA count as neither."""

from __future__ import annotations

from itertools import islice
from math import isnan

import networkx as nx
import pytest

from harnessdoc.electrics.settle import Plant, Settled
from harnessdoc.model.harness import Harness
from tests.electrics.circuits import plant_of
from tests.electrics.random_harness import random_harness
from tests.published.spice import Deck, Export
from tests.published.spice_cases import plant_of as plant_of_harness
from tests.published.spice_cases import read, some_states, worked

NOTHING_A, SOMETHING_A = 1e-9, 1e-6


def carrying(harness: Harness, positions: dict[str, str]) -> tuple[set[str], set[str], set[str]]:
    """Parts that carry current, those that carry a source's or regulator's, and all parts: by blocks of a graph in
    which each part is a node between two."""
    export, deck = Export(harness), Deck()
    parts = [(wire.name, part) for wire in harness.wires.values() for part in export.wire_part(wire)]
    for item in harness.items.values():
        parts += [(item.name, part) for part in export.item_parts(item, positions, deck)]
    graph: nx.Graph[str] = nx.Graph()
    giving, strong, middle_of = set(), set(), {}
    for number, (name, (sort, a, b, value)) in enumerate(parts):
        if a == b:
            continue
        middle = f"part {number}"
        middle_of[middle] = name
        graph.add_edge(a, middle)
        graph.add_edge(middle, b)
        if sort == "E" and float(value.split()[0]):
            giving.add(middle)
            if harness.items[name].kind.name != "sensor":
                strong.add(middle)
        if "F" in value:
            ends = value.split()[3:]
            middle_of[f"{middle} in"] = name
            graph.add_edge(ends[0], f"{middle} in")
            graph.add_edge(f"{middle} in", ends[1])
    live: set[str] = set()
    sure: set[str] = set()
    for block in nx.biconnected_components(graph):
        if giving & block and len(block) > 2:
            named = {middle_of[node] for node in block if node in middle_of}
            live |= named
            sure |= named if strong & block else set()
    return live, sure, set(middle_of.values())


def hold(harness: Harness, plant: Plant, settled: Settled, name: str) -> int:
    """Compare one state; returns how many parts were compared."""
    live, sure, known = carrying(harness, dict(settled.positions))
    compared = 0
    most: dict[str, float] = {}
    for branch, amps in zip(plant.circuit.branches, settled.amps, strict=True):
        if not isnan(amps):
            most[branch.part] = max(most.get(branch.part, 0.0), abs(amps))
    for part in known:
        if NOTHING_A < most[part] < SOMETHING_A:
            continue
        carries = most[part] >= SOMETHING_A
        assert part in live or not carries, (name, part, most[part])
        assert carries or part not in sure, (name, part, most[part])
        compared += 1
    return compared


@pytest.mark.parametrize("name", [*(n for n in worked() if n != "reversing pair"), *map(str, range(300, 325))])
def test_what_is_live_is_what_can_be_reached(name: str) -> None:
    """In six states each. Not the reversing pair: between equal sides a motor is reached and carries none."""
    harness = worked()[name] if not name.isdigit() else read(random_harness(int(name)))
    plant = plant_of_harness(harness)
    compared = 0
    for state in islice(some_states(plant.circuit.devices, 7), 6):
        settled = plant.settle(state)
        if not settled.cycle:
            compared += hold(harness, plant, settled, f"{name} {state}")
    assert compared > 3


def test_the_comparison_can_fail() -> None:
    text = random_harness(300)
    harness, plant = read(text), plant_of(text)
    state = next(some_states(plant.circuit.devices, 0))
    wrong = plant.settle(state)._replace(amps=[0.0] * len(plant.circuit.branches))
    with pytest.raises(AssertionError):
        hold(harness, plant, wrong, "all dead")
