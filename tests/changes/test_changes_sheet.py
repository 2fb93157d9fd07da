"""The changes sheet on the rendered page: nothing small, nothing overlapping, a box for everything to be done."""

from __future__ import annotations

import pytest

from harnessdoc.changes.changes_sheet import changes_sheets
from harnessdoc.changes.compare import Changes
from harnessdoc.reading import read_harness
from harnessdoc.sheet.output import pdf_bytes, svg_text
from harnessdoc.sheet.page import Page
from tests.changes.written import BASE, compared, edited
from tests.electrics.written import SAMPLE
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes

LONG = "many words " * 30
EDITS = (
    ("revision: A", "revision: B"),
    ("size: 2.5 mm2, length: 400 mm", "size: 4 mm2, length: 400 mm"),
    ('from: "F1:2", to', 'from: "F2:2", to'),
    ("colour: violet, ", "colour: blue, "),
    ("W7: {", "W70: {"),
    ("watts: 21 W", "watts: 55 W"),
)


def sample_with_another_fuse_and_wires() -> Changes:
    """The sample, its agitator rewired: taken apart in the model, since its text belongs to others."""
    from dataclasses import replace

    from harnessdoc.changes.compare import compare
    from harnessdoc.model.colours import Colour
    from harnessdoc.model.quantities import Size

    old = read_harness(SAMPLE)
    wires = dict(old.wires)
    wires["W13"] = replace(wires["W13"], size=Size(4.0, "4 mm²"), colour=Colour("RD", ("WH", "BK")))
    wires["W90B"] = replace(wires.pop("W90"), name="W90B")
    wires["W87"] = replace(wires["W87"], remarks=LONG)
    return compare(old, replace(old, wires=wires))


CASES = {
    "small": lambda: compared(edited(*EDITS)),
    "all gone": lambda: compared("harness: {title: t, number: N}\n"),
    "all new": lambda: compared(BASE, "harness: {title: t, number: N}\n"),
    "long": lambda: compared(
        edited(("title: Light, items", f"title: {LONG}, items"), ("W7: {", f"{LONG.strip()[:120]}: {{"))
    ),
    "sample": sample_with_another_fuse_and_wires,
}


@pytest.mark.parametrize("case", CASES)
def test_texts_keep_to_their_place(case: str) -> None:
    pages = changes_sheets(CASES[case]())
    assert pages
    for boxes in text_boxes(pdf_bytes(pages)):
        assert smallest_cap_height_mm(boxes) > 2.49
        assert overlaps(boxes) == []
        assert outside(boxes, 15, 5, 205, 292) == []


def texts(pages: list[Page]) -> str:
    return " ".join(box.text for boxes in text_boxes(pdf_bytes(pages)) for box in boxes).replace(
        "\N{NO-BREAK SPACE}", " "
    )


def test_it_says_what_changed_and_what_to_do() -> None:
    changes = compared(edited(*EDITS))
    said = texts(changes_sheets(changes))
    assert f"Old: B-1 revision A, content mark {changes.marks[0]}" in said
    assert f"New: B-1 revision B, content mark {changes.marks[1]}" in said
    for words in ("Changed: wires", "Labels to print", "Labels to take off", "pin-out sheet X4", "harness drawing",
                  "Wires worked on: tug", "Readings to take: Pump", "should read", "W70"):  # fmt: skip
        assert words in said


def test_every_line_has_its_box_to_tick() -> None:
    """Squares of 3.5 mm: one for each change, label, paper, wire and reading."""
    changes = compared(edited(*EDITS))
    again, meter = changes.reprint, changes.retests
    wanted = sum(
        map(len, (changes.lines, again.labels, again.labels_off, again.plugs, again.records, again.sheets,
                  again.plugs_off, again.records_off, meter.wires, meter.tests))
    )  # fmt: skip
    drawn = "".join(svg_text(page) for page in changes_sheets(changes))
    assert drawn.count('height="3.5"') == wanted


def test_nothing_changed_is_no_sheet() -> None:
    assert changes_sheets(compared(BASE)) == []


def test_the_same_changes_give_the_same_sheet() -> None:
    first, second = ([svg_text(page) for page in changes_sheets(compared(edited(*EDITS)))] for _ in range(2))
    assert first == second


def test_what_the_file_says_is_escaped() -> None:
    drawn = "".join(svg_text(page) for page in changes_sheets(compared(edited(("title: Light", "title: '<b>&'")))))
    assert "<b>" not in drawn


def test_cautions_stand_on_every_sheet() -> None:
    for boxes in text_boxes(pdf_bytes(changes_sheets(compared(edited(*EDITS))))):
        assert any(box.text.startswith("Isolate the battery before you touch a wire") for box in boxes)
