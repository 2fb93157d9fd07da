"""The work sheet on the rendered page: legible, complete, in the order of the labels; with awkward names too."""

from __future__ import annotations

import pytest

from harnessdoc.checks.gate import gate
from harnessdoc.checks.rule import case_of
from harnessdoc.labels.cut_sides import cut_sides
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness
from harnessdoc.schedules.work_sheet import gate_sheets
from harnessdoc.sheet.output import pdf_bytes, svg_text
from harnessdoc.sheet.page import Page
from tests.checks.test_gate import ALL_YES, PLAIN, SAMPLE, uncut
from tests.drawing.samples import harness as sample
from tests.electrics.written import harness_of
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes

CASES = {
    "plain": (lambda: harness_of(PLAIN), "X1"),
    "sample": (lambda: read_harness(SAMPLE), "X4"),
    "uncut": (lambda: uncut(read_harness(SAMPLE)), "X4"),
    "awkward": (lambda: sample("awkward"), 'X"60'),
}


def sheets(harness: Harness, plug: str, answers: dict[str, str] | None = None, paper: str = "A4") -> list[Page]:
    return gate_sheets(harness, gate(case_of(harness), plug, answers), cut_sides(harness, plug), "ABCDEFGH", paper)


def texts(pages: list[Page]) -> str:
    return " ".join(box.text for boxes in text_boxes(pdf_bytes(pages)) for box in boxes)


@pytest.mark.parametrize("name", CASES)
def test_texts_keep_to_their_place(name: str) -> None:
    make, plug = CASES[name]
    pages = sheets(make(), plug)
    assert pages
    for boxes in text_boxes(pdf_bytes(pages)):
        assert smallest_cap_height_mm(boxes) > 2.49
        assert [(a.text, b.text) for a, b in overlaps(boxes)] == []
        assert outside(boxes, 15, 5, 205, 292) == []


def test_verdict_steps_and_cautions() -> None:
    no_go = texts(sheets(harness_of(PLAIN), "X1"))
    assert "NO GO: plug X1" in no_go
    go = texts(sheets(harness_of(PLAIN), "X1", ALL_YES))
    assert "NO GO" not in go
    assert "GO: plug X1" in go
    order = (
        "Survey live",
        "Isolate: turn S1",
        "Label both sides",
        "Cut one wire",
        "Stagger the cuts",
        "sleeve and grommet onto",
    )
    places = [go.index(words) for words in order]
    assert places == sorted(places)
    assert "Never put supply on an unknown wire" in go


def test_each_cavity_with_both_labels_stub_and_stagger() -> None:
    """W2 in X1:1 has a label on each side; of the sample's 20 equal stubs each third is longer by the same."""
    said = texts(sheets(harness_of(PLAIN), "X1", ALL_YES))
    assert "X1:1, plug side" in said
    assert "W2, loom side" in said
    assert "60 mm" in said
    many = texts(sheets(uncut(read_harness(SAMPLE)), "X4", {"stub": "60 mm"}))
    assert many.count("+40 mm") == 7  # the 2nd, 5th, ... 20th of 20
    assert many.count("+80 mm") == 6


def test_what_is_cut_already_says_so_and_has_no_steps() -> None:
    cut = PLAIN.replace('empty: ["2"]', 'empty: ["2"], cut: {"1": 2026-01-01}').replace("to: X1:1", "to: tail")
    said = texts(sheets(harness_of(cut), "X1"))
    assert "is cut already" in said
    assert "Cut one wire" not in said


def test_what_the_file_says_is_escaped_and_the_same_each_time() -> None:
    harness = sample("awkward")
    first, second = ([svg_text(page) for page in sheets(harness, 'X"60')] for _ in range(2))
    assert first == second
    assert "<script" not in "".join(first)
