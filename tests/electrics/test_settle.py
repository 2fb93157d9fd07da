"""Relays settle, hold, change over and buzz; boards, diodes, constant currents and regulators do what they are."""

from __future__ import annotations

from math import isnan

import pytest

from harnessdoc.electrics.settle import Plant
from tests.electrics.circuits import amps, plant_of, study_of, text_of, volts

COIL = "coil: {volts: 12 V, ohms: 80 ohm, pulls at: 8 V, releases at: 2 V}"
SWITCH = "  S1: {is: switch, contacts: {'1-2': on}}\n"
LAMP = "  E1: {is: lamp, ohms: 6 ohm}\n"


def test_a_changeover_at_rest_joins_common_to_break_and_pulled_to_make() -> None:
    """ISO 7588 habit: 30 common, 87a break, 87 make."""
    plant = plant_of(
        text_of(
            f"  K1: {{is: relay, {COIL}}}\n{SWITCH}{LAMP}  E2: {{is: lamp, ohms: 6 ohm}}\n",
            "G1:+ S1:1\nS1:2 K1:86\nK1:85 G1:-\nG1:+ K1:30\nK1:87 E1:1\nK1:87a E2:1\nE1:2 G1:-\nE2:2 G1:-",
        )
    )
    off, on = plant.settle({"S1": "off"}), plant.settle({"S1": "on"})
    assert (off.positions["K1"], on.positions["K1"]) == ("at rest", "pulled")
    assert [round(amps(plant, one, e), 1) for one in (off, on) for e in ("E1", "E2")] == [0.0, 2.0, 2.0, 0.0]


BUZZER = text_of(
    f"  K1: {{is: relay, contact: break, {COIL}}}\n{SWITCH}",
    "G1:+ S1:1\nS1:2 K1:30\nK1:87a K1:86\nK1:85 G1:-",
)


def test_a_relay_that_drops_its_own_coil_buzzes() -> None:
    plant = plant_of(BUZZER)
    on = plant.settle({"S1": "on"})
    assert [positions["K1"] for positions in on.cycle] == ["at rest", "pulled"]
    assert plant.settle({"S1": "off"}).cycle == ()
    study = study_of(BUZZER)
    assert {state["S1"] for state, settled in study.outcomes_of("K1") if settled.cycle} == {"on"}


LATCH = text_of(
    f"  K1: {{is: relay, contact: make, {COIL}}}\n  S1: {{is: switch, contacts: {{'1-2': pressed}}, rest: released}}\n"
    f"  S2: {{is: switch, contacts: {{'1-2': [on]}}, rest: on}}\n{LAMP}",
    "G1:+ S2:1\nS2:2 S1:1\nS1:2 K1:86\nS2:2 K1:30\nK1:87 K1:86\nK1:85 G1:-\nK1:87 E1:1\nE1:2 G1:-",
)


def test_a_latch_has_two_answers_and_a_pressed_button_one() -> None:
    study = study_of(LATCH)
    found = {(state["S1"], state["S2"]): (a, b) for _, state, a, b in study.second_answers}
    assert list(found) == [("released", "on")]
    first, second = found["released", "on"]
    assert (first.positions["K1"], second.positions["K1"]) == ("at rest", "pulled")


def test_two_relays_that_hold_each_other_are_a_latch_too() -> None:
    study = study_of(
        text_of(
            f"  K1: {{is: relay, contact: make, {COIL}}}\n  K2: {{is: relay, contact: make, {COIL}}}\n",
            "G1:+ K1:30\nK1:87 K2:86\nG1:+ K2:30\nK2:87 K1:86\nK1:85 G1:-\nK2:85 G1:-",
        )
    )
    ((_, _, first, second),) = study.second_answers
    assert set(first.positions.values()) == {"at rest"}
    assert set(second.positions.values()) == {"pulled"}


