"""What is live when, and operation lines held against it: worked by hand on small harnesses."""

from __future__ import annotations

from harnessdoc.electrics.operation import live_row, live_table, told, verify
from harnessdoc.model.harness import Operation
from tests.electrics.written import SAMPLE, TO_RUN, TO_STOP, harness_of, study_from, study_of


def test_lines_that_hold() -> None:
    for text in (TO_STOP, TO_RUN):
        harness = harness_of(text)
        verdicts = verify(study_of(harness), harness.operation)
        assert verdicts
        assert all(verdict.holds and verdict.states == 1 for verdict in verdicts)


def test_what_keeps_it_live_is_told_as_a_chain() -> None:
    (verdict,) = verify(study_from(TO_STOP), [Operation({"S1": "wet"}, dead=("M1",))])
    assert verdict.holds is False
    assert verdict.state == {"S1": "wet"}
    assert verdict.why == "G1 - W1 - F1 - W2 - W6 - K1:30-87a (at rest) - W7, back by W8 - W9"


def test_what_keeps_it_dead_is_told_as_a_gap_and_why_it_is_open() -> None:
    (verdict,) = verify(study_from(TO_RUN), [Operation({"S1": "dry"}, live=("M1",))])
    assert verdict.holds is False
    assert verdict.why == "K1:30-87 is open (K1 at rest), for S1:1-2 is open (S1 dry)"


def test_a_load_that_nothing_leads_to() -> None:
    study = study_from(TO_RUN.replace('{from: "K1:87", to: "M1:1"', '{from: "K1:87", to: unknown'))
    (verdict,) = verify(study, [Operation({"S1": "wet"}, live=("M1",))])
    assert (verdict.holds, verdict.why) == (False, "nothing leads from a source to M1")


def test_too_little_voltage() -> None:
    """A 12 V coil behind 200 ohm: 12 x 80 / 280 = 3.4 V of the 8 V that it needs."""
    text = TO_RUN.replace('W4: {from: "S1:2", to: "K1:86"', 'W4: {from: "S1:2", to: "R9:1"')
    text = text.replace("wires:", "  R9: {is: resistor, ohms: 200 ohm}\nwires:\n"
                        '  W10: {from: "R9:2", to: "K1:86", size: 1 mm2, length: 1 m}')  # fmt: skip
    (verdict,) = verify(study_from(text), [Operation({"S1": "wet"}, live=("K1",))])
    assert (verdict.holds, verdict.why) == (False, "its only way is through R9")


def test_what_can_not_be_told_is_not_verified() -> None:
    study = study_from(TO_RUN + "# \n")
    lines = [
        Operation({"S1": "onn"}, live=("M1",)),
        Operation({"M1": "on"}, live=("M1",)),
        Operation({}, live=("M9",)),
        Operation({}, dead=("a b:",)),
    ]
    why = [(verdict.holds, verdict.why) for verdict in verify(study, lines)]
    assert why == [
        (None, "S1 has no position onn, it has dry, wet"),
        (None, "M1 has no positions that are known"),
        (None, "there is no M9"),
        (None, "there is no a b:"),
    ]
    unstated = study_from(TO_RUN.replace("M1: {is: load, ohms: 6 ohm, at: 12 V}", "M1: {is: load}"))
    (verdict,) = verify(unstated, [Operation({"S1": "wet"}, live=("M1",))])
    assert (verdict.holds, verdict.why) == (None, "the draw of M1 is not stated")


def test_too_many_states_are_not_verified() -> None:
    """13 switches in parallel: 8192 states."""
    items = "".join(f'  S{n}: {{is: switch, contacts: {{"1-2": on}}}}\n' for n in range(10, 23))
    wires = "".join(
        f'  A{n}: {{from: "J1", to: "S{n}:1", size: 1 mm2, length: 1 m}}\n'
        f'  B{n}: {{from: "S{n}:2", to: "J9", size: 1 mm2, length: 1 m}}\n'
        for n in range(10, 23)
    )
    wires += (
        '  C: {from: J9, to: "M9:1", size: 1 mm2, length: 1 m}\n  D: {from: "M9:2", to: J2, size: 1 mm2, length: 1 m}\n'
    )
    text = TO_RUN.replace("items:\n", f"items:\n  M9: {{is: load, ohms: 6 ohm}}\n{items}").replace(
        "wires:\n", f"wires:\n{wires}"
    )
    study = study_from(text.replace("J2: {}}", "J2: {}, J9: {}}"))
    (verdict,) = verify(study, [Operation({"S10": "on"}, live=("M9",))])
    assert verdict.holds is None
    assert "too many" in verdict.why
    assert live_row(study, "M9").unknown


def test_points_and_plugs_can_be_named() -> None:
    study = study_from(TO_RUN)
    holds = [
        v.holds for v in verify(study, [Operation({"S1": "wet"}, live=("K1:87", "S1:2"), dead=("K1:87a", "M1:2"))])
    ]
    assert holds == [True, True, True, True]


def test_a_relay_in_when_picks_the_states_in_which_it_stands_so() -> None:
    study = study_from(TO_RUN)
    live, dead = verify(study, [Operation({"K1": "pulled"}, live=("M1",)), Operation({"K1": "at rest"}, dead=("M1",))])
    assert (live.holds, dead.holds) == (True, True)


def test_a_relay_that_buzzes_is_not_verified() -> None:
    """Its coil hangs on its own break contact."""
    text = TO_STOP.replace('W3: {from: "J1", to: "S1:1"', 'W3: {from: "K1:87a", to: "S1:1"')
    (verdict,) = verify(study_from(text), [Operation({"S1": "dry"}, live=("M1",))])
    assert verdict.holds is None
    assert "never comes to rest" in verdict.why


def test_the_table_of_the_sample() -> None:
    """Read off the wiring by hand, not computed."""
    from harnessdoc.reading import read_harness

    tables = {table.circuit: table for table in live_table(study_of(read_harness(SAMPLE)))}
    rows = {row.name: {told(cube) for cube in row.cubes} for table in tables.values() for row in table.rows}
    assert rows["M1"] == rows["M2"] == {"S1 on, S2 on"}
    assert rows["M3"] == {"S1 on, S3 on, S4 pressed, S8 wet", "S1 on, S3 on, S8 wet, B1 normal"}
    assert rows["P1"] == {"S1 on, S3 on, S8 wet, B1 no pressure or unplugged"}
    assert rows["K5"] == {"S1 on, B1 normal"}
    assert rows["M6"] == {"S1 on, S5 off"}
    assert [row.name for row in tables["pump"].rows] == ["K1", "M3"]
