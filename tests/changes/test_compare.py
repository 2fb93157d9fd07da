"""Each sort of change, made by one edit of a small file; what must come out is written by hand."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest

from harnessdoc.changes.compare import compare
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Item, Title, Wire
from harnessdoc.model.kinds.joints import TerminalStrip
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.reading import read_harness
from tests.changes.written import BASE, compared, edited, lines
from tests.electrics.written import SAMPLE, harness_of

W3 = 'W3: {from: "F1:2", to: "S1:1", colour: red, size: 2.5 mm2, length: 400 mm, circuit: pump}'
X4 = 'X4: {face: rect-2x3, place: cab, cut: {"1": 2026-03-01, "2": 2026-03-02}, legend: {"1": PMP}}'
STUB_1 = '"X4:1": {colour: red/white, size: 2.5 mm2, length: 60 mm, from: W4, did: pump, capped: true}'

WIRES = [
    (
        ("W9: {", 'W10: {from: "F2:2", to: J1, colour: grey, size: 1 mm2, length: 90 mm, circuit: light}\n  W9: {'),
        ["wire added: W10: F2:2 – J1, GY 1 mm², 90 mm, circuit light"],
    ),
    ((W3, ""), ["wire gone: W3: F1:2 – S1:1, RD 2.5 mm², 400 mm, circuit pump"]),
    (('from: "F1:2", to', 'from: "F2:2", to'), ["wire moved: W3: from: F1:2 → F2:2"]),
    (('W3: {from: "F1:2", to: "S1:1", colour: red', 'W3: {from: "F1:2", to: "S1:1", colour: red/blue'),
     ["wire recoloured: W3: colour: RD → RD/BU"]),
    (("size: 2.5 mm2, length: 400 mm", "size: 4 mm2, length: 400 mm"), ["wire resized: W3: size: 2.5 mm² → 4 mm²"]),
    (("400 mm", "1.2 m"), ["wire re-lengthened: W3: length: 400 mm → 1.2 m"]),
    (("W3: {", "W33: {"), ["wire renamed: W3 → W33"]),
    (("[ring M8, tab 6.3]", "[ring M6, tab 6.3]"), ["wire hardware: W1: hardware at G1:+: ring M8 → ring M6"]),
    (("400 mm, circuit: pump", "400 mm, circuit: light"), ["wire circuit: W3: circuit: pump → light"]),
    (("tail, to: unknown", 'tail, to: "E1:1"'), ["wire found out: W9: to: unknown → E1:1"]),
    (("colour: unknown", "colour: violet"), ["wire found out: W9: colour: unknown → VT"]),
    (("from: tail, to", "from: J1, to"), ["wire moved: W9: from: tail → J1"]),
    (("size: 1 mm2, laid: existing", "size: unknown, laid: existing"), ["wire unknown now: W9: size: 1 mm² → unknown"]),
    (("laid: existing, ", ""), ["wire changed: W9: laid: existing → new"]),
    ((W3, W3.replace("circuit", "role: feed, circuit")), ["wire changed: W3: role: not stated → feed"]),
]  # fmt: skip


@pytest.mark.parametrize(("edit", "expected"), WIRES)
def test_a_change_of_a_wire(edit: tuple[str, str], expected: list[str]) -> None:
    assert lines(edit) == expected


def test_a_wire_cut_from_its_plug_says_so() -> None:
    old = edited(('W3: {from: "F1:2"', 'W3: {from: "X4:3"'))
    new = edited(('to: "S1:1", colour: red, size', 'to: "S1:1", was at: "X4:3", colour: red, size'))
    assert [line.text for line in compared(new, old).lines] == ["W3: from: X4:3 → F1:2 (cut from X4:3)"]


def test_turned_round_and_in_another_order_nothing_changed() -> None:
    turned = 'W3: {from: "S1:1", to: "F1:2", colour: red, size: 2.5 mm2, length: 400 mm, circuit: pump}'
    new = edited((W3, turned), ("between: [cab, mast]", "between: [mast, cab]"))
    rows = [row for row in BASE.splitlines() if row.startswith("  W")]
    shuffled = BASE.replace("\n".join(rows), "\n".join(reversed(rows)))
    assert compared(new).lines == ()
    assert compared(shuffled).lines == ()


def test_an_end_of_a_turned_wire_moves_with_its_hardware() -> None:
    turned = (
        ('W1: {from: "G1:+", to: "F1:1"', 'W1: {from: "S1:2", to: "G1:+"'),
        ("[ring M8, tab 6.3]", "[tab 6.3, ring M8]"),
    )
    assert lines(*turned) == ["wire moved: W1: from: F1:1 → S1:2"]


def test_a_length_by_runs_changes_with_the_run() -> None:
    assert lines(("length: 2 m", "length: 2.5 m")) == [
        "wire re-lengthened: W4: length: 2 m by runs → 2.5 m by runs",
        "wire re-lengthened: W6: length: 2 m by runs → 2.5 m by runs",
        "wire re-lengthened: W7: length: 2 m by runs → 2.5 m by runs",
        "run re-lengthened: cab - mast: length: 2 m → 2.5 m",
    ]


PARTS = [
    (("revision: A", "revision: B"), ["harness changed: B-1: revision: A → B"]),
    (("title: Bench loom", "title: Test loom"), ["harness changed: B-1: title: Bench loom → Test loom"]),
    (("F2: {is: fuse, rating: 5 A", "F2: {is: fuse, rating: 7.5 A"), ["item changed: F2: rating: 5 A → 7.5 A"]),
    (("F2: {is: fuse", "F2: {is: breaker"), ["item changed: F2: is: fuse 5 A blade → breaker 5 A blade"]),
    (('contacts: {"1-2": on}', 'contacts: {"1-2": up}'), ["item changed: S1: contacts: 1-2: on → up"]),
    (("at: 12 V, place: mast}\n  E1", "at: 12 V, place: cab}\n  E1"), ["item moved: M1: place: mast → cab",
     "wire unknown now: W4: length: 2 m by runs → unknown"]),
    ((X4, X4.replace('"2": 2026-03-02', '"2": 2026-03-02, "3": 2026-04-01')),
     ["plug cut: X4:3: cut: not cut → 2026-04-01"]),
    ((X4, X4.replace('"1": PMP', '"1": PUMP')), ["plug changed: X4:1: legend: PMP → PUMP"]),
    ((X4, X4.replace("2x3", "2x6")), ["plug changed: X4: face: rect-2x3 → rect-2x6"]),
    ((X4, ""), ["plug gone: X4: rect-2x3, cab"]),
    (("method: crimp", "method: solder"), ["splice hardware: J1: method: crimp → solder"]),
    (("splices:\n", "splices:\n  J2: {method: solder, place: cab}\n"), ["splice added: J2: solder, cab"]),
    ((STUB_1, STUB_1.replace("capped: true", "joined at: J1")), ["stub used: X4:1: free, capped → joined at J1"]),
    ((STUB_1, STUB_1.replace("capped: true", "capped: false")), ["stub changed: X4:1: capped: yes → no"]),
    ((STUB_1, STUB_1.replace(", did: pump", "")), ["stub unknown now: X4:1: did: pump → unknown"]),
    (("colour: violet, ", ""), ["stub unknown now: X4:2: colour: VT → unknown"]),
    (("stubs:\n", 'stubs:\n  "X4:3": {colour: grey, size: 1 mm2}\n'), ["stub added: X4:3: GY 1 mm², free, capped?"]),
    ((STUB_1, ""), ["stub gone: X4:1: RD/WH 2.5 mm², from W4, free, capped"]),
    (("mast: {zone: outside}", "mast: {zone: wet}"), ["place changed: mast: zone: outside → wet"]),
    (("cover: split loom", "cover: braided sleeve"), ["run changed: cab - mast: cover: split loom → braided sleeve"]),
    (("title: Light, items", "title: Lamp, items"), ["circuit changed: light: title: Light → Lamp"]),
    (("items: [F2, E1]", "items: [F2]"), ["circuit changed: light: items: F2, E1 → F2"]),
    (("waived: not wanted", "replaced by: [S1]"), ["lost function changed: pump timer: replaced by: none → S1",
     "lost function changed: pump timer: waived: not wanted → not stated"]),
    (("live: [M1]", "dead: [M1]"),
     ["operation changed: S1 on: dead: none → M1", "operation changed: S1 on: live: M1 → none"]),
    (("when: {S1: on}, live", "when: {S1: off}, live"),
     ["operation added: S1 off: live M1", "operation gone: S1 on: live M1"]),
    (("12.1 V", "11.9 V"), ["reading changed: X4:1 against chassis, 2026-03-01, S1 on: volts: 12.1 V → 11.9 V"]),
]  # fmt: skip


@pytest.mark.parametrize(("edit", "expected"), PARTS)
def test_a_change_of_another_part(edit: tuple[str, str], expected: list[str]) -> None:
    assert sorted(lines(edit)) == sorted(expected)


def test_a_stub_in_a_cavity_that_was_cut_now_says_when() -> None:
    new = edited(
        ('"2": 2026-03-02}', '"2": 2026-03-02, "3": 2026-04-01}'),
        ("stubs:\n", 'stubs:\n  "X4:3": {colour: grey, size: 1 mm2, capped: true}\n'),
    )
    assert "X4:3: GY 1 mm², free, capped (cut 2026-04-01)" in [line.text for line in compared(new).lines]


def test_a_stub_that_is_freed() -> None:
    used = edited((STUB_1, STUB_1.replace("capped: true", "joined at: J1")))
    assert [line.text for line in compared(BASE, used).lines] == ["X4:1: joined at J1 → free, capped"]


def test_another_number_changes_the_address_of_every_record() -> None:
    found = [line for line in compared(edited(("number: B-1", "number: B-2"))).lines if line.what == "address"]
    assert [line.name for line in found] == ["light", "pump", "supply"]
    assert all(line.old.startswith("https://r.example/b/") and line.old != line.new for line in found)
    assert {line.note for line in found} == {"every label that leads there"}


def test_a_stated_key_keeps_the_address() -> None:
    old = edited(("pump: {title: Pump, items", "pump: {title: Pump, key: PUMP1, items"))
    new = edited(("number: B-1", "number: B-2"), text=old)
    assert "pump" not in {line.name for line in compared(new, old).lines if line.what == "address"}


def test_a_harness_compared_with_itself_has_not_changed() -> None:
    for harness in (harness_of(BASE), read_harness(SAMPLE)):
        changes = compare(harness, harness)
        assert changes.lines == ()
        assert changes.reprint == type(changes.reprint)()
        assert changes.retests == type(changes.retests)()


def test_lines_stand_by_section_then_what_then_name() -> None:
    found = compared(
        edited(
            ("revision: A", "revision: B"),
            ("W3: {", "W33: {"),
            ("colour: brown", "colour: blue"),
            ('W8: {from: "E1:2"', 'W8: {from: "E1:1"'),
            ("F2: {is: fuse, rating: 5 A", "F2: {is: fuse, rating: 4 A"),
        )
    ).lines
    assert [(line.section, line.what) for line in found] == [
        ("harness", "changed"),
        ("wire", "renamed"),
        ("wire", "moved"),
        ("wire", "recoloured"),
        ("item", "changed"),
    ]


def of_size(wires: int, size: Size) -> Harness:
    """A harness of so many wires between terminals of strips, every other one of the size."""
    ends = [(End(Point(f"X{n}", "1")), End(Point(f"X{n}", "2"))) for n in range(wires)]
    plain = Size(1.0, "1 mm²")
    made = (
        Wire(f"W{n}", a, b, Colour("RD"), plain if n % 2 else size, 100.0, f"c{n % 50}")
        for n, (a, b) in enumerate(ends)
    )
    items = {f"X{n}": Item(f"X{n}", TerminalStrip()) for n in range(wires)}
    return Harness(Title("t", "N"), items=items, wires={wire.name: wire for wire in made})


def test_ten_thousand_wires_are_compared_in_a_few_seconds() -> None:
    """A second or less on a desk machine; the limit is that of a busy one. All pairs of wires would take an hour."""
    old, new = of_size(10_000, Size(2.5, "2.5 mm²")), of_size(10_000, Size(4.0, "4 mm²"))
    began = time.process_time()
    changes = compare(old, new)
    assert len(changes.lines) == 5000
    assert time.process_time() - began < 10


def test_ten_thousand_wires_under_other_names_are_matched_in_a_few_seconds() -> None:
    old = of_size(10_000, Size(2.5, "2.5 mm²"))
    new = replace(old, wires={f"V{name}": replace(wire, name=f"V{name}") for name, wire in old.wires.items()})
    began = time.process_time()
    assert {line.what for line in compare(old, new).lines} == {"renamed"}
    assert time.process_time() - began < 10