def test_a_plain_relay_has_one_answer() -> None:
    text = text_of(
        f"  K1: {{is: relay, contact: make, {COIL}}}\n{SWITCH}{LAMP}",
        "G1:+ S1:1\nS1:2 K1:86\nK1:85 G1:-\nG1:+ K1:30\nK1:87 E1:1\nE1:2 G1:-",
    )
    assert study_of(text).second_answers == ()


def test_relays_follow_one_another() -> None:
    """Five in a row: each feeds the next one's coil."""
    relays = "".join(f"  K{n}: {{is: relay, contact: make, {COIL}}}\n" for n in range(1, 6))
    chain = "\n".join(f"G1:+ K{n}:30\nK{n}:87 K{n + 1}:86\nK{n}:85 G1:-" for n in range(1, 5))
    plant = plant_of(text_of(relays + SWITCH, f"G1:+ S1:1\nS1:2 K1:86\n{chain}\nK5:85 G1:-"))
    assert set(plant.settle({"S1": "on"}).positions.values()) == {"pulled", "on"}


def sensed(coil: str, terminals: tuple[str, str], more: str = "") -> Plant:
    """A sensor that gives 3.8 V when normal and 5 V when cut out, on a board's input or a relay's coil."""
    return plant_of(
        text_of(
            f"  B1: {{is: sensor, wires: 2, signal: {{normal: 3.8..3.8 V, cut out: 5..5 V, off: 0.4..0.4 V}}}}\n{coil}",
            f"B1:S {terminals[0]}\nB1:- G1:-\n{terminals[1]} G1:-{more}",
        )
    )


BOARD = "  K1: {is: relay board, supply: 12 V, input: {pulls at: 4.6 V, releases at: 4.3 V, ohms: 10 kohm}}\n"


def test_a_board_pulls_at_its_threshold_only() -> None:
    """Common practice, no source: 3.8 V when normal and 5 V in the cut-out work a board of 4.6 V in the latter only."""
    plant = sensed(BOARD, ("K1:IN", "K1:-"), "\nG1:+ K1:+")
    assert [plant.settle({"B1": how}).positions["K1"] for how in ("normal", "cut out")] == ["at rest", "pulled"]


def test_a_board_without_supply_stays_at_rest() -> None:
    plant = sensed(BOARD, ("K1:IN", "K1:-"))
    assert plant.settle({"B1": "cut out"}).positions["K1"] == "at rest"


def test_a_bare_coil_may_pull_early_and_hold_long() -> None:
    """A bare 5 V coil, common practice, no source: it may pull in at 3.75 V and hold down to 0.5 V."""
    coil = "  K1: {is: relay, coil: {volts: 5 V, ohms: 5 kohm, pulls at: 3.75 V, releases at: 0.5 V}}\n"
    plant = sensed(coil, ("K1:86", "K1:85"))
    assert plant.settle({"B1": "normal"}).positions["K1"] == "pulled"
    assert plant.settle({"B1": "off"}, {"K1": "pulled"}).positions["K1"] == "at rest"
    low = {"B1": "normal"}
    assert plant.settle(low, {"K1": "pulled"}).positions["K1"] == "pulled"


def test_between_its_thresholds_a_relay_stays_where_it_was() -> None:
    """5 V on a coil that pulls at 8 V and releases at 2 V."""
    plant = sensed(f"  K1: {{is: relay, {COIL.replace('80 ohm', '80 kohm')}}}\n", ("K1:86", "K1:85"))
    assert plant.settle({"B1": "cut out"}).positions["K1"] == "at rest"
    assert plant.settle({"B1": "cut out"}, {"K1": "pulled"}).positions["K1"] == "pulled"


@pytest.mark.parametrize(("suppression", "position"), [("diode", "at rest"), ("resistor", "pulled")])
def test_a_coil_with_a_diode_looks_at_the_sign(suppression: str, position: str) -> None:
    relay = f"  K1: {{is: relay, {COIL[:-1]}, suppression: {suppression}}}}}\n"
    plant = plant_of(text_of(relay, "G1:+ K1:85\nK1:86 G1:-"))
    assert plant.settle({}).positions["K1"] == position


