"""Values in words: units, ranges, groups, and what is not there."""

from __future__ import annotations

import pytest

from harnessdoc.changes.words import differences, said
from harnessdoc.model.colours import Colour
from harnessdoc.model.face import View
from harnessdoc.model.hardware import parse_hardware
from harnessdoc.model.kinds.controls import SpeedController
from harnessdoc.model.kinds.electronics import Module, Output, Sensor
from harnessdoc.model.kinds.relays import Coil, Relay
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Unit


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (None, None, "not stated"),
        ("", None, "none"),
        (True, None, "yes"),
        (2, None, "2"),
        (2400.0, Unit.MM, "2.4 m"),
        (10.0, "mm²", "10 mm²"),
        ((10.0, 100.0), Unit.PERCENT, "10 % to 100 %"),
        (("F1", "F2"), None, "F1, F2"),
        ((), None, "none"),
        ({"1": "PMP", "2": "BYP"}, None, "1 PMP, 2 BYP"),
        (Point("X4", "3"), None, "X4:3"),
        (Colour("RD", ("BK",)), None, "RD/BK"),
        (parse_hardware("ring M6 blue"), None, "ring M6 blue"),
        (View.WIRE_SIDE, None, "wire side"),
        (Coil(volts=12.0, amps=0.15), None, "volts 12 V, amps 0.15 A"),
    ],
)
def test_a_value_in_words(value: object, unit: Unit | None, words: str) -> None:
    assert said(value, unit) == words


def test_differences_name_the_keys_of_the_file() -> None:
    old, new = Relay(coil=Coil(volts=12.0), rating_a=30.0), Relay(coil=Coil(volts=24.0), rating_a=30.0, contact="make")
    assert list(differences(old, new)) == [("coil: volts", "12 V", "24 V"), ("contact", "changeover", "make")]


def test_a_part_that_was_not_stated_is_told_whole() -> None:
    assert list(differences(Relay(), Relay(coil=Coil(volts=12.0)))) == [("coil", "not stated", "volts 12 V")]


def test_groups_are_gone_through_entry_by_entry() -> None:
    old, new = Switch(contacts={"1-2": ("on",)}), Switch(contacts={"1-2": ("on", "start"), "3-4": ("on",)})
    assert list(differences(old, new)) == [("contacts: 1-2", "on", "on, start"), ("contacts: 3-4", "not stated", "on")]


def test_conditions_of_sensors_and_modules_keep_their_names() -> None:
    dry = list(differences(Sensor(signal_v={"dry": (4.5, 5.0)}), Sensor(signal_v={"dry": (4.0, 5.0)})))
    assert dry == [("signal: dry", "4.5 V to 5 V", "4 V to 5 V")]
    old, new = (Module(output={"OUT": Output(conditions_v={"trip": (v, v)})}) for v in (5.0, 6.0))
    assert list(differences(old, new)) == [("output: OUT: trip", "5 V to 5 V", "6 V to 6 V")]


def test_a_range() -> None:
    old, new = SpeedController(duty=(10.0, 100.0)), SpeedController(duty=(5.0, 100.0))
    assert list(differences(old, new)) == [("duty", "10 % to 100 %", "5 % to 100 %")]
