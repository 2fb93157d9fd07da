"""The yardstick itself: each fault of spacing, drawn on purpose beside its well-drawn twin, is found and alone."""

import pytest

from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import read_drawn
from tests.drawing.spacing import SPACING

FRAME = (20, 10, 170, 130)


def _faults(page: Page) -> dict[str, list[str]]:
    drawn = read_drawn(pdf_bytes([page]))[0]
    return {name: found for name, find in SPACING.items() if (found := find(drawn))}


@pytest.fixture
def page() -> Page:
    """A framed page, well drawn: a text, a ruled row, a number in a circle, a word in a box, a zone mark."""
    page = Page(200, 150)
    page.rect(*FRAME, stroke_mm=0.7)
    page.text(30, 20, "plain")
    page.line(30, 25, 120, 25)
    page.text(31, 28.6, "in its row")
    page.line(30, 30, 120, 30)
    page.circle(40, 50, 3)
    page.text(40, 51.25, "24", anchor="middle")
    page.rect(60, 46, 30, 8, stroke_mm=0.25)
    page.text(62, 51, "in a box")
    page.text(100, 8.6, "3", anchor="middle")
    page.text(150, 80, "upright", rotate=-90)
    return page


def test_a_well_drawn_page_has_no_fault(page: Page) -> None:
    assert _faults(page) == {}


def test_two_texts_on_one_another(page: Page) -> None:
    page.text(33, 21.5, "on plain")
    assert _faults(page) == {"overlap": ["'plain' on 'on plain'"]}


def test_a_level_text_on_an_upright_one(page: Page) -> None:
    page.text(145, 75, "across")
    assert list(_faults(page)) == ["overlap"]


def test_two_texts_that_only_their_boxes_share_are_apart(page: Page) -> None:
    """Turned by 45°: the boxes along the axes overlap, the letters don't."""
    page.text(120, 110, "down the slope", rotate=45)
    page.text(126, 110, "down the slope", rotate=45)
    assert _faults(page) == {}


@pytest.mark.parametrize(("x", "y"), [(181, 70), (30, 142), (12, 70), (1, 70)])
def test_a_text_over_the_frame_or_off_the_paper(page: Page, x: float, y: float) -> None:
    page.text(x, y, "out of the frame")
    assert "out of frame" in _faults(page)


def test_a_text_wider_than_its_box(page: Page) -> None:
    page.rect(60, 60, 12, 8, stroke_mm=0.25)
    page.text(61, 65, "too wide for it")
    assert "'too wide for it' leaves its box" in _faults(page)["out of cell"]


def test_a_number_wider_than_its_circle(page: Page) -> None:
    page.circle(40, 80, 2.5)
    page.text(40, 81.25, "248", anchor="middle")
    assert _faults(page)["out of cell"] == ["'248' leaves its circle"]


def test_a_text_that_touches_the_rule_under_it(page: Page) -> None:
    page.text(31, 61.0, "on the rule")
    page.line(30, 61.15, 120, 61.15, stroke_mm=0.5)
    assert _faults(page) == {"out of cell": ["'on the rule' touches a line"]}


def test_a_leader_through_a_text(page: Page) -> None:
    page.line(25, 15, 50, 22)
    assert list(_faults(page)) == ["run through"]


def test_small_letters(page: Page) -> None:
    page.text(100, 100, "small", 2.4)
    assert _faults(page) == {"too small": ["'small' 2.40 mm"]}


def test_a_line_that_a_fill_hides_runs_through_no_text_but_one_drawn_on_it_does(page: Page) -> None:
    page.line(30, 100, 90, 100)
    page.rect(40, 97, 10, 6, fill="#ffffff", stroke_mm=0.25)
    page.text(45, 101.25, "?", anchor="middle")
    assert _faults(page) == {}
    page.line(30, 100, 90, 100)
    assert list(_faults(page)) == ["out of cell", "run through"]
