"""The quick reader of PDFs against pdfplumber, which reads any: the same texts, lines and shapes in the same places."""

import io

import pdfplumber
import pytest
from pdfminer.layout import LTCurve, LTLine, LTRect

from harnessdoc.drawing.faces import face_sheets
from harnessdoc.drawing.harness_drawing import harness_sheets
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.quick_pdf import read_pages
from tests.drawing.samples import harness
from tests.sheet.measure import boxes_of


def _made() -> list[Page]:
    """Turned, scaled and odd: texts of two fonts and scripts, brackets, a curve, a clipped group, thick lines."""
    page = Page(120, 80)
    page.text(10, 10, "plain (with) \\ brackets Ωµ² ½")
    page.text(60, 60, "turned", 5, bold=True, rotate=-37)
    page.text(10, 30, "Ω ≥ √2 → אבג 🚜")
    with page.group(x=50, y=20, rotate=90, scale=1.5):
        page.rect(0, 0, 8, 4, radius=1, stroke_mm=0.5)
        page.circle(3, 3, 2, fill="#cccccc", stroke="none")
        page.text(0, 0, "in a group")
    page.polyline([(5, 5), (9, 7), (5, 9)], closed=True, fill="#ff0000", stroke="#ffffff", dash=(1, 0.5))
    return [page]


def _sheets(name: str) -> list[Page]:
    if name == "made":
        return _made()
    shown = harness(name)
    return harness_sheets(shown, route_harness(shown))[:2] + face_sheets(shown, next(iter(shown.plugs)))[:1]


@pytest.mark.parametrize("name", ["made", "six", "awkward", "sample"])
def test_the_quick_reader_reads_what_pdfplumber_reads(name: str) -> None:
    pdf = pdf_bytes(_sheets(name))
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        for page, quick in zip(document.pages, read_pages(pdf), strict=True):
            assert (quick.width, quick.height) == pytest.approx((float(page.width), float(page.height)))
            theirs, ours = boxes_of(page), boxes_of(quick)
            assert [box.text for box in ours] == [box.text for box in theirs]
            for mine, its in zip(ours, theirs, strict=True):
                assert (*mine.corners[0], *mine.corners[2]) == pytest.approx(
                    (*its.corners[0], *its.corners[2]), abs=1e-6
                )
                assert (mine.cap_mm, mine.angle, mine.bold) == pytest.approx((its.cap_mm, its.angle, its.bold))
            kinds = {LTLine: iter(page.lines), LTRect: iter(page.rects), LTCurve: iter(page.curves)}
            shapes = [next(kinds[type(thing)]) for thing in page.layout if type(thing) in kinds]
            assert len(quick.shapes) == len(shapes)
            for mine, its in zip(quick.shapes, shapes, strict=True):
                assert [step[0] for step in mine["path"]] == [step[0] for step in its["path"]]
                assert _numbers(mine["path"]) == pytest.approx(_numbers(its["path"]), abs=1e-6)
                assert (mine["stroke"], mine["fill"]) == (its["stroke"], its["fill"])
                if mine["stroke"]:
                    assert mine["stroking_color"] == pytest.approx(its["stroking_color"])


def _numbers(path: list[tuple]) -> list[float]:  # type: ignore[type-arg]
    return [number for _, *points in path for point in points for number in point]
