"""The harnesses that are held against ngspice: the sample, those of tests/data, worked ones, random ones."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Mapping
from itertools import islice
from pathlib import Path
from random import Random

from harnessdoc.electrics.assemble import build_circuit
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.settle import Plant
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness
from harnessdoc.routing.routing import route_harness
from tests.bench.generated import harness_text
from tests.electrics.random_harness import random_harness
from tests.published.spice import Deck, Export, Row, run

ROOT = Path(__file__).resolve().parents[2]
HEAD = "harness: {title: t, number: N}\n"
G = "G1: {is: battery, volts: 12.6 V, inner resistance: 0.01 ohm}"
WORKED = {
    "one loop": f"""
items: {{{G}, R1: {{is: resistor, ohms: 6 ohm}}}}
wires:
  W1: {{from: 'G1:+', to: 'R1:1', size: 1 mm2, length: 5 m}}
  W2: {{from: 'R1:2', to: 'G1:-', size: 1 mm2, length: 5 m}}
""",
    "bridge with a cross wire": f"""
items: {{{G}, R1: {{is: resistor, ohms: 1 ohm}}, R2: {{is: resistor, ohms: 3 ohm}}, R3: {{is: resistor, ohms: 7 ohm}},
  R4: {{is: resistor, ohms: 2 ohm}}, X1: {{is: terminal strip, ways: 3, joined: all}}}}
wires:
  W1: {{from: 'G1:+', to: 'X1:1', size: 4 mm2, length: 1 m}}
  W2: {{from: 'X1:2', to: 'R1:1', size: 1 mm2, length: 1 m}}
  W3: {{from: 'X1:3', to: 'R2:1', size: 1 mm2, length: 2 m}}
  W4: {{from: 'R1:2', to: 'R3:1', size: 1 mm2, length: 3 m}}
  W5: {{from: 'R2:2', to: 'R4:1', size: 1 mm2, length: 4 m}}
  W6: {{from: 'R1:2', to: 'R2:2', size: 0.5 mm2, length: 5 m}}
  W7: {{from: 'R3:2', to: 'G1:-', size: 2.5 mm2, length: 1 m}}
  W8: {{from: 'R4:2', to: 'G1:-', size: 2.5 mm2, length: 1 m}}
""",
    "two batteries in parallel": f"""
items: {{{G}, G2: {{is: battery, volts: 12.1 V, inner resistance: 0.02 ohm}}, R1: {{is: resistor, ohms: 1 ohm}}}}
wires:
  W1: {{from: 'G1:+', to: 'G2:+', size: 16 mm2, length: 1 m}}
  W2: {{from: 'G1:-', to: 'G2:-', size: 16 mm2, length: 1 m}}
  W3: {{from: 'G2:+', to: 'R1:1', size: 4 mm2, length: 1 m}}
  W4: {{from: 'R1:2', to: 'G1:-', size: 4 mm2, length: 1 m}}
""",
    "a supply of its own": f"""
items: {{{G}, G2: {{is: source, volts: 24 V, inner resistance: 0.1 ohm}}, R1: {{is: resistor, ohms: 6 ohm}},
  R2: {{is: resistor, ohms: 12 ohm}}}}
wires:
  W1: {{from: 'G1:+', to: 'R1:1', size: 1 mm2, length: 1 m}}
  W2: {{from: 'R1:2', to: 'G1:-', size: 1 mm2, length: 1 m}}
  W3: {{from: 'G2:+', to: 'R2:1', size: 1 mm2, length: 1 m}}
  W4: {{from: 'R2:2', to: 'G2:-', size: 1 mm2, length: 1 m}}
""",
    "parallel fuses": f"""
items: {{{G}, F1: {{is: fuse, cold resistance: 0.004 ohm}}, F2: {{is: fuse, cold resistance: 0.009 ohm}},
  M1: {{is: load, watts: 200 W, at: 12 V, case on chassis: true}}, XE: {{is: earth point}}}}
wires:
  W1: {{from: 'G1:+', to: 'F1:1', size: 2.5 mm2, length: 300 mm}}
  W2: {{from: 'G1:+', to: 'F2:1', size: 1.5 mm2, length: 800 mm}}
  W3: {{from: 'F1:2', to: 'M1:1', size: 2.5 mm2, length: 3 m}}
  W4: {{from: 'F2:2', to: 'M1:1', size: 1.5 mm2, length: 3 m}}
  W5: {{from: 'G1:-', to: XE, size: 25 mm2, length: 400 mm}}
""",
    "reversing pair": f"""
items: {{{G}, S1: {{is: switch, contacts: {{"1-2": up, "1-3": down}}}}, M1: {{is: load, ohms: 2 ohm}},
  K1: {{is: relay, coil: {{volts: 12 V, ohms: 80 ohm, pulls at: 8 V, releases at: 1.5 V}}}},
  K2: {{is: relay, coil: {{volts: 12 V, ohms: 80 ohm, pulls at: 8 V, releases at: 1.5 V}}}}}}
