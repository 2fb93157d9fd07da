"""Single faults: the classic by hand, and what is found held against the whole circuit settled by brute force."""

from __future__ import annotations

from random import Random

import pytest

from harnessdoc.electrics.faults import Faults, Hunt, is_fault, single_faults
from harnessdoc.electrics.operation import verify
from harnessdoc.electrics.probes import Probe, probe_of
from harnessdoc.electrics.settle import Plant
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Operation
from harnessdoc.reading import read_harness
from tests.electrics.random_harness import Maker
from tests.electrics.written import SAMPLE, TO_RUN, TO_STOP, harness_of, study_from, study_of


def unsafe(text: str) -> dict[str, set[str]]:
    """Sort of fault to its texts, over the lines that fail safe."""
    harness = harness_of(text)
    lines = [line for line in harness.operation if line.fails_safe]
    found: dict[str, set[str]] = {}
    for searched in single_faults(study_of(harness), lines, only_dead=True):
        assert not searched.unverified
        for effect in searched.effects:
            found.setdefault(effect.fault.sort, set()).add(effect.fault.text)
    return found


def test_a_relay_energised_to_stop_runs_on_when_its_wire_breaks() -> None:
    assert unsafe(TO_STOP) == {
        "broken": {"W3 broken", "W4 broken", "W5 broken"},
        "stuck": {"K1 stuck at rest"},
    }


def test_energised_to_run_only_a_welded_contact_is_left() -> None:
    assert unsafe(TO_RUN) == {"stuck": {"K1 stuck pulled"}}


def test_what_stops_a_load_that_must_run() -> None:
    harness = harness_of(TO_STOP)
    (live, _) = Faults(study_of(harness)).of_line(harness.operation[0])
    parts = {part for effect in live.effects for part in effect.fault.parts}
    assert parts == {"W1", "W2", "F1", "W6", "W7", "W8", "W9", "G1", "K1"}


def test_a_lost_return_lets_current_come_back_through_another_load() -> None:
    """M1 and M2 share an earth wire; with it broken M2's current goes back through M1's lamp to ground elsewhere."""
    text = """
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.01 ohm}
  S1: {is: switch, contacts: {"1-2": on}}
  M1: {is: load, ohms: 100 ohm, at: 12 V}
  M2: {is: load, ohms: 1 ohm, at: 12 V}
  M3: {is: load, ohms: 1 ohm, at: 12 V}
wires:
  W1: {from: "G1:+", to: "S1:1", size: 1 mm2, length: 1 m}
  W2: {from: "S1:2", to: "M1:1", size: 1 mm2, length: 1 m}
  W3: {from: "M1:2", to: "J1", size: 1 mm2, length: 1 m}
  W4: {from: "J1", to: "G1:-", size: 1 mm2, length: 1 m}
  W5: {from: "G1:+", to: "M2:1", size: 1 mm2, length: 1 m}
  W6: {from: "M2:2", to: "J1", size: 1 mm2, length: 1 m}
  W7: {from: "S1:2", to: "M3:1", size: 1 mm2, length: 1 m}
  W8: {from: "M3:2", to: "G1:-", size: 1 mm2, length: 1 m}
splices: {J1: {}}
operation: [{when: {S1: off}, dead: [M1], fails safe: true}]
"""
    assert unsafe(text) == {"broken": {"W4 broken"}}


PRESSURE = """
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.01 ohm}
  T1: {is: regulator, gives: 5 V}
  B1: {is: sensor, supply: 5 V, signal: {normal: 1..2 V, trip: 4..4.5 V, unplugged: 0 V}}
  K1: {is: relay board, supply: 12 V, input: {pulls at: 3 V, releases at: 2.5 V, ohms: 10 kohm}}
  M1: {is: load, ohms: 6 ohm, at: 12 V}
wires:
  W1: {from: "G1:+", to: "J1", size: 2.5 mm2, length: 1 m}
  W2: {from: "J1", to: "T1:IN+", size: 1 mm2, length: 1 m}
  W3: {from: "T1:IN-", to: "J2", size: 1 mm2, length: 1 m}
  W4: {from: "T1:OUT+", to: "B1:+", size: 1 mm2, length: 1 m}
  W5: {from: "T1:OUT-", to: "B1:-", size: 1 mm2, length: 1 m}
  W6: {from: "B1:S", to: "K1:IN", size: 1 mm2, length: 1 m}
  W7: {from: "J1", to: "K1:+", size: 1 mm2, length: 1 m}
  W8: {from: "K1:-", to: "J2", size: 1 mm2, length: 1 m}
  W9: {from: "J1", to: "K1:COM", size: 1 mm2, length: 1 m}
  W10: {from: "K1:NC", to: "M1:1", size: 1 mm2, length: 1 m}
  W11: {from: "M1:2", to: "J2", size: 1 mm2, length: 1 m}
  W12: {from: "J2", to: "G1:-", size: 2.5 mm2, length: 1 m}
splices: {J1: {}, J2: {}}
operation: [{when: {B1: trip}, dead: [M1], fails safe: true}]
"""


