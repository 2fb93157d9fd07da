"""Nothing of a wire's number is left out, and a continuation mark stands at the end of its line, not in the middle."""

from __future__ import annotations

from dataclasses import replace

import pytest

from harnessdoc.drawing.strips.sheets import circuit_strips, strip_sheets
from tests.drawing.strips.drawn import every, groups, sample, study_of


@pytest.mark.parametrize("name", ["six", "sample", "big"])
def test_numbers_are_whole(name: str) -> None:
    harness, study = sample(name)
    labels = [one for one in every(strip_sheets(harness, study)) if one.name.startswith("label-")]
    assert labels
    for label in labels:
        assert label.title.removeprefix("wire ") in "".join(label.texts), label.texts


@pytest.mark.parametrize("width", [180.0, 90.0])
def test_very_long_numbers(width: float) -> None:
    harness, _ = sample("six")
    long = "LEFT-HAND.BOOM_SECTION-" * 6
    harness = replace(harness, wires={n: replace(w, name=long + n) for n, w in harness.wires.items()})
    harness = replace(harness, wires={wire.name: wire for wire in harness.wires.values()})
    pages = circuit_strips(harness, study_of(harness), width_mm=width)
    for label in every(list(pages.values())):
        if label.name.startswith("label-"):
            assert label.title.removeprefix("wire ") in "".join(label.texts)


@pytest.mark.parametrize("name", ["sample", "big", "large"])
def test_marks_end_their_lines(name: str) -> None:
    harness, study = sample(name)
    for page in strip_sheets(harness, study, circuits=[*harness.by_circuit, ""]):
        drawn = groups(page)
        ends = [at for one in drawn for line in one.lines for at in (line[0], line[-1])]
        for mark in (one for one in drawn if one.name.startswith("mark-")):
            middle = (min(x for x, _ in mark.shapes) + max(x for x, _ in mark.shapes)) / 2
            sides = {x < middle for x, y in ends if mark.holds((x, y), 0.1)}
            assert len(sides) == 1, (mark.title, mark.shapes[0])
