"""Papers that say something else: which labels, sheets and records, and that others are left alone."""

from __future__ import annotations

from harnessdoc.changes.reprint import LabelChange, labels_to_print
from harnessdoc.labels.says import labels
from tests.changes.written import BASE, compared, edited
from tests.electrics.written import harness_of


def of_wires(found: tuple[LabelChange, ...]) -> list[LabelChange]:
    """Labels of wires' ends and of stubs; items and runs may have theirs besides."""
    return [label for label in found if label.role in ("wire end", "stub")]


def test_a_moved_end_wants_two_labels_and_one_taken_off() -> None:
    """W3 leaves F1:2 for F2:2: both its labels name that point; the one at S1:1 is replaced where it is."""
    again = compared(edited(('from: "F1:2", to', 'from: "F2:2", to'))).reprint
    assert [(label.subject, label.was) for label in of_wires(again.labels)] == [
        ("W3 at F2:2", ""),
        ("W3 at S1:1", "W3, S1:1, → F1:2, RD 2.5 mm², Pump"),
    ]
    assert [label.subject for label in of_wires(again.labels_off)] == ["W3 at F1:2"]


def test_a_resized_wire_wants_both_its_labels_and_no_other() -> None:
    again = compared(edited(("size: 2.5 mm2, length: 400 mm", "size: 4 mm2, length: 400 mm"))).reprint
    found = of_wires(again.labels)
    assert sorted(label.subject for label in found) == ["W3 at F1:2", "W3 at S1:1"]
    assert again.labels_off == ()
    assert all("4 mm²" in label.says and "2.5 mm²" in label.was for label in found)


def test_the_labels_of_renamed_parts_take_the_place_of_the_old_ones() -> None:
    again = compared(BASE.replace("F2", "F12").replace("W7", "W70")).reprint
    assert of_wires(again.labels_off) == []
    assert {label.subject: label.was for label in of_wires(again.labels)}["W70 at F12:2"] == (
        "W7, F2:2, → E1:1, BN 1 mm², Light"
    )


def test_what_no_label_says_wants_no_label() -> None:
    for edit in (("400 mm", "500 mm"), ("[ring M8, tab 6.3]", "[ring M6, tab 6.3]"), ("12.1 V", "12 V")):
        assert compared(edited(edit)).reprint.labels == ()


def test_another_address_means_every_label_that_leads_there() -> None:
    """The pump's key changes: W3, W4 and W5 have two ends each, and the stub X4:1 was part of W4."""
    changes = compared(edited(("pump: {title: Pump, items", "pump: {title: Pump, key: PUMP1, items")))
    ends = [label.subject for label in of_wires(changes.reprint.labels)]
    assert sorted(ends) == sorted(
        ["W3 at F1:2", "W3 at S1:1", "W4 at S1:2", "W4 at M1:1", "W5 at M1:2", "W5 at J1", "stub X4:1"]
    )
    assert all(label.payload == "https://r.example/b/PUMP1/" for label in of_wires(changes.reprint.labels))
    assert [(paper.name, paper.key) for paper in changes.reprint.records] == [("pump", "PUMP1")]
    assert [paper.name for paper in changes.reprint.records_off] == ["pump"]


def test_labels_that_nothing_of_has_changed_are_not_printed() -> None:
    harness = harness_of(BASE)
    assert labels_to_print(harness, harness) == ()
    nothing = harness_of("harness: {title: Bench loom, number: B-1, revision: A, records: https://r.example/b}\n")
    assert labels_to_print(nothing, harness) == labels(harness)


def test_the_pin_out_sheet_of_a_plug_whose_stub_changed() -> None:
    again = compared(edited(("colour: violet, ", "colour: blue, "))).reprint
    assert [(paper.name, paper.why) for paper in again.plugs] == [("X4", "cavity 2")]
    assert compared(edited(("colour: brown", "colour: blue"))).reprint.plugs == ()


def test_the_pin_out_sheet_of_a_plug_whose_head_changed_is_new_or_is_gone() -> None:
    plug = 'X4: {face: rect-2x3, place: cab, cut: {"1": 2026-03-01, "2": 2026-03-02}, legend: {"1": PMP}}'
    seen = compared(edited((plug, plug.replace("place: cab", "view: mating face, place: cab")))).reprint.plugs
    assert [(paper.name, paper.why) for paper in seen] == [("X4", "view")]
    added = compared(edited(("plugs:\n", "plugs:\n  X9: {face: rect-1x2, place: cab}\n"))).reprint
    assert [(paper.name, paper.why) for paper in added.plugs] == [("X9", "new")]
    assert [paper.name for paper in compared(edited((plug, ""))).reprint.plugs_off] == ["X4"]


def test_the_records_of_circuits_that_changed() -> None:
    """A longer wire to the lamp: its card in the record of its circuit."""
    again = compared(
        edited(
            ("to: J1, colour: black, size: 1 mm2, length: 200 mm", "to: J1, colour: black, size: 1 mm2, length: 300 mm")
        )
    ).reprint
    assert [(paper.name, paper.why) for paper in again.records] == [("light", "wires W8")]


def test_a_record_whose_currents_changed_though_none_of_its_parts_did() -> None:
    """A motor of 8 A for one of 5 A: the supply's wires W1 and W6 carry 3 A more; W2 feeds the lamp alone."""
    again = compared(edited(("amps: 5 A", "amps: 8 A"))).reprint
    why = {paper.name: paper.why for paper in again.records}
    assert why["supply"] == "currents W1, W6"
    assert "parts M1" in why["pump"]
    assert "light" not in why


def test_a_circuit_that_is_gone_leaves_a_record_that_nothing_leads_to() -> None:
    again = compared(
        edited(("  light: {title: Light, items: [F2, E1]}\n", "")).replace("circuit: light", "circuit: pump")
    )
    assert [paper.name for paper in again.reprint.records_off] == ["light"]


def test_the_drawing_is_printed_for_what_it_shows() -> None:
    assert [paper.name for paper in compared(edited(("colour: brown", "colour: blue"))).reprint.sheets] == [
        "harness drawing"
    ]
    assert compared(edited(("12.1 V", "12.2 V"))).reprint.sheets == ()
