"""Readings against the network: agree, disagree with what would explain it, or can't be told."""

from __future__ import annotations

from typing import Any

import pytest

from harnessdoc.electrics.readings import Compared, compare, load_ohm
from harnessdoc.model.harness import Reading
from harnessdoc.model.points import parse_point
from tests.electrics.written import TO_RUN, study_from

CUT = TO_RUN.replace("wires:", "plugs:\n  X4: {face: rect-1x2, cut: {1: 2026-04-12}}\nwires:")


def said(a: str, b: str, text: str = TO_RUN, **more: Any) -> Compared:
    when = more.pop("when", {"S1": "wet"})
    (compared,) = compare(
        study_from(text), [Reading(more.pop("on", None), (parse_point(a), parse_point(b)), when, **more)]
    )
    return compared


def test_a_battery_that_is_not_quite_full_agrees() -> None:
    """12 V less the drop of 2 A in about 0.1 ohm."""
    compared = said("M1:1", "M1:2", volts=11.6)
    assert compared.says == "agrees"
    assert compared.expected == pytest.approx((11.8, 11.8), abs=0.1)


def test_none_where_there_should_be_all_names_what_would_explain_it() -> None:
    compared = said("M1:1", "M1:2", volts=0.0)
    assert compared.says == "disagrees"
    assert len(compared.faults) == 3
    assert set(compared.faults) <= {
        "W1 broken or W2 broken or F1 blown", "W1 broken or F1 blown", "W3 broken", "W4 broken", "W5 broken",
        "W6 broken", "W7 broken", "W8 broken", "W9 broken", "K1 stuck at rest", "G1 gives nothing",
        "W1 broken or W2 broken", "F1 blown",
    }  # fmt: skip


def test_all_where_there_should_be_none() -> None:
    compared = said("M1:1", "M1:2", when={"S1": "dry"}, volts=11.8)
    assert (compared.says, compared.faults) == ("disagrees", ("K1 stuck pulled",))


def test_a_state_that_is_not_told() -> None:
    compared = said("M1:1", "M1:2", when={}, volts=11.8)
    assert (compared.says, compared.why) == ("can't tell", "the reading does not say how S1 stood")


def test_a_point_that_floats() -> None:
    text = TO_RUN.replace("M1: {is: load, ohms: 6 ohm, at: 12 V}", "M1: {is: load}")
    compared = said("K1:87", "G1:-", text, when={"S1": "dry"}, volts=3.0)
    assert compared.says == "can't tell"
    assert "ghost" in compared.why


def test_a_point_nobody_knows_and_a_position_that_is_not_there() -> None:
    assert said("X9:1", "G1:-", volts=1.0).why == "nothing is known of X9:1"
    assert "no position onn" in said("M1:1", "G1:-", when={"S1": "onn"}, volts=1.0).why


def test_a_reading_from_before_the_cut() -> None:
    assert "before X4:1 was cut" in said("X4:1", "G1:-", CUT, on="2026-04-04", volts=12.0).why


def test_ohms_and_continuity() -> None:
    assert said("K1:86", "K1:85", when={"S1": "dry"}, ohms=76.0).says == "agrees"
    assert said("K1:86", "K1:85", when={"S1": "dry"}, ohms=40.0).says == "disagrees"
    assert said("S1:1", "S1:2", continuity=True).says == "agrees"
    assert said("S1:1", "S1:2", when={"S1": "dry"}, continuity=True).says == "disagrees"
    assert said("S1:1", "S1:2", when={"S1": "dry"}, continuity=False).says == "agrees"
    assert said("K1:86", "K1:85", when={"S1": "dry"}, continuity=True).says == "can't tell"


def test_a_current_at_a_fuse() -> None:
    """12 V over 6 ohm and 80 ohm: 2 A and 0.15 A, less a little."""
    assert said("F1:1", "F1:2", amps=2.1).says == "agrees"
    assert said("F1:1", "F1:2", amps=4.0).says == "disagrees"


def test_a_lamp_pulls_a_weak_point_down() -> None:
    """A 21 W lamp (6.9 ohm) behind 68 ohm leaves 12 x 6.9 / 74.9 = 1.1 V."""
    text = TO_RUN.replace("M1: {is: load, ohms: 6 ohm, at: 12 V}", "M1: {is: load, ohms: 68 ohm}")
    text = text.replace('W8: {from: "M1:2", to: "J2"', 'W8: {from: "M1:2", to: "J7"').replace(
        "J2: {}", "J2: {}, J7: {}"
    )
    assert said("M1:2", "G1:-", text, volts=1.1, loaded_with="21 W lamp").says == "agrees"
    assert said("M1:2", "G1:-", text, volts=12.0, loaded_with="21 W lamp").says == "disagrees"
    assert said("M1:2", "G1:-", text, volts=12.0).says == "agrees"


def test_test_loads_by_their_words() -> None:
    assert load_ohm("21 W lamp", 12.0) == pytest.approx(6.857, abs=0.001)
    assert load_ohm("10 ohm resistor", 12.0) == 10.0
    assert load_ohm("a lamp", 12.0) is None
    assert load_ohm("0 W", 12.0) is None