@pytest.mark.parametrize(("ends", "expected"), [(("A", "K"), (12 - 0.7) / 6.011), (("K", "A"), 0.0)])
def test_a_diode_conducts_one_way(ends: tuple[str, str], expected: float) -> None:
    """0.7 V and 0.01 ohm, and 0.001 ohm of the battery: (12 - 0.7) V over 6.011 ohm, by hand."""
    a, b = ends
    plant = plant_of(text_of(f"  R1: {{is: diode}}\n{LAMP}", f"G1:+ R1:{a}\nR1:{b} E1:1\nE1:2 G1:-"))
    settled = plant.settle({})
    assert settled.exact
    assert amps(plant, settled, "E1") == pytest.approx(expected, rel=1e-3)


def steady(draws: float, ohms: float) -> tuple[Plant, float, bool]:
    """A constant current behind a resistor: plant, volts over the load, whether it came to rest."""
    plant = plant_of(
        text_of(
            f"  R1: {{is: resistor, ohms: {ohms} ohm}}\n"
            f"  M1: {{is: load, amps: {draws} A, at: 12 V, draws: constant current}}\n",
            "G1:+ R1:1\nR1:2 M1:1\nM1:2 G1:-",
        )
    )
    settled = plant.settle({})
    return plant, volts(plant, settled, "M1:1", "M1:2"), settled.exact


def test_a_constant_current_is_one() -> None:
    """12 V less 2 A over 3 ohm: 6 V, by hand."""
    _, across, exact = steady(2.0, 3.0)
    assert exact
    assert across == pytest.approx(6.0, rel=1e-3)


def test_a_constant_current_that_nothing_can_give_takes_what_there_is() -> None:
    """10 A behind 3 ohm can't be: 4 A flow, and next to nothing is left over the load."""
    plant, across, _ = steady(10.0, 3.0)
    settled = plant.settle({})
    assert amps(plant, settled, "M1") == pytest.approx(4.0, rel=1e-2)
    assert 0 <= across < 0.02


def test_a_regulator_gives_its_voltage_and_draws_what_it_gives() -> None:
    """5 V behind 0.1 ohm into 9.9 ohm: 0.5 A out and in, by hand."""
    plant = plant_of(
        text_of(
            f"  T1: {{is: regulator, gives: 5 V}}\n{SWITCH}  R1: {{is: resistor, ohms: 9.9 ohm}}\n",
            "G1:+ S1:1\nS1:2 T1:IN+\nT1:IN- G1:-\nT1:OUT+ R1:1\nR1:2 T1:OUT-",
        )
    )
    on, off = plant.settle({"S1": "on"}), plant.settle({"S1": "off"})
    assert amps(plant, on, "R1") == pytest.approx(0.5, rel=1e-3)
    assert amps(plant, on, "S1") == pytest.approx(0.5, rel=1e-3)
    assert amps(plant, off, "R1") == 0.0


def test_a_supply_of_its_own_has_its_own_reference() -> None:
    """24 V behind 1 ohm on 11 ohm, joined to nothing else: 2 A, and 22 V over its own return."""
    plant = plant_of(
        text_of(
            "  G2: {is: source, volts: 24 V, inner resistance: 1 ohm}\n  R1: {is: resistor, ohms: 11 ohm}\n"
            "  R2: {is: resistor, ohms: 1 ohm}\n",
            "G2:+ R1:1\nR1:2 G2:-",
        )
    )
    settled = plant.settle({})
    assert amps(plant, settled, "R1") == pytest.approx(2.0, rel=1e-3)
    assert volts(plant, settled, "G2:+", "G2:-") == pytest.approx(22.0, rel=1e-3)
    assert isnan(volts(plant, settled, "R2:1"))
