"""Marks of end hardware: one for every form, behind the terminal, low enough for the text over the wire."""

import pytest

from harnessdoc.drawing.breakouts.end_marks import END_MARKS, HALF_MM, LENGTH_MM, draw_end_mark
from harnessdoc.model.hardware import FORMS
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import read_drawn


def test_every_form_has_a_mark() -> None:
    assert set(END_MARKS) == set(FORMS)


@pytest.mark.parametrize("form", sorted(FORMS))
def test_a_mark_stays_behind_its_terminal(form: str) -> None:
    """Drawn with its tip at (50, 50): all of it left of there and near the wire."""
    page = Page(100, 100)
    draw_end_mark(page, 50, 50, form)
    (drawn,) = read_drawn(pdf_bytes([page]))
    shapes = [(line.x1, line.y1) for line in drawn.lines] + [(line.x2, line.y2) for line in drawn.lines]
    shapes += [corner for shape in drawn.outlines for corner in ((shape.x0, shape.y0), (shape.x1, shape.y1))]
    assert shapes or form == "socket"  # an open curve
    for x, y in shapes:
        assert 50 - LENGTH_MM <= x <= 50.05
        assert abs(y - 50) <= HALF_MM + 0.05


def test_a_form_that_is_not_known_has_none() -> None:
    page = Page(100, 100)
    draw_end_mark(page, 50, 50, "")
    assert page.marks == []
