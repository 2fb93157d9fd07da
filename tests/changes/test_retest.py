"""What to measure again: what was worked on, and what should read differently now."""

from __future__ import annotations

from harnessdoc.changes import retest
from harnessdoc.changes.compare import Changes
from harnessdoc.changes.retest import DIFFERENT, NEW, WORKED_ON
from tests.changes.written import BASE, compared, edited


def taken(changes: Changes, why: str) -> set[str]:
    """The readings to take for a reason, as `circuit: red lead – black lead`."""
    return {f"{one.group}: {one.test.a} – {one.test.b}" for one in changes.retests.tests if one.why == why}


def test_a_moved_wire_is_measured_end_to_end_and_its_circuit_again() -> None:
    changes = compared(edited(("size: 2.5 mm2, length: 400 mm", "size: 4 mm2, length: 400 mm")))
    (wire,) = changes.retests.wires
    assert (wire.wire, wire.a, wire.b, wire.why) == ("W3", "F1:2", "S1:1", "resized")
    assert wire.expected == "under 0.5 Ω"  # 0.4 m of 4 mm² is 2 milliohm; half an ohm for the leads
    assert changes.retests.circuits == ("pump",)
    assert {one.group for one in changes.retests.tests} == {"pump"}
    assert "pump: M1:1 – M1:2" in taken(changes, WORKED_ON)


def test_a_name_or_a_note_is_no_work() -> None:
    for edit in (("W3: {", "W33: {"), ("title: Light, items", "title: Lamp, items"), ("laid: existing, ", ""),
                 ("size: 1 mm2, laid: existing", "size: 1 mm2, remarks: odd, laid: existing")):  # fmt: skip
        again = compared(edited(edit)).retests
        assert again.wires == ()
        assert again.tests == ()
        assert again.circuits == ()


def test_what_was_only_found_out_is_no_work() -> None:
    again = compared(edited(("colour: unknown", "colour: violet"))).retests
    assert again == type(again)()


def test_an_expectation_that_changed_is_told_with_the_old_one() -> None:
    """A lamp of 55 W for one of 21 W at 12 V: 2.62 Ω hot instead of 6.86 Ω, a fifteenth of it cold; half an ohm and a
    tenth more for the leads. From 6.86 / 15 = 0.46 to 6.86 + 1.19 = 8.04, now from 0.17 to 2.62 + 0.76 = 3.38."""
    changes = compared(edited(("watts: 21 W", "watts: 55 W")))
    ohms = [one for one in changes.retests.tests if one.test.unit == "ohm" and str(one.test.a) == "E1:1"]
    assert [one.why for one in ohms] == [DIFFERENT]
    assert (ohms[0].was, ohms[0].test.expected) == ("0.5 Ω to 8 Ω", "0.2 Ω to 3.4 Ω")


def test_a_new_load_brings_new_readings() -> None:
    new = edited(
        ("plugs:\n", "  E2: {is: lamp, watts: 5 W, at: 12 V, place: mast}\nplugs:\n"),
        (
            "W9: {",
            'W10: {from: "F2:2", to: "E2:1", circuit: light}\n  W11: {from: "E2:2", to: J1, circuit: light}\n  W9: {',
        ),
        ("items: [F2, E1]", "items: [F2, E1, E2]"),
    )
    changes = compared(new)
    assert {"light: E2:1 – E2:2", "light: E2:2 – G1:-"} <= taken(changes, NEW)
    assert [one.wire for one in changes.retests.wires] == ["W10", "W11"]


def test_a_changed_item_is_tested_with_the_circuit_that_lists_it() -> None:
    changes = compared(edited(("F2: {is: fuse, rating: 5 A", "F2: {is: fuse, rating: 7.5 A")))
    assert changes.retests.circuits == ("light",)
    assert {one.group for one in changes.retests.tests} == {"light"}
    assert changes.retests.wires == ()


def test_a_wire_that_is_gone_leaves_its_circuit_to_be_tested() -> None:
    new = edited(('  W8: {from: "E1:2", to: J1, colour: black, size: 1 mm2, length: 200 mm, circuit: light}\n', ""))
    again = compared(new).retests
    assert again.circuits == ("light",)
    assert again.wires == ()
    assert again.tests


def test_a_wire_with_an_unknown_end_tells_no_ohms() -> None:
    (wire,) = compared(edited(("from: tail, to", "from: J1, to"))).retests.wires
    assert (wire.wire, wire.b, wire.expected) == ("W9", "unknown", "")


def test_renamed_parts_keep_their_readings() -> None:
    new = BASE.replace("F2", "F12").replace("M1", "M10")
    assert compared(new).retests.tests == ()


def test_meter_sheets_of_large_harnesses_are_not_compared_and_that_is_said(monkeypatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setattr(retest, "MOST_WIRES", 8)
    again = compared(edited(("400 mm", "500 mm"))).retests
    assert again.not_compared == "9 wires: meter sheets are compared up to 8"
    assert again.circuits == ("pump",)
    assert [one.wire for one in again.wires] == ["W3"]
    assert again.tests == ()
