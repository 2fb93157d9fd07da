"""Resistances as a meter shows them with the supply off, worked by hand."""

from __future__ import annotations

from math import isinf

import pytest

from harnessdoc.electrics.ohms import OhmMeter
from harnessdoc.electrics.study import Study
from harnessdoc.model.points import parse_point
from tests.electrics.written import TO_RUN, study_from


def ohms(study: Study, a: str, b: str, **state: str) -> tuple[float, float]:
    node = study.circuit.node
    return OhmMeter(study).between(node[parse_point(a)], node[parse_point(b)], state)


def test_a_coil_and_a_load_by_their_own_figures() -> None:
    study = study_from(TO_RUN)
    assert ohms(study, "K1:86", "K1:85", S1="dry") == pytest.approx((80, 80), rel=1e-3)
    assert ohms(study, "M1:1", "M1:2") == pytest.approx((6, 6), rel=1e-3)


def test_the_battery_is_off_and_a_relay_is_at_rest() -> None:
    study = study_from(TO_RUN)
    assert all(map(isinf, ohms(study, "G1:+", "G1:-", S1="dry")))
    assert ohms(study, "G1:+", "G1:-", S1="wet") == pytest.approx((80, 80), rel=2e-3)
    assert all(map(isinf, ohms(study, "K1:30", "K1:87", S1="dry")))
    # Round by the switch, the coil and the load: 80 + 6 ohm and some wire.
    assert ohms(study, "K1:30", "K1:87", S1="wet") == pytest.approx((86, 86), rel=2e-3)


def test_a_lamp_is_colder_and_a_motor_held() -> None:
    """55 W at 12 V: 2.618 ohm hot, a fifteenth of it cold; 30 A at 12 V: 0.4 ohm held, 7 A: 1.714 ohm running."""
    text = TO_RUN.replace("M1: {is: load, ohms: 6 ohm, at: 12 V}", "M1: {is: lamp, watts: 55 W, at: 12 V}")
    assert ohms(study_from(text), "M1:1", "M1:2") == pytest.approx((2.618 / 15, 2.618), rel=1e-3)
    text = text.replace("{is: lamp, watts: 55 W, at: 12 V}", "{is: motor, amps: 7 A, stall: 30 A, at: 12 V}")
    assert ohms(study_from(text), "M1:1", "M1:2") == pytest.approx((0.4, 1.714), rel=1e-3)


def test_the_same_point_twice() -> None:
    assert ohms(study_from(TO_RUN), "M1:1", "M1:1") == (0.0, 0.0)
