"""What labels say and their working order, on harnesses small enough to work by hand."""

from __future__ import annotations

from dataclasses import replace

from harnessdoc.labels.says import NO_CIRCUIT, Label, Role, labels, wire_labels
from harnessdoc.model.colours import Colour
from harnessdoc.model.face import Cavity, Face
from harnessdoc.model.harness import Circuit, End, Harness, Plug, Splice, Stub, Title, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size

FACE = Face("f", "rect", 10, 10, tuple(Cavity(str(n), n, 0) for n in range(1, 13)))
PLUG = Plug("X4", FACE, place="cab")
MM = Size(2.5, "2.5 mm²")
TITLE = Title("Loom", "OS-01", records="https://records.example/os-01")
W12 = Wire("W12", End(Point("X4", "10")), End(Point("S1", "1")), Colour("RD", ("BK",)), MM, circuit="agitator")
W31 = Wire("W31", End(tail=True), End(Point("K1", "85")), Colour("YE"), None, circuit="pump", was_at=Point("X4", "3"))
STUB = Stub(Point("X4", "3"), Colour("YE"), Size(1, "1 mm²"), 60, "W31", "pump relay drive", True)
CIRCUITS = {"agitator": Circuit("agitator", "Agitator motor", key="AGI1"), "pump": Circuit("pump", "Pump", key="PUM1")}
HARNESS = Harness(
    TITLE,
    plugs={"X4": PLUG},
    wires={"W12": W12, "W31": W31},
    stubs={STUB.point: STUB},
    circuits=CIRCUITS,
    splices={"J2": Splice("J2", place="cab"), "J10": Splice("J10", place="cab")},
)


def said(label: Label) -> list[str]:
    return [field.full for field in label.fields]


def by_subject(harness: Harness) -> dict[str, Label]:
    return {label.subject: label for label in labels(harness)}


def test_a_wire_end_says_both_points_colour_size_and_circuit() -> None:
    found = by_subject(HARNESS)
    here, there = found["W12 at X4:10"], found["W12 at S1:1"]
    assert here.number == there.number == "W12"
    assert said(here) == ["X4:10", "→ S1:1", "RD/BK 2.5 mm²", "Agitator motor"]
    assert said(there) == ["S1:1", "→ X4:10", "RD/BK 2.5 mm²", "Agitator motor"]
    assert here.payload == there.payload == "https://records.example/os-01/AGI1/"


def test_a_cut_wire_has_its_stub_on_the_plug_side_and_its_tail_on_the_loom_side() -> None:
    found = by_subject(HARNESS)
    stub, tail = found["stub X4:3"], found["W31 at tail"]
    assert stub.role is Role.STUB
    assert stub.number == "X4:3"
    assert said(stub) == ["plug side, W31", "YE 1 mm²", "pump relay drive"]
    assert said(tail) == ["loom side X4:3", "→ K1:85", "YE size?", "Pump"]
    assert stub.payload == tail.payload == "https://records.example/os-01/PUM1/"


def test_a_stub_joined_again_says_where() -> None:
    joined = replace(STUB, joined_at=Point("J5"), did=None)
    (label,) = wire_labels(Harness(TITLE, plugs={"X4": PLUG}, stubs={STUB.point: joined}))
    assert said(label) == ["plug side, W31", "→ J5", "YE 1 mm²", "did: unknown"]
    assert label.payload is None
    assert label.no_payload == NO_CIRCUIT


def test_unknowns_are_said() -> None:
    bare = Wire("W1", End(), End(tail=True))
    found = {label.subject: said(label) for label in labels(Harness(TITLE, wires={"W1": bare}))}
    assert found == {
        "W1 at unknown": ["unknown", "→ tail", "colour? size?"],
        "W1 at tail": ["loom side, tail", "→ unknown", "colour? size?"],
    }


def test_without_an_address_the_payload_is_the_record_s_line() -> None:
    bare = replace(HARNESS, title=replace(TITLE, records=None))
    assert by_subject(bare)["W12 at S1:1"].payload == "OS-01 Agitator motor: W12"


def test_plugs_come_first_by_cavity_counted_as_numbers_with_tails_at_their_old_cavity() -> None:
    order = [label.subject for label in wire_labels(HARNESS)]
    assert order == ["stub X4:3", "W31 at tail", "W12 at X4:10", "W31 at K1:85", "W12 at S1:1"]


def test_then_by_place_and_item_and_the_unknown_last() -> None:
    wires = [
        Wire("W3", End(), End(Point("Z9", "1"))),
        Wire("W2", End(Point("J10")), End(Point("J2"))),
        Wire("W1", End(Point("X4", "9")), End(Point("A1", "10"))),
        Wire("W4", End(Point("X4", "1")), End(Point("A1", "9"))),
    ]
    order = [one.subject for one in wire_labels(replace(HARNESS, stubs={}, wires={one.name: one for one in wires}))]
    assert order == [
        "W4 at X4:1",
        "W1 at X4:9",
        "W2 at J2",
        "W2 at J10",
        "W4 at A1:9",
        "W1 at A1:10",
        "W3 at Z9:1",
        "W3 at unknown",
    ]


def test_renaming_titles_and_reordering_the_file_change_no_payload() -> None:
    keyless = {name: replace(circuit, key=None) for name, circuit in CIRCUITS.items()}
    before = replace(HARNESS, circuits=keyless)
    renamed = {name: replace(circuit, title="Other") for name, circuit in keyless.items()}
    after = Harness(
        replace(TITLE, title="Renamed", revision="Z"),
        plugs=HARNESS.plugs,
        wires=dict(reversed(HARNESS.wires.items())),
        stubs=HARNESS.stubs,
        circuits=dict(reversed(renamed.items())),
        splices=HARNESS.splices,
    )
    old, new = by_subject(before), by_subject(after)
    assert {name: one.payload for name, one in old.items()} == {name: one.payload for name, one in new.items()}
    assert [one.subject for one in labels(before)] == [one.subject for one in labels(after)]
