"""Circuits of odd shapes are drawn right: loops, one wire, unknown ends, many branches, two sources."""

from __future__ import annotations

from itertools import pairwise

import pytest

from harnessdoc.drawing.strips.sheets import circuit_strip, strip_sheets
from harnessdoc.sheet.output import pdf_bytes
from tests.drawing.paper import crossed, straight_lines
from tests.drawing.strips.drawn import groups, read_text, study_of
from tests.sheet.measure import outside, overlaps, text_boxes

BATTERY = "  G1: {is: battery, volts: 12 V}\n"


def _wires(*ends: tuple[str, str]) -> str:
    return "".join(f"  W{n}: {{from: '{a}', to: '{b}', circuit: c}}\n" for n, (a, b) in enumerate(ends, 1))


def _splices(count: int) -> str:
    return "splices:\n" + "".join(f"  J{n}: {{}}\n" for n in range(1, count + 1))


def _ring() -> str:
    points = [f"J{n}" for n in range(1, 8)]
    return "wires:\n" + _wires(*pairwise([*points, "J1"])) + _splices(7)


def _branches() -> str:
    lamps = "".join(f"  E{n}: {{is: lamp, watts: 5 W, at: 12 V}}\n" for n in range(1, 41))
    ends = [("G1:+", "J1"), *(("J1", f"E{n}:1") for n in range(1, 41)), *((f"E{n}:2", "J2") for n in range(1, 41))]
    return "items:\n" + BATTERY + lamps + "wires:\n" + _wires(*ends, ("J2", "G1:-")) + _splices(2)


def _module() -> str:
    names = [f"P{n}" for n in range(1, 51)]
    item = f"  A1: {{is: module, terminals: [{', '.join(names)}]}}\n"
    return "items:\n" + item + "wires:\n" + _wires(*((f"A1:{name}", "unknown") for name in names))


def _two_sources() -> str:
    items = BATTERY + "  G2: {is: source, volts: 13 V}\n  E1: {is: lamp, watts: 5 W, at: 12 V}\n"
    ends = [("G1:+", "J1"), ("G2:+", "J1"), ("J1", "E1:1"), ("E1:2", "J2"), ("J2", "G1:-"), ("J2", "G2:-")]
    return "items:\n" + items + "wires:\n" + _wires(*ends) + _splices(2)


def _backwards() -> str:
    """A box whose right side feeds its left, and one whose pins are joined by a wire."""
    items = "  T1: {is: speed controller}\n" + BATTERY
    ends = [("G1:+", "T1:IN+"), ("T1:OUT+", "T1:OUT-"), ("T1:IN-", "G1:-"), ("T1:P1", "T1:IN+"), ("T1:P2", "T1:P3")]
    return "items:\n" + items + "wires:\n" + _wires(*ends)


def _holding() -> str:
    """A relay that holds itself, its coil, contact and load all tied together."""
    items = BATTERY + '  K1: {is: relay, coil: {volts: 12 V}}\n  S1: {is: switch, contacts: {"1-2": pressed}}\n'
    ends = [("G1:+", "K1:30"), ("K1:87", "K1:86"), ("G1:+", "S1:1"), ("S1:2", "K1:86"), ("K1:85", "G1:-")]
    return "items:\n" + items + "wires:\n" + _wires(*ends, ("K1:87a", "K1:85"))


def _rotary() -> str:
    contacts = ", ".join(f'"1-{n}": "{n - 1}"' for n in range(2, 7))
    items = BATTERY + f"  S1: {{is: switch, contacts: {{{contacts}}}, rest: '1'}}\n"
    mesh = '  S2: {is: switch, contacts: {"1-2": on, "2-3": on, "3-4": [off, on], "4-1": off}}\n'
    ends = [("G1:+", "S1:1"), *((f"S1:{n}", f"J{n}") for n in range(2, 7)), *((f"S2:{n}", "J1") for n in range(1, 5))]
    return "items:\n" + items + mesh + "wires:\n" + _wires(*ends) + _splices(6)


