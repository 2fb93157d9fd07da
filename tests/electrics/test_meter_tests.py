"""The list of meter tests: order, expected values by hand, loads where a bare meter reads a ghost."""

from __future__ import annotations

import pytest

from harnessdoc.electrics.meter_tests import LAMP, STAGES, MeterTest, meter_tests
from harnessdoc.reading import read_harness
from tests.electrics.written import SAMPLE, TO_RUN, study_from, study_of

CIRCUIT = TO_RUN.replace("wires:", "circuits: {pump: {items: [F1, S1, K1, M1]}}\nwires:")


def listed(text: str) -> list[MeterTest]:
    return [test for group in meter_tests(study_from(text)) for test in group.tests]


def test_returns_come_before_feeds_and_power_after_both() -> None:
    order = list(STAGES)
    for group in meter_tests(study_of(read_harness(SAMPLE))):
        at = [order.index(test.stage) for test in group.tests]
        assert at == sorted(at)


def test_what_is_expected_of_a_pump_behind_a_relay() -> None:
    found = {(test.unit, str(test.a), str(test.b), *test.state.values()): test for test in listed(CIRCUIT)}
    assert found["ohm", "M1:2", "G1:-"].expected.startswith("under 0.")
    assert found["ohm", "K1:86", "K1:85"].expected == "80 Ω ± 8.5 Ω"
    assert found["ohm", "S1:1", "S1:2", "dry"].expected == "open (OL)"
    live, dead = found["V", "M1:1", "M1:2", "wet"], found["V", "M1:1", "M1:2", "dry"]
    assert (live.low + live.high) / 2 == pytest.approx(11.8, abs=0.1)
    assert (dead.expected, dead.low, dead.high) == ("0 V", -0.5, 0.5)
    assert found["V", "F1:2", "G1:-"].stage == "first power"


def test_a_point_that_floats_is_read_with_a_lamp_across() -> None:
    study = study_of(read_harness(SAMPLE))
    floating = [t for g in meter_tests(study) for t in g.tests if "ghost" in t.note]
    assert [(str(t.a), dict(t.state), t.load) for t in floating] == [("F1:2", {"S1": "off"}, LAMP)]


def test_a_pulsed_output_reads_as_an_average() -> None:
    study = study_of(read_harness(SAMPLE))
    pulsed = {str(t.a) for g in meter_tests(study) for t in g.tests if "average" in t.note}
    assert pulsed == {"M1:1", "M2:1"}


def test_plugs_to_be_cut_come_first_and_only_with_what_is_still_whole() -> None:
    groups = meter_tests(study_of(read_harness(SAMPLE)))
    assert [(group.name, group.plug) for group in groups[:2]] == [("X4", True), ("supply", False)]
    assert {str(test.a) for test in groups[0].tests} == {"X4:18", "X4:19"}
    assert {test.expected for test in groups[0].tests} == {"not known: write it down"}


def test_a_sensor_is_read_in_each_condition() -> None:
    study = study_of(read_harness(SAMPLE))
    signal = [t.expected for g in meter_tests(study) for t in g.tests if str(t.a) == "B1:S" and t.unit == "V"]
    assert signal == ["1.2 V to 4 V", "0.4 V to 0.6 V", "0 V ± 0.1 V"]


def test_nothing_to_measure_without_a_source() -> None:
    assert meter_tests(study_from("items: {M1: {is: load}}\n")) == ()
