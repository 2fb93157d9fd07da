"""Islands against the whole circuit settled at once.

What is asked: with all other devices at rest, an island's own branches (those on no other island's way) carry what the
whole circuit says, and its relays stand alike, but for what the others draw: within 15 % and 20 mA, as long as that
does not pull a source down by more than half a volt. And no state of the whole has more in a branch than `worst`."""

from __future__ import annotations

from functools import cache
from math import isnan
from random import Random

import pytest

from harnessdoc.electrics.islands import MOST_STATES
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.settle import Plant, Settled
from harnessdoc.electrics.study import Studied, Study, build_study
from harnessdoc.model.harness import Harness
from harnessdoc.routing.routing import route_harness
from tests.electrics.random_harness import random_harness
from tests.published.spice_cases import read, worked

SEEDS = range(20)
SHARE, AMPS, SAG_V = 0.15, 0.02, 0.5


@cache
def files() -> dict[str, Harness]:
    return worked()


def harness_named(name: str) -> Harness:
    if name in files():
        return files()[name]
    seed = int(name)
    return read(random_harness(seed, diodes=seed % 4 == 3, steady=seed % 5 == 4))


@cache
def study_of(name: str) -> Study:
    harness = harness_named(name)
    return build_study(build_network(harness), route_harness(harness))


NAMES = [*files(), *map(str, SEEDS)]


def own_alone(study: Study, studied: Studied) -> frozenset[int]:
    others = (other.island.way for other in study.studied if other is not studied)
    return studied.island.own - frozenset().union(*others)


def sags(study: Study, alone: Settled, whole: Settled) -> bool:
    """Whether the other islands pull a source down."""
    plus = [b.a for b in study.circuit.branches if b.sort == "source" and b.gate is None]
    return any(abs(alone.volts[node] - whole.volts[node]) > SAG_V for node in plus)


@pytest.mark.parametrize("name", NAMES)
def test_an_island_alone_does_what_it_does_in_the_whole(name: str) -> None:
    study, random = study_of(name), Random(name)
    circuit, whole = study.circuit, Plant(study.circuit)
    rest = {device: positions[0] for device, positions in circuit.devices.items()}
    for studied in study.studied:
        own = own_alone(study, studied)
        gates = {gate.device for index in own if (gate := circuit.branches[index].gate)}
        for state, alone in random.sample(studied.outcomes, min(len(studied.outcomes), 12)):
            full = whole.settle(rest | state)
            if sags(study, alone, full):
                continue
            assert bool(alone.cycle) == bool(full.cycle), (studied.island.name, state)
            if alone.cycle:
                continue
            assert {d: alone.positions.get(d) for d in gates} == {d: full.positions.get(d) for d in gates}, state
            for index in own:
                mine, theirs = alone.amps[index], full.amps[index]
                allowed = AMPS + SHARE * max(abs(mine), abs(theirs))
                assert abs(mine - theirs) <= allowed, (circuit.branches[index].name, mine, theirs, state)


@pytest.mark.parametrize("name", NAMES)
def test_no_state_of_the_whole_has_more_than_the_worst(name: str) -> None:
    """But for signals: what others draw shifts their ground. 0.1 per mille for the same reason elsewhere."""
    study, random = study_of(name), Random(name)
    circuit, whole = study.circuit, Plant(study.circuit)
    signals = {i for i, b in enumerate(circuit.branches) if b.sort in ("signal", "input")}
    for _ in range(200 if name == "sample" else 25):
        full = whole.settle({device: random.choice(positions) for device, positions in circuit.devices.items()})
        if full.cycle:
            continue
        for index, amps in enumerate(full.amps):
            worst = study.worst[index].amps
            allowed = worst + 1e-3 if index in signals or worst < 1e-3 else worst * 1.0001 + 1e-9
            assert abs(amps) <= allowed, (circuit.branches[index].name, amps, study.worst[index])


