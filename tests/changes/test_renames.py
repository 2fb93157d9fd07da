"""Names that changed and nothing else: wires by their ends, parts by the wires on them. What is not clear is said."""

from __future__ import annotations

from tests.changes.written import BASE, compared, edited, lines, told
from tests.electrics.written import harness_of


def test_an_item_with_the_same_wires_on_it_is_renamed_and_no_wire_moved() -> None:
    new = BASE.replace("F2", "F12")
    changes = compared(new)
    assert [told(line) for line in changes.lines] == ["item renamed: F2 → F12"]
    assert changes.renames.items == {"F2": "F12"}


def test_a_renamed_item_with_another_rating_is_another_item() -> None:
    new = BASE.replace("F2", "F12").replace("rating: 5 A", "rating: 6 A")
    found = [told(line) for line in compared(new).lines]
    assert "item gone: F2: fuse 5 A blade, cab" in found
    assert "item added: F12: fuse 6 A blade, cab" in found
    assert "wire moved: W7: from: F2:2 → F12:2" in found


def test_plug_splice_place_and_circuit_are_renamed() -> None:
    for old, new, expected in (
        ("X4", "X40", "plug renamed: X4 → X40"),
        ("J1", "J10", "splice renamed: J1 → J10"),
        ("mast", "boom", "place renamed: mast → boom"),
    ):
        assert [told(line) for line in compared(BASE.replace(old, new)).lines] == [expected]
    renamed = [
        told(line)
        for line in compared(BASE.replace("circuit: light", "circuit: lamp").replace("light:", "lamp:")).lines
    ]
    assert renamed[0] == "circuit renamed: light → lamp"
    assert [line.split(":")[0] for line in renamed] == ["circuit renamed", "circuit address"]


def test_renamed_and_moved_to_another_place() -> None:
    new = edited(("rating: 5 A, style: blade, place: cab", "rating: 5 A, style: blade, place: mast"))
    found = [told(line) for line in compared(new.replace("F2", "F12")).lines]
    assert "item renamed: F2 → F12" in found
    assert "item moved: F12: place: cab → mast" in found


def test_a_renamed_wire_is_known_even_when_its_stub_names_it() -> None:
    assert [told(line) for line in compared(BASE.replace("W4", "W44")).lines] == ["wire renamed: W4 → W44"]


def test_a_tail_is_known_by_the_cavity_that_it_was_cut_from() -> None:
    assert [told(line) for line in compared(BASE.replace("W9", "W90")).lines] == ["wire renamed: W9 → W90"]


def test_between_the_same_points_but_of_another_colour_is_another_wire_and_said() -> None:
    assert lines(("W7: {from", "W70: {from"), ("colour: brown", "colour: blue")) == [
        "wire added: W70: F2:2 – E1:1, BU 1 mm², circuit light (W7 is gone, between the same points: perhaps renamed)",
        "wire gone: W7: F2:2 – E1:1, BN 1 mm², circuit light (W70 is new, between the same points: perhaps renamed)",
    ]


TWINS = (
    '  {0}: {{from: "F2:2", to: "E1:1", colour: brown, size: 1 mm2, circuit: light}}\n'
    '  {1}: {{from: "F2:2", to: "E1:1", colour: brown, size: 1 mm2, circuit: light}}\n'
)
PLAIN = BASE.replace('  W7: {from: "F2:2", to: "E1:1", colour: brown, size: 1 mm2, circuit: light}\n', "{twins}")


def test_two_that_are_alike_are_gone_and_added_and_said() -> None:
    old, new = (PLAIN.replace("{twins}", TWINS.format(*names)) for names in (("WA", "WB"), ("WC", "WD")))
    found = compared(new, old)
    assert found.renames.wires == {}
    assert [(line.name, line.what, line.note) for line in found.lines] == [
        ("WC", "added", "WA and WB are gone, between the same points: perhaps renamed"),
        ("WD", "added", "WA and WB are gone, between the same points: perhaps renamed"),
        ("WA", "gone", "WC and WD are new, between the same points: perhaps renamed"),
        ("WB", "gone", "WC and WD are new, between the same points: perhaps renamed"),
    ]


def test_a_cable_is_renamed_with_its_cores() -> None:
    cores = '{{red: {{from: "F2:2", to: "S1:1"}}, blue: {{from: J1, to: "S1:2"}}}}'
    cable = f"cables:\n  {{}}: {{{{size: 0.5 mm2, cores: {cores}}}}}\n"
    found = compared(BASE + cable.format("W21"), BASE + cable.format("W20")).lines
    assert sorted(map(told, found)) == [
        "cable renamed: W20 → W21",
        "wire renamed: W20.blue → W21.blue",
        "wire renamed: W20.red → W21.red",
    ]


def test_a_name_that_stood_for_something_else_is_no_rename() -> None:
    """F2 becomes X4 while the plug X4 goes: in the old file X4 meant the plug."""
    plug = '  X4: {face: rect-2x3, place: cab, cut: {"1": 2026-03-01, "2": 2026-03-02}, legend: {"1": PMP}}\n'
    new = edited((f"plugs:\n{plug}", ""), ('  "X4:1": {', '  "X5:1": {')).replace("F2", "X4")
    assert compared(new).renames.items == {}


def test_the_old_harness_told_in_new_names_is_the_new_one() -> None:
    new = (
        BASE.replace("F2", "F12").replace("J1", "J10").replace("mast", "boom").replace("M1", "M10").replace("W3", "W30")
    )
    assert compared(new).told == harness_of(new)
