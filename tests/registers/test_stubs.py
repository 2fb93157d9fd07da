"""The stub register: other halves, use, caps, and who uses what."""

from __future__ import annotations

from harnessdoc.registers.stubs import stub_register, tails
from tests.electrics.written import harness_of
from tests.registers.written import TEXT


def test_each_stub_with_its_other_half_and_use() -> None:
    found = {str(entry.point): entry for entry in stub_register(harness_of(TEXT))}
    pump, free = found["X4:1"], found["X4:8"]
    assert (pump.legend, pump.cut_on, pump.place, pump.use) == ("PUMP", "2026-04-11", "cab", "reused")
    assert pump.other_half_text == "W5 now J1 to M1:1"
    assert pump.used_by_text == "at J1: W4 to S2:2, W5 to M1:1"
    assert pump.circuits == ("Spray pump",)
    assert (free.use, free.cap_text, free.other_half_text) == ("free", "capped", "W11 now a tail, other end XE1")
    assert [found[f"X4:{cavity}"].cap_text for cavity in (1, 5, 6)] == ["", "NOT capped", "cap unknown"]
    assert found["X4:4"].other_half_text == ""


def test_stubs_come_by_plug_and_cavity() -> None:
    text = "plugs: {X10: {face: rect-1x2}, X2: {face: rect-2x6}}\nstubs: {X10:1: {}, X2:10: {}, X2:9: {}}\n"
    assert [str(entry.point) for entry in stub_register(harness_of(text))] == ["X2:9", "X2:10", "X10:1"]


def test_a_wire_in_the_stub_s_own_cavity_uses_it() -> None:
    text = """
plugs: {X1: {face: rect-1x2}}
items: {S1: {is: switch, contacts: {"1-2": on}}}
wires: {W1: {from: X1:1, to: S1:1}}
stubs: {X1:1: {capped: true}}
"""
    (entry,) = stub_register(harness_of(text))
    assert (entry.use, entry.used_by_text) == ("reused", "in its cavity: W1 to S1:1")


def test_tails_say_whether_they_are_capped() -> None:
    found = tails(harness_of(TEXT))
    assert [(tail.wire.name, tail.other.text, tail.capped) for tail in found] == [
        ("W11", "XE1", True),
        ("W13", "unknown", None),
    ]
