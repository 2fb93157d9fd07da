"""Strips measured on the rendered PDF: no text over another, none outside, no line through one, none too small."""

from __future__ import annotations

import pytest

from harnessdoc.drawing.strips.sheets import circuit_strips, strip_sheets
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import crossed, read_drawn, straight_lines
from tests.drawing.sheet_check import spacing_faults
from tests.drawing.strips.drawn import random_one, sample, study_of
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes


def _check(pages: list[Page], framed: bool = True) -> None:
    pdf = pdf_bytes(pages)
    faults = spacing_faults(read_drawn(pdf)) if framed else {}
    assert {kind: found for kind, found in faults.items() if found} == {}
    for number, (page, boxes, lines) in enumerate(zip(pages, text_boxes(pdf), straight_lines(pdf), strict=True), 1):
        over = [(a.text, b.text, round(a.x0), round(a.y0)) for a, b in overlaps(boxes)]
        assert not over, (number, over)
        assert not outside(boxes, 0, 0, page.width_mm, page.height_mm), number
        through = [(text, [round(at, 1) for at in line]) for text, line in crossed(boxes, lines)]
        assert not through, (number, through)
        assert smallest_cap_height_mm(boxes) > 2.49, number


@pytest.mark.parametrize("name", ["small", "awkward", "sample", "large"])
def test_sheets(name: str) -> None:
    harness, study = sample(name)
    _check(strip_sheets(harness, study, circuits=[*harness.by_circuit, ""]))


@pytest.mark.parametrize("paper", ["A4", "A2", "letter"])
def test_other_papers(paper: str) -> None:
    _check(strip_sheets(*sample("sample"), paper=paper))


@pytest.mark.parametrize("seed", [1, 2, 6, 11, 14])
def test_random(seed: int) -> None:
    harness = random_one(seed, circuits=seed % 3)
    _check(strip_sheets(harness, study_of(harness), circuits=[*harness.by_circuit, ""]))


@pytest.mark.parametrize("width", [180.0, 90.0])
def test_for_the_record(width: float) -> None:
    harness, study = sample("sample")
    pages = circuit_strips(harness, study, width_mm=width)
    _check(list(pages.values()), framed=False)
    if width == 180.0:
        assert {page.width_mm for page in pages.values()} == {180.0}
