"""What can't be meant: no traceback, no hang, and an answer that says what it is."""

from __future__ import annotations

import time
from collections.abc import Iterator
from math import isnan

import pytest

from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import build_study
from harnessdoc.model.harness import Harness
from harnessdoc.reading import ReadingError
from harnessdoc.routing.routing import route_harness
from tests.electrics.circuits import amps, plant_of, study_of, text_of, volts
from tests.published.spice_cases import read

LONGEST_S = 5.0


@pytest.fixture(autouse=True)
def _in_time() -> Iterator[None]:
    """Each of these within five seconds, reading among them; of the processor, for others use the machine too."""
    start = time.process_time()
    yield
    assert time.process_time() - start < LONGEST_S


@pytest.mark.parametrize("length", ["0 m", "-1 m", "0 mm"])
def test_a_length_that_is_none_is_refused(length: str) -> None:
    text = text_of("  R1: {is: resistor, ohms: 6 ohm}\n", "G1:+ R1:1").replace("10 mm", length)
    with pytest.raises(ReadingError):
        read(text)


@pytest.mark.parametrize("ohms", ["0 ohm", "-3 ohm"])
def test_no_ohms_are_refused(ohms: str) -> None:
    with pytest.raises(ReadingError):
        read(text_of(f"  R1: {{is: resistor, ohms: {ohms}}}\n", "G1:+ R1:1\nR1:2 G1:-"))


@pytest.mark.parametrize(
    "item",
    [
        "  G2: {is: battery, volts: 12 V, inner resistance: 0 ohm}\n",
        "  F1: {is: fuse, cold resistance: 0 ohm}\n",
        "  M1: {is: load, watts: 0 W, at: 12 V}\n",
        "  M1: {is: load, amps: 0 A, at: 12 V}\n",
        "  M1: {is: load, amps: 0 A, at: 12 V, draws: constant current}\n",
        "  M1: {is: load, watts: 5 W, at: 0 V}\n",
        "  K1: {is: relay, coil: {volts: 0 V}}\n",
        "  K1: {is: relay, coil: {volts: 12 V, ohms: 0 ohm}}\n",
        "  K1: {is: relay, coil: {volts: 12 V, amps: 0 A}}\n",
        "  K1: {is: relay board, supply: 0 V, input: {pulls at: 0 V, ohms: 0 ohm}}\n",
        "  R1: {is: potentiometer, ohms: 0 ohm}\n",
        "  T1: {is: regulator, gives: 0 V}\n",
        "  A1: {is: module, terminals: [GND], output: {OUT: {open circuit: 5 V, source: 0 ohm}}}\n",
        "  S1: {is: switch}\n",
        "  B1: {is: sensor}\n",
        "  A1: {is: module}\n",
    ],
)
def test_zeros_are_refused_or_solved(item: str) -> None:
    """Any figure of zero: a message at reading, or a study."""
    name = item.split(":")[0].strip()
    try:
        harness = read(text_of(item, "G1:+ G1:-".replace("G1:- ", "")))
    except ReadingError:
        return
    points = [str(point) for point in harness.points() if point.owner == name]
    wires = "\n".join(f"{point} {'G1:+' if n % 2 == 0 else 'G1:-'}" for n, point in enumerate(points))
    study_of(text_of(item, wires or "G1:+ G1:-"))


def test_a_loop_of_nothing() -> None:
    """Wires from a splice to itself and round between two splices."""
    plant = plant_of(
        text_of("  R1: {is: resistor, ohms: 6 ohm}\n", "G1:+ J1\nJ1 J1\nJ1 J2\nJ2 J1\nJ2 R1:1\nR1:2 G1:-", "J1 J2")
    )
    assert amps(plant, plant.settle({}), "R1") == pytest.approx(2.0, rel=1e-3)


def test_a_battery_shorted_by_a_switch() -> None:
    """12 V over 1 mohm, two wires and a contact of 5 mohm: some 2 kA, and nothing for the lamp."""
    text = text_of(
        "  S1: {is: switch, contacts: {'1-2': on}}\n  R1: {is: resistor, ohms: 6 ohm}\n",
        "G1:+ S1:1\nS1:2 G1:-\nG1:+ R1:1\nR1:2 G1:-",
    )
    plant = plant_of(text)
    assert amps(plant, plant.settle({"S1": "on"}), "G1") == pytest.approx(12 / 0.0060156, rel=1e-3)
    worst = study_of(text).worst_of_part("S1")
    assert worst is not None
    assert worst.state == {"S1": "on"}
    assert worst.amps > 1900


def test_a_battery_on_its_own_terminals() -> None:
    study = study_of(text_of("", "G1:+ G1:-"))
    assert study.worst_of_part("W1") is not None


def test_a_relay_in_its_own_supply_settles_or_buzzes() -> None:
    relay = "  K1: {is: relay, contact: KIND, coil: {volts: 12 V, ohms: 80 ohm, pulls at: 8 V, releases at: 2 V}}\n"
    wires = "G1:+ K1:30\nK1:OUT K1:86\nK1:85 G1:-"
    make = plant_of(text_of(relay.replace("KIND", "make"), wires.replace("OUT", "87"))).settle({})
    breaks = plant_of(text_of(relay.replace("KIND", "break"), wires.replace("OUT", "87a"))).settle({})
    assert make.positions["K1"] == "at rest"
    assert make.cycle == ()
    assert len(breaks.cycle) == 2


