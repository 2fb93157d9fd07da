"""From a harness text to its circuit, its plant and its study, for tests."""

from __future__ import annotations

from harnessdoc.electrics.assemble import build_circuit
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.settle import Plant, Settled
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.model.points import parse_point
from harnessdoc.routing.routing import route_harness
from tests.published.spice_cases import read

HEAD = "harness: {title: t, number: N}\n"
BATTERY = "  G1: {is: battery, volts: 12 V, inner resistance: 0.001 ohm}\n"


def text_of(items: str, wires: str, splices: str = "") -> str:
    """A harness file; `wires`: one a line as `A B`, each 10 mm of 25 mm², next to nothing; `splices`: names."""
    lines = [line.split() for line in wires.split("\n") if line.strip()]
    named = "".join(f"  {name}: {{}}\n" for name in splices.split())
    body = "".join(
        f"  W{n}: {{from: '{a}', to: '{b}', size: 25 mm2, length: 10 mm}}\n" for n, (a, b) in enumerate(lines, 1)
    )
    return f"{HEAD}items:\n{BATTERY}{items}wires:\n{body}" + (f"splices:\n{named}" if named else "")


def plant_of(text: str) -> Plant:
    """The whole circuit of a text."""
    harness = read(text)
    return Plant(build_circuit(build_network(harness), route_harness(harness)))


def study_of(text: str) -> Study:
    """The study of a text."""
    harness = read(text)
    return build_study(build_network(harness), route_harness(harness))


def volts(plant: Plant, settled: Settled, a: str, b: str = "G1:-") -> float:
    """Voltage of one point over another."""
    node = plant.circuit.node
    return settled.volts[node[parse_point(a)]] - settled.volts[node[parse_point(b)]]


def amps(plant: Plant, settled: Settled, part: str) -> float:
    """The largest current in a part, by size."""
    found = [settled.amps[i] for i, branch in enumerate(plant.circuit.branches) if branch.part == part]
    return max(map(abs, found))