def _separate_contacts() -> str:
    items = BATTERY + '  S1: {is: switch, contacts: {"1-2": on, "3-4": on, "5-6": off}}\n'
    ends = [("G1:+", "S1:1"), ("S1:2", "J1"), ("J1", "S1:3"), ("S1:4", "J2"), ("S1:5", "J2"), ("S1:6", "G1:-")]
    return "items:\n" + items + "wires:\n" + _wires(*ends) + _splices(2)


def _strip() -> str:
    item = "  X1: {is: terminal strip, ways: 30, joined: all}\n"
    ends = [("G1:+", "X1:1"), *((f"X1:{n}", "unknown") for n in range(2, 31)), ("X1:5", "X1:9"), ("X1:2", "X1:2")]
    return "items:\n" + BATTERY + item + "wires:\n" + _wires(*ends)


def _plugs() -> str:
    plugs = "plugs:\n  X1: {face: rect-1x2, mates with: X2}\n  X2: {face: rect-1x2}\n  X3: {face: rect-1x2}\n"
    ends = [("X1:1", "X3:1"), ("X3:1", "J1"), ("X2:1", "J1"), ("X2:2", "X1:2"), ("X3:2", "X3:2"), ("X9:1", "chassis")]
    return plugs + "wires:\n" + _wires(*ends) + _splices(1)


CASES = {
    "one wire": "wires:\n" + _wires(("unknown", "unknown")),
    "tails": "wires:\n" + _wires(("tail", "tail"), ("J1", "tail"), ("unknown", "J1")) + _splices(1),
    "to itself": "wires:\n" + _wires(("J1", "J1"), ("J1", "J2"), ("J2", "J1")) + _splices(2),
    "earth to earth": "items:\n  XE1: {is: earth point}\n  XE2: {is: earth point}\nwires:\n" + _wires(("XE1", "XE2")),
    "ring": _ring(),
    "forty branches": _branches(),
    "fifty pins": _module(),
    "two sources": _two_sources(),
    "backwards": _backwards(),
    "holding": _holding(),
    "rotary": _rotary(),
    "separate contacts": _separate_contacts(),
    "long strip": _strip(),
    "plugs": _plugs(),
}


@pytest.mark.parametrize("name", CASES)
def test_odd(name: str) -> None:
    harness = read_text("harness: {title: Odd, number: O}\n" + CASES[name])
    study = study_of(harness)
    for pages in (strip_sheets(harness, study, paper="A4"), [circuit_strip(harness, study, "c")]):
        labels = [g.title for page in pages for g in groups(page) if g.name.startswith("label-")]
        assert sorted(labels) == sorted(f"wire {wire}" for wire in harness.wires)
        pdf = pdf_bytes(pages)
        for page, boxes, lines in zip(pages, text_boxes(pdf), straight_lines(pdf), strict=True):
            assert not [(a.text, b.text) for a, b in overlaps(boxes)]
            assert not outside(boxes, 0, 0, page.width_mm, page.height_mm)
            assert not crossed(boxes, lines)


def test_nothing_at_all() -> None:
    harness = read_text("harness: {title: Odd, number: O}\ncircuits:\n  c: {title: Nothing yet}\n")
    study = study_of(harness)
    assert len(strip_sheets(harness, study)) == 1
    assert circuit_strip(harness, study, "c").width_mm == 180.0


def test_listed_item_without_wires() -> None:
    """An item that the circuit lists and nothing lands on is drawn and says so."""
    text = "items:\n  F1: {is: fuse, rating: 5 A}\n  A1: {is: module, terminals: [x]}\n"
    text += "circuits:\n  c: {items: [F1, A1]}\n"
    harness = read_text("harness: {title: Odd, number: O}\n" + text)
    page = circuit_strip(harness, study_of(harness), "c")
    assert sum("no wire lands on it" in g.texts for g in groups(page)) == 2


def test_own_strips_for_switch_contacts_are_linked() -> None:
    harness = read_text("harness: {title: Odd, number: O}\n" + _separate_contacts())
    page = circuit_strip(harness, study_of(harness), "c", width_mm=500.0)
    assert len([g for g in groups(page) if g.name.startswith("link-S1")]) == 2