@pytest.mark.parametrize("name", NAMES)
def test_every_branch_has_one_home(name: str) -> None:
    """All but wires among the returns, which no island owns, and branches that join a node with itself."""
    study = study_of(name)
    owned = [index for studied in study.studied for index in studied.island.own]
    assert len(owned) == len(set(owned))
    for index in set(range(len(study.circuit.branches))) - set(owned):
        branch = study.circuit.branches[index]
        assert branch.a == branch.b or branch.sort in ("wire", "source", "contact", "fuse", "drive"), branch


HEAD = "harness: {title: t, number: N}\n"


def test_a_second_source_reaches_past_an_open_isolator() -> None:
    """A charger behind the isolator feeds the lamp while the isolator is off: 13.5 V over 0.5 + 12 ohm is 1.08 A."""
    text = (
        HEAD
        + """
items:
  G1: {is: battery, volts: 12.6 V}
  G2: {is: source, volts: 13.5 V, inner resistance: 0.5 ohm}
  S1: {is: switch, contacts: {"1-2": on}}
  R1: {is: resistor, ohms: 12 ohm}
wires:
  W1: {from: 'G1:+', to: 'S1:1', size: 25 mm2, length: 10 mm}
  W2: {from: 'S1:2', to: 'R1:1', size: 25 mm2, length: 10 mm}
  W3: {from: 'G2:+', to: 'R1:1', size: 25 mm2, length: 10 mm}
  W4: {from: 'G2:-', to: 'G1:-', size: 25 mm2, length: 10 mm}
  W5: {from: 'R1:2', to: 'G1:-', size: 25 mm2, length: 10 mm}
"""
    )
    harness = read(text)
    study = build_study(build_network(harness), route_harness(harness))
    (index,) = study.by_part["R1"]
    off = [settled for state, settled in study.outcomes_of("R1") if state["S1"] == "off"]
    assert [settled.amps[index] for settled in off] == [pytest.approx(1.08, rel=1e-3)]


def test_forty_switches_in_one_island_are_not_settled() -> None:
    """A ladder that no single point parts."""
    switches = "".join(f"  S{n}: {{is: switch, contacts: {{'1-2': on}}}}\n" for n in range(40))
    rungs = "".join(
        f"  A{n}: {{from: 'S{n}:2', to: 'S{n + 1}:1', size: 1 mm2, length: 1 m}}\n"
        f"  B{n}: {{from: 'S{n}:1', to: 'S{n + 1}:2', size: 1 mm2, length: 1 m}}\n"
        for n in range(39)
    )
    harness = read(f"""{HEAD}
items:
  G1: {{is: battery, volts: 12.6 V}}
  R1: {{is: resistor, ohms: 12 ohm}}
{switches}wires:
  W1: {{from: 'G1:+', to: 'S0:1', size: 1 mm2, length: 1 m}}
  W2: {{from: 'S39:2', to: 'R1:1', size: 1 mm2, length: 1 m}}
  W3: {{from: 'R1:2', to: 'G1:-', size: 1 mm2, length: 1 m}}
{rungs}""")
    study = build_study(build_network(harness), route_harness(harness))
    assert MOST_STATES < 2**40
    assert {island.states for island in study.too_many} == {2**40}
    assert "R1" not in {study.circuit.branches[index].part for index in study.worst}


def test_a_load_without_return_has_an_island_and_floats() -> None:
    text = (
        HEAD
        + """
items: {G1: {is: battery, volts: 12.6 V}, M1: {is: load, ohms: 6 ohm}, M2: {is: load, ohms: 6 ohm}}
splices: {J1: {}, J2: {}}
wires:
  W1: {from: 'G1:+', to: 'M1:1', size: 1 mm2, length: 1 m}
  W2: {from: 'M1:2', to: J1, size: 1 mm2, length: 1 m}
  W3: {from: J2, to: 'M2:1', size: 1 mm2, length: 1 m}
"""
    )
    harness = read(text)
    study = build_study(build_network(harness), route_harness(harness))
    for part in ("M1", "M2"):
        ((_, settled),) = study.outcomes_of(part)
        (index,) = study.by_part[part]
        assert settled.amps[index] == 0.0
        assert isnan(study.across(index, settled)) or part == "M1"
    worst = study.worst_of_part("M2")
    assert worst is not None
    assert worst.amps == 0.0
