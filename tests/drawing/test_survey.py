"""Survey sheets: what is known stands in them, what is not is left to write; cavities as the labels come."""

from __future__ import annotations

import pytest

from harnessdoc.drawing.survey import survey_sheets
from harnessdoc.drawing.survey_known import Known, known_of
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness
from harnessdoc.sheet.output import pdf_bytes, svg_text
from tests.drawing.paper import crossed, straight_lines
from tests.drawing.samples import IN_FILES
from tests.drawing.samples import harness as sample
from tests.electrics.written import harness_of
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes

READ = """
items:
  G1: {is: battery, volts: 12 V}
  S1: {is: switch, contacts: {"1-2": on}}
  XE1: {is: earth point}
plugs:
  X1: {face: {rows: 2, columns: 6}, empty: ["12"], cut: {"3": 2026-02-01}, legend: {"2": PMP}}
wires:
  W1: {from: X1:10, to: unknown, colour: unknown, size: unknown}
  W2: {from: X1:2, to: S1:2, colour: red/black, size: 2.5 mm2, circuit: pump, drive: high side}
circuits: {pump: {title: Spray pump}}
stubs: {X1:3: {colour: blue, size: 1 mm2, length: 60 mm, did: horn, capped: true}}
readings:
  - {on: 2026-01-05, between: [X1:2, chassis], when: {S1: "off"}, volts: 0 V}
  - {on: 2026-01-05, between: [X1:2, XE1], when: {S1: "on"}, volts: 12.4 V, loaded with: 21 W lamp}
  - {on: 2026-01-05, between: [X1:2, chassis], ohms: 76 ohm}
  - {on: 2026-01-05, between: ["G1:+", X1:2], continuity: false}
  - {on: 2026-01-05, between: [X1:3, chassis], ohms: 5 ohm}
  - {on: 2026-02-02, between: [X1:3, chassis], ohms: 9 ohm}
"""


def known(harness: Harness) -> dict[str, Known]:
    return {one.cavity: one for one in known_of(harness, harness.plugs["X1"])}


def test_readings_stand_in_their_columns() -> None:
    """Key off is all named switches at rest; ohms to the chassis or an earth point, or to a source's plus."""
    two = known(harness_of(READ))["2"]
    assert (two.off_v, two.on_v) == ("0 V", "12.4 V (21 W lamp)")
    assert (two.ground_ohm, two.supply_ohm) == ("76 Ω", "open")
    assert (two.wire, two.legend, two.does, two.drives) == ("W2", "PMP", "Spray pump", "+ (drives high side)")
    assert [colour.code for colour in two.colours] == ["RD/BK"]


def test_a_reading_after_the_cut_is_left_out() -> None:
    three = known(harness_of(READ))["3"]
    assert three.ground_ohm == "5 Ω"
    assert (three.wire, three.does, three.stub) == ("cut", "horn", "60 mm")


def test_what_nobody_knows_is_left_to_write() -> None:
    found = known(harness_of(READ))
    assert found["1"] == Known("1", "", "", (), "", "", "", "", "", "", "", "", False)
    assert (found["10"].wire, found["10"].colours, found["10"].size) == ("W1", (), "")
    assert found["12"].empty


def test_cavities_come_in_the_order_of_the_labels() -> None:
    assert list(known(harness_of(READ))) == [str(number) for number in range(1, 13)]
    mixed = "plugs: {X1: {face: {cavities: {B10: [0, 0], A2: [9, 0], A10: [18, 0]}}}}\n"
    assert list(known(harness_of(mixed))) == ["A2", "A10", "B10"]


@pytest.mark.parametrize("name", ["sample", "awkward", "read"])
def test_texts_keep_to_their_place(name: str) -> None:
    harness = harness_of(READ) if name == "read" else sample(name)
    for plug in harness.plugs:
        pages = survey_sheets(harness, plug, "ABCDEFGH")
        pdf = pdf_bytes(pages)
        for page, boxes, lines in zip(pages, text_boxes(pdf), straight_lines(pdf), strict=True):
            assert smallest_cap_height_mm(boxes) > 2.49
            assert [(a.text, b.text) for a, b in overlaps(boxes)] == []
            assert crossed(boxes, lines) == []
            assert outside(boxes, 15, 5, page.width_mm - 5, page.height_mm - 5) == []


def test_no_heading_breaks_a_word_and_the_sheet_is_the_same_each_time() -> None:
    first, second = (
        [svg_text(page) for page in survey_sheets(read_harness(IN_FILES["sample"]), "X4")] for _ in range(2)
    )
    assert first == second
    words = [box.text for box in text_boxes(pdf_bytes(survey_sheets(sample("sample"), "X4")))[0]]
    assert {"photo", "taken", "stagger,", "legend", "housing", "drives"} <= set(words)