def test_a_relay_that_shorts_the_battery_away_under_its_coil() -> None:
    """Its make contact shorts the feed, so the coil drops and the feed comes back."""
    relay = "  K1: {is: relay, contact: make, coil: {volts: 12 V, ohms: 80 ohm, pulls at: 8 V, releases at: 2 V}}\n"
    text = text_of(
        f"{relay}  R1: {{is: resistor, ohms: 1 ohm}}\n", "G1:+ R1:1\nR1:2 K1:86\nK1:85 G1:-\nR1:2 K1:30\nK1:87 G1:-"
    )
    assert len(plant_of(text).settle({}).cycle) == 2


def test_two_batteries_in_parallel() -> None:
    """12 V and 24 V behind 1 mohm and 1 ohm: 12 V over 1.0013 ohm run round, by hand."""
    text = text_of("  G2: {is: battery, volts: 24 V, inner resistance: 1 ohm}\n", "G1:+ G2:+\nG1:- G2:-")
    plant = plant_of(text)
    assert amps(plant, plant.settle({}), "G2") == pytest.approx(12 / 1.001, rel=1e-3)
    study = study_of(text)
    assert study.worst[study.by_part["W1"][0]].amps >= 12 / 1.0011


def test_a_regulator_that_feeds_itself_stays_off() -> None:
    plant = plant_of(text_of("  T1: {is: regulator, gives: 5 V}\n", "T1:OUT+ T1:IN+\nT1:IN- G1:-"))
    settled = plant.settle({})
    assert settled.positions["T1"] == "off"
    assert settled.cycle == ()


def test_no_source_at_all() -> None:
    items = "items: {R1: {is: resistor, ohms: 1 ohm}}"
    text = f"harness: {{title: t, number: N}}\n{items}\nwires: {{W1: {{from: 'R1:1', to: 'R1:2'}}}}\n"
    plant = plant_of(text)
    assert isnan(plant.settle({}).volts[0])
    study_of(text)


def test_a_load_with_no_return_floats_on_neither_side_by_accident() -> None:
    """Its fed side has the feed's voltage and so has its other end, for nothing flows."""
    plant = plant_of(text_of("  M1: {is: load, ohms: 6 ohm}\n", "G1:+ M1:1"))
    settled = plant.settle({})
    assert amps(plant, settled, "M1") == 0.0
    assert volts(plant, settled, "M1:2") == pytest.approx(12.0)


def chain(splices: int) -> Harness:
    """A battery, so many splices in a row, and 6 ohm."""
    names = " ".join(f"J{n}" for n in range(splices))
    wires = "\n".join(f"J{n} J{n + 1}" for n in range(splices - 1))
    wires = f"G1:+ J0\n{wires}\nJ{splices - 1} R1:1\nR1:2 G1:-"
    return read(text_of("  R1: {is: resistor, ohms: 6 ohm}\n", wires, names))


@pytest.mark.parametrize("splices", [1_000, 5_000])
def test_a_chain_of_splices(splices: int) -> None:
    """12 V over 0.001 ohm, the wires of 7.8 micro-ohm, raised to 10 each, and 6 ohm."""
    harness = chain(splices)
    study = build_study(build_network(harness), route_harness(harness))
    worst = study.worst_of_part("R1")
    assert worst is not None
    assert worst.amps == pytest.approx(12 / (6.001 + (splices + 2) * 1e-5), rel=1e-6)


def test_loads_that_draw_more_than_the_source_can_give() -> None:
    """Twenty constant currents of 50 A behind 1 ohm: 12 A at most flow."""
    items = "".join(f"  M{n}: {{is: load, amps: 50 A, at: 12 V, draws: constant current}}\n" for n in range(20))
    wires = "\n".join(f"R1:2 M{n}:1\nM{n}:2 G1:-" for n in range(20))
    plant = plant_of(text_of(f"  R1: {{is: resistor, ohms: 1 ohm}}\n{items}", f"G1:+ R1:1\n{wires}"))
    assert amps(plant, plant.settle({}), "R1") == pytest.approx(12.0, rel=2e-2)


def test_a_bridge_of_diodes_comes_to_rest() -> None:
    """Fed the wrong way round, four diodes turn it: 12 - 1.4 V over 6.02 ohm."""
    items = "".join(f"  D{n}: {{is: diode}}\n" for n in range(4)) + "  R1: {is: resistor, ohms: 6 ohm}\n"
    wires = "G1:- D0:A\nG1:+ D1:A\nD0:K R1:1\nD1:K R1:1\nR1:2 D2:A\nR1:2 D3:A\nD2:K G1:-\nD3:K G1:+"
    plant = plant_of(text_of(items, wires))
    settled = plant.settle({})
    assert settled.exact
    assert amps(plant, settled, "R1") == pytest.approx(10.6 / 6.021, rel=1e-3)
