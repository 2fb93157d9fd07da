"""What a strip writes of currents and voltages against Ohm's law worked by hand, and how live parts are drawn."""

from __future__ import annotations

from functools import cache

import pytest

from harnessdoc.drawing.strips.sheets import circuit_strip, strip_sheets
from harnessdoc.sheet.page import Page
from tests.drawing.strips.drawn import Drawn, groups, read_text, sample, study_of

# A 12 V source with 0.1 ohm inside, a fuse of 0.4 ohm, a resistor of 5.5 ohm, wires so short that their 0.01 milliohm
# (the least that is reckoned with) does not show: 12 V / (0.1 + 0.4 + 5.5) ohm = 2 A. At the source's + stand
# 12 V - 2 A x 0.1 ohm = 11.8 V, behind the fuse 11.8 V - 2 A x 0.4 ohm = 11 V, at the resistor's far end 0 V.
# The switch has 5 milliohm, 2 A x 0.005 ohm = 10 mV, which takes 0.1 % off the current: 1.998 A, printed 2 A.
BY_HAND = """
harness: {title: By hand, number: H}
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.1 ohm}
  F1: {is: fuse, rating: 5 A, cold resistance: 0.4 ohm}
  S1: {is: switch, contacts: {"1-2": on}}
  R1: {is: resistor, ohms: 5.5 ohm}
  R2: {is: resistor, ohms: 11 ohm}
wires:
  W1: {from: "G1:+", to: F1:1, colour: red, size: 25 mm2, length: 1 mm, circuit: heat}
  W2: {from: F1:2, to: S1:1, colour: red, size: 25 mm2, length: 1 mm, circuit: heat}
  W3: {from: S1:2, to: R1:1, colour: red, size: 25 mm2, length: 1 mm, circuit: heat}
  W4: {from: "G1:-", to: R1:2, colour: black, size: 25 mm2, length: 1 mm, circuit: heat}
  W5: {from: R2:1, to: unknown, colour: white, circuit: heat}
operation:
  - {when: {S1: off}, dead: [R1]}
  - {when: {S1: on}, live: [R1]}
"""


@cache
def _pages() -> tuple[Page, Page]:
    harness = read_text(BY_HAND)
    study = study_of(harness)
    return circuit_strip(harness, study, "heat"), circuit_strip(harness, study, "heat", {"S1": "off"})


def _named(page: Page, name: str) -> list[Drawn]:
    return [group for group in groups(page) if group.name == name]


def _texts(page: Page, name: str) -> list[str]:
    return [text for group in _named(page, name) for text in group.texts]


def test_currents_by_hand() -> None:
    on, off = _pages()
    for wire in ("W1", "W2", "W3", "W4"):
        assert "2 A" in _texts(on, f"label-{wire}")
        assert not any(text.endswith("A") for text in _texts(off, f"label-{wire}"))


def test_volts_by_hand() -> None:
    on, off = _pages()
    assert "11.8 V" in _texts(on, "two-F1")
    assert "11 V" in _texts(on, "two-F1")
    assert {"11 V", "0 V"} & set(_texts(on, "two-R1"))
    assert "12 V" in _texts(off, "two-F1")  # nothing flows, so nothing is lost
    assert [text for text in _texts(off, "two-R1") if text.endswith("V")] == ["0 V", "0 V"]


def test_state_is_written() -> None:
    on, off = (" ".join(_all_texts(page)) for page in _pages())
    assert "drawn: S1 on" in on
    assert "drawn: S1 off" in off


def _all_texts(page: Page) -> list[str]:
    from harnessdoc.sheet.output import pdf_bytes
    from tests.sheet.measure import text_boxes

    return [box.text for box in text_boxes(pdf_bytes([page]))[0]]


def test_live_by_weight() -> None:
    """Thick where there is voltage or current, thin elsewhere; the pair is told apart without colour."""
    on, off = _pages()
    for wire in ("W1", "W2", "W3", "W4"):
        assert {w for group in _named(on, f"wire-{wire}") for w in group.widths} == {0.7}
    live_when_off = {wire for wire in ("W1", "W2", "W3", "W4") if _named(off, f"wire-{wire}")[0].widths[0] == 0.7}
    assert live_when_off == {"W1", "W2"}
    assert _named(off, "wire-W3")[0].widths[0] == 0.25


def test_not_verified() -> None:
    """A wire with an unknown end carries what nobody knows; the strip says so on it and under it."""
    on, _ = _pages()
    assert "not verified" in _texts(on, "label-W5")
    assert any("W5" in text and "not verified" in text for text in _all_texts(on))


def test_assumed_is_said() -> None:
    harness, study = sample("sample")
    pages = strip_sheets(harness, study, circuits=["agitator"])
    notes = " ".join(text for page in pages for text in _all_texts(page))
    assert "Assumed: F2: cold resistance not stated: taken as 0.005 ohm" in notes


def test_state_that_there_is_not() -> None:
    harness = read_text(BY_HAND)
    page = circuit_strip(harness, study_of(harness), "heat", {"S1": "sideways"})
    assert any("S1 has no position sideways" in text for text in _all_texts(page))
    assert "not verified" in _texts(page, "label-W1")


def test_no_source() -> None:
    harness = read_text("harness: {title: T, number: N}\nwires:\n  W1: {from: unknown, to: tail, circuit: c}\n")
    page = circuit_strip(harness, study_of(harness), "c")
    assert any("the harness has no source" in text for text in _all_texts(page))
    assert "not verified" in _texts(page, "label-W1")


def test_as_the_study_has_it() -> None:
    """Each island's own outcome and the strip's figures agree, where only one island is live."""
    harness, study = sample("sample")
    from harnessdoc.drawing.strips.figures import Bench
    from harnessdoc.drawing.strips.homes import find_homes

    figures = Bench(study, find_homes(harness)).figures("horn", {"S1": "on", "S11": "pressed"})
    wire = harness.wires["W88"]
    index = study.by_part["W88"][0]
    found = [
        settled.amps[index]
        for state, settled in study.outcomes_of("W88")
        if state.get("S1") == "on" and state.get("S11") == "pressed"
    ]
    amps = figures.amps(wire)
    assert amps is not None
    assert found
    assert amps == pytest.approx(found[0], rel=0.05)  # other circuits lower the shared feed a little


def test_a_buzzing_relay_is_not_verified() -> None:
    """A relay whose own break contact feeds its coil never rests: its strip says so."""
    text = """
harness: {title: Buzzer, number: B}
items:
  G1: {is: battery, volts: 12 V}
  K1: {is: relay, contact: break, coil: {volts: 12 V, ohms: 85 ohm}}
wires:
  W1: {from: "G1:+", to: K1:30, size: 1 mm2, length: 1 m, circuit: c}
  W2: {from: "K1:87a", to: K1:86, size: 1 mm2, length: 1 m, circuit: c}
  W3: {from: K1:85, to: "G1:-", size: 1 mm2, length: 1 m, circuit: c}
"""
    harness = read_text(text)
    page = circuit_strip(harness, study_of(harness), "c")
    assert any("never comes to rest" in text for text in _all_texts(page))
    assert "not verified" in _texts(page, "label-W2")