splices: {{J1: {{}}, J2: {{}}}}
wires:
  W1: {{from: 'G1:+', to: J1, size: 6 mm2, length: 1 m}}
  W2: {{from: 'G1:-', to: J2, size: 6 mm2, length: 1 m}}
  W3: {{from: J1, to: 'S1:1', size: 1 mm2, length: 2 m}}
  W4: {{from: 'S1:2', to: 'K1:86', size: 1 mm2, length: 2 m}}
  W5: {{from: 'S1:3', to: 'K2:86', size: 1 mm2, length: 2 m}}
  W6: {{from: 'K1:85', to: J2, size: 1 mm2, length: 1 m}}
  W7: {{from: 'K2:85', to: J2, size: 1 mm2, length: 1 m}}
  W8: {{from: J1, to: 'K1:87', size: 4 mm2, length: 1 m}}
  W9: {{from: J1, to: 'K2:87', size: 4 mm2, length: 1 m}}
  W10: {{from: J2, to: 'K1:87a', size: 4 mm2, length: 1 m}}
  W11: {{from: J2, to: 'K2:87a', size: 4 mm2, length: 1 m}}
  W12: {{from: 'K1:30', to: 'M1:1', size: 4 mm2, length: 1 m}}
  W13: {{from: 'K2:30', to: 'M1:2', size: 4 mm2, length: 1 m}}
""",
    "controller and knob": f"""
items: {{{G}, T1: {{is: speed controller, switches: negative}}, R1: {{is: potentiometer, ohms: 10 kohm}},
  M1: {{is: load, amps: 7 A, at: 12 V}}, M2: {{is: load, amps: 7 A, at: 12 V}}}}
wires:
  W1: {{from: 'G1:+', to: 'T1:IN+', size: 2.5 mm2, length: 3 m}}
  W2: {{from: 'G1:-', to: 'T1:IN-', size: 2.5 mm2, length: 3 m}}
  W3: {{from: 'T1:OUT+', to: 'M1:1', size: 1.5 mm2, length: 1 m}}
  W4: {{from: 'T1:OUT-', to: 'M1:2', size: 1.5 mm2, length: 1 m}}
  W5: {{from: 'M1:1', to: 'M2:1', size: 1.5 mm2, length: 1 m}}
  W6: {{from: 'M1:2', to: 'M2:2', size: 1.5 mm2, length: 1 m}}
  W7: {{from: 'T1:OUT+', to: 'R1:1', size: 0.5 mm2, length: 1 m}}
  W8: {{from: 'T1:IN-', to: 'R1:3', size: 0.5 mm2, length: 1 m}}
""",
    "shorted by a switch": f"""
items: {{{G}, S1: {{is: switch, contacts: {{"1-2": on, "1-3": short}}}}, R1: {{is: resistor, ohms: 4 ohm}}}}
wires:
  W1: {{from: 'G1:+', to: 'S1:1', size: 6 mm2, length: 1 m}}
  W2: {{from: 'S1:2', to: 'R1:1', size: 1 mm2, length: 1 m}}
  W3: {{from: 'S1:3', to: 'G1:-', size: 6 mm2, length: 1 m}}
  W4: {{from: 'R1:2', to: 'G1:-', size: 1 mm2, length: 1 m}}
""",
}
"""Small ones, each with something that goes wrong easily."""

MOST_STATES = 6
"""States taken of a harness: all at rest, then at random."""


def read(text: str) -> Harness:
    """A harness from a text."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "harness.yaml").write_text(text, encoding="utf-8")
        return read_harness(Path(folder))


def plant_of(harness: Harness) -> Plant:
    """The whole circuit, undivided."""
    return Plant(build_circuit(build_network(harness), route_harness(harness)))


def some_states(devices: Mapping[str, tuple[str, ...]], seed: int) -> Iterator[dict[str, str]]:
    """All at rest, everything moved, then states at random."""
    random = Random(seed)
    yield {name: positions[0] for name, positions in devices.items()}
    yield {name: positions[1 % len(positions)] for name, positions in devices.items()}
    while devices:
        yield {name: random.choice(positions) for name, positions in devices.items()}


def compare(harnesses: Mapping[str, Harness]) -> Row:
    """Settle some states of each, hand each to ngspice at the settled positions, compare all nodes."""
    row = Row(harnesses=len(harnesses))
    jobs: list[tuple[str, Deck, dict[str, str], dict[object, float]]] = []
    for number, (name, harness) in enumerate(harnesses.items()):
        plant, export = plant_of(harness), Export(harness)
        for state in islice(some_states(plant.circuit.devices, number), MOST_STATES):
            settled = plant.settle(state)
            if settled.cycle:
                row.buzzing += 1
                continue
            positions = dict(settled.positions)
            volts = {point: settled.volts[node] for point, node in plant.circuit.node.items()}
            jobs.append((f"{name} {state}", export.deck(positions, volts), positions, volts))
    for (name, deck, positions, ours), theirs in zip(jobs, run([job[1] for job in jobs]), strict=True):
        row.compare(name, deck, theirs, ours)  # type: ignore[arg-type]
        row.hold_laws(name, deck, theirs)
        row.hold_coils(name, deck, theirs, positions)
    return row


def worked() -> dict[str, Harness]:
    """The sample, those of tests/data and the bench's, and the worked ones."""
    files = {
        "sample": read_harness(ROOT / "sample_harness"),
        "small": read_harness(ROOT / "tests" / "data" / "small"),
        "generated": read(harness_text(60)),
    }
    return files | {name: read(HEAD + text) for name, text in WORKED.items()}


def tables() -> Iterator[tuple[str, Row]]:
    """All comparisons, one row each."""
    yield "worked, linear", compare(worked())
    yield "random, linear", compare({f"random {n}": read(random_harness(n)) for n in range(40)})
    yield (
        "random, constant currents",
        compare({f"random {n}": read(random_harness(n, steady=True)) for n in range(100, 110)}),
    )
    diodes = {f"random {n}": read(random_harness(n, diodes=True)) for n in range(200, 212)}
    yield "random, diodes", compare(diodes)