def test_a_board_that_must_pull_to_stop() -> None:
    """All that takes the signal, the sensor's or the board's supply away lets it run; W1, W9 to W12 stop it."""
    found = unsafe(PRESSURE)
    parts = {part for text in found["broken"] for part in text.replace(" broken", "").split(" or ")}
    assert parts == {"W2", "W3", "W4", "W5", "W6", "W7", "W8"}
    assert found["shorted"] == {"signal of B1 shorted to ground"}
    assert found["lost"] == {"T1 gives nothing"}
    assert found["stuck"] == {"K1 stuck at rest"}


def test_parted_plugs_open_every_wire_between_them() -> None:
    text = TO_STOP.replace('W4: {from: "S1:2", to: "K1:86"', 'W4: {from: "X2:1", to: "K1:86"').replace(
        "wires:",
        "plugs:\n  X1: {face: rect-1x2, mates with: X2, empty: ['2']}\n"
        "  X2: {face: rect-1x2, mates with: X1, empty: ['2']}\n"
        'wires:\n  W10: {from: "S1:2", to: "X1:1", size: 1 mm2, length: 1 m}',
    )
    assert unsafe(text)["unplugged"] == {"X1 and X2 parted"}


def test_a_line_that_does_not_hold_is_not_searched() -> None:
    study = study_from(TO_STOP)
    (searched,) = single_faults(study, [Operation({"S1": "wet"}, dead=("M1",))])
    assert searched.unverified.startswith("even without a fault")
    (shorted,) = single_faults(
        study_from(TO_STOP.replace('"J2", to: "G1:-"', '"J2", to: "J1"')), [Operation({"S1": "wet"}, dead=("M1",))]
    )
    assert isinstance(shorted.unverified, str)


def test_conditions_that_are_faults_themselves() -> None:
    assert all(map(is_fault, ("unplugged", "shorted to ground", "broken wire")))
    assert not any(map(is_fault, ("dry", "normal", "no pressure", "pressure lost", "door open")))


def test_the_sample_fails_safe_but_for_welded_contacts() -> None:
    harness = read_harness(SAMPLE)
    lines = [line for line in harness.operation if line.fails_safe]
    searched = single_faults(study_of(harness), lines, only_dead=True)
    assert len(searched) == 6
    assert {effect.fault.sort for one in searched for effect in one.effects} == {"stuck"}
    assert not any(one.unverified for one in searched)


def by_force(study: Study, line: Operation, probe: Probe, tries: int, random: Random) -> set[str]:
    """Wires and fuses that, at fault, make it live in some of so many random states of the whole circuit."""
    circuit = study.circuit
    gone = Hunt(Faults(study), line, probe).gone
    devices = {name: [p for p in positions if not is_fault(p)] for name, positions in circuit.devices.items()}
    whole, found = Plant(circuit, None, gone), set()
    for index, branch in enumerate(circuit.branches):
        if branch.sort not in ("wire", "fuse"):
            continue
        broken = Plant(circuit, None, gone | {index})
        for _ in range(tries):
            state = {**{name: random.choice(positions) for name, positions in devices.items()}, **line.when}
            before = whole.settle(state).positions
            settled = broken.settle(state, {name: at for name, at in before.items() if name not in state})
            if settled.exact and not settled.cycle and probe.live(circuit, settled):
                found.add(branch.part)
    return found


@pytest.mark.parametrize("seed", [4, 9, 14])
def test_no_broken_wire_is_missed_in_random_harnesses(seed: int) -> None:
    harness = harness_of(Maker(seed).make())
    study, random = study_of(harness), Random(seed)
    when = {n: random.choice(p) for n, p in study.circuit.devices.items() if random.random() < 0.6}
    loads = tuple(name for name in harness.items if name.startswith("M"))
    dead = [v.name for v in verify(study, [Operation(when, dead=loads)]) if v.holds][:2]
    line = Operation(when, dead=tuple(dead))
    for searched in single_faults(study, [line], only_dead=True):
        if not searched.unverified:
            probe = probe_of(study, searched.name)
            assert isinstance(probe, Probe)
            found = {part for effect in searched.effects for part in effect.fault.parts}
            assert by_force(study, line, probe, 2, random) <= found
