"""Sheets against ISO 216, 5457, 7200 and 3098 as public extracts print them; each figure is typed from its source and
measured on the rendered PDF. Sources: W: de.wikibooks.org, Technisches Zeichnen (its ISO 5457 page); G: an extract of a
German electrical drafting book; A: an Austrian textbook (Westermann); L: extracts of ISO 3098-0, French and German
tables; P: pages on drawing sheet sizes."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from harnessdoc.sheet.frame import open_sheet
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.paper import Orientation
from harnessdoc.sheet.titleblock import RevisionLine, TitleBlock
from tests.drawing.paper import Drawn, Line, Outline, read_drawn

CAUTIONS = ("Disconnect the battery before touching any wire.", "Check with a meter before you rely on it.")
TITLE = TitleBlock(
    "Control loom",
    "OS-01-DRAWING-42",
    "Harness drawing",
    legal_owner="Orchard",
    revision="B",
    date="2026-04-26",
    sheet=2,
    sheets=4,
    revisions=(RevisionLine("B", "2026-04-26", "relay moved"), RevisionLine("A", "2026-01-10", "first issue")),
)
UPRIGHT: list[str] = ["A2", "A3", "A4"]
WAYS: list[Orientation] = ["portrait", "landscape"]
BOTH = [(paper, way) for paper in UPRIGHT for way in WAYS]


@cache
def sheet(paper: str, orientation: Orientation = "portrait") -> Drawn:
    """A sheet as a stranger reads it off the PDF."""
    (drawn,) = read_drawn(pdf_bytes([open_sheet(paper, orientation, TITLE, CAUTIONS).page]))
    return drawn


def frame(drawn: Drawn) -> Outline:
    """The frame: the largest box of all but the zones' outer edge, which lies outside it."""
    return _nested(drawn)[1]


def _nested(drawn: Drawn) -> list[Outline]:
    boxes = [shape for shape in drawn.outlines if shape.stroked and not shape.circle]
    return sorted(boxes, key=lambda box: (box.x1 - box.x0) * (box.y1 - box.y0), reverse=True)


def margins(drawn: Drawn, box: Outline) -> tuple[float, float, float, float]:
    """Left, upper, right and lower distance of a box from the trimmed edges, mm."""
    return (box.x0, box.y0, drawn.width_mm - box.x1, drawn.height_mm - box.y1)


def zone_lines(drawn: Drawn, across: bool) -> list[float]:
    """Where the zones of the upper (or left) strip are parted, the thick centring mark among them, mm."""
    inside = frame(drawn)

    def parts(line: Line) -> bool:
        if across:
            return line.x1 == pytest.approx(line.x2) and min(line.y1, line.y2) < inside.y0 - 1
        return line.y1 == pytest.approx(line.y2) and min(line.x1, line.x2) < inside.x0 - 1

    edges = {inside.x0, inside.x1} if across else {inside.y0, inside.y1}
    places = {round(line.x1 if across else line.y1, 2) for line in drawn.lines if parts(line)}
    outer = _nested(drawn)[0]
    edges |= {outer.x0, outer.x1} if across else {outer.y0, outer.y1}
    return sorted(place for place in places if all(abs(place - edge) > 0.1 for edge in edges))


def marks(drawn: Drawn, across: bool) -> list[str]:
    """The zone marks of the upper (or left) strip, in the order of reading."""
    inside = frame(drawn)
    texts = [text for text in drawn.texts if (text.y1 < inside.y0 if across else text.x1 < inside.x0)]
    return [text.text for text in sorted(texts, key=lambda text: text.x0 if across else text.y0)]


@pytest.mark.parametrize(
    ("paper", "short", "long"), [("A2", 420, 594), ("A3", 297, 420), ("A4", 210, 297), ("A5", 148, 210)]
)
def test_trimmed_sizes(paper: str, short: float, long: float) -> None:
    """ISO 216, trimmed sheets in mm: W and G agree on A2 to A4, two of P on A5."""
    for way, size in (("portrait", (short, long)), ("landscape", (long, short))):
        drawn = sheet(paper, way)  # type: ignore[arg-type]
        assert (drawn.width_mm, drawn.height_mm) == pytest.approx(size, abs=0.1)


@pytest.mark.parametrize(
    ("paper", "way", "short", "long"),
    [("A2", "landscape", 400, 564), ("A3", "landscape", 277, 390), ("A4", "portrait", 180, 277)],
)
def test_drawing_space(paper: str, way: Orientation, short: float, long: float) -> None:
    """ISO 5457, drawing space in mm: W and G agree. Measured along the middle of the frame's line."""
    box = frame(sheet(paper, way))
    assert sorted((box.x1 - box.x0, box.y1 - box.y0)) == pytest.approx([short, long], abs=0.1)


@pytest.mark.parametrize(("paper", "way"), BOTH)
def test_margins(paper: str, way: Orientation) -> None:
    """ISO 5457: 20 mm for filing at the left, 10 mm at the other sides (W and G; A prints an older 5)."""
    drawn = sheet(paper, way)
    assert margins(drawn, frame(drawn)) == pytest.approx((20, 10, 10, 10), abs=0.1)


@pytest.mark.parametrize(("paper", "way"), BOTH)
def test_strip_of_the_zone_marks(paper: str, way: Orientation) -> None:
    """5 mm between the frame and the edge of the grid (A)."""
    drawn = sheet(paper, way)
    assert margins(drawn, _nested(drawn)[0]) == pytest.approx((15, 5, 5, 5), abs=0.1)


def test_line_of_the_frame() -> None:
    """ISO 5457: 0.7 mm (W)."""
    assert frame(sheet("A3", "landscape")).width == pytest.approx(0.7, abs=0.01)


def test_lines_of_the_grid() -> None:
    """ISO 5457: 0.35 mm (W), its outer edge and every line between two zones but the centring mark."""
    drawn = sheet("A3", "landscape")
    outer = _nested(drawn)[0]
    assert outer.width == pytest.approx(0.35, abs=0.01)
    between = [line for line in drawn.lines if line.y1 == pytest.approx(outer.y0) and abs(line.x1 - 210) > 1]
    between = [line for line in between if line.x1 == pytest.approx(line.x2)]
    assert len([line for line in between if 21 < line.x1 < 409]) == 6
    assert [line.width for line in between] == pytest.approx([0.35] * len(between), abs=0.01)


@pytest.mark.parametrize(
    ("paper", "on_short", "on_long"),
    [("A2", 8, 12), ("A3", 6, 8), ("A4", 4, 6)],
)
@pytest.mark.parametrize("way", WAYS)
def test_count_of_zones(paper: str, on_short: int, on_long: int, way: Orientation) -> None:
    """ISO 5457, zones a side: W; A4 also in A."""
    drawn = sheet(paper, way)
    across, down = (on_short, on_long) if way == "portrait" else (on_long, on_short)
    assert (len(marks(drawn, True)), len(marks(drawn, False))) == (across, down)
    assert (len(zone_lines(drawn, True)), len(zone_lines(drawn, False))) == (across - 1, down - 1)


@pytest.mark.parametrize(("paper", "way"), BOTH)
def test_length_of_zones(paper: str, way: Orientation) -> None:
    """ISO 5457: 50 mm from the centring marks, which stand in the middle of the trimmed sheet; the corners take the
    rest (W and A)."""
    drawn = sheet(paper, way)
    for across, side in ((True, drawn.width_mm), (False, drawn.height_mm)):
        places = zone_lines(drawn, across)
        assert side / 2 == pytest.approx(places[len(places) // 2], abs=0.1)
        assert [b - a for a, b in pairwise(places)] == pytest.approx([50] * (len(places) - 1))


def test_letters_and_numbers_of_the_zones() -> None:
    """ISO 5457: letters from the top down without I and O, numbers from left to right (W). A2 upright has 12 rows."""
    drawn = sheet("A2", "portrait")
    assert "".join(marks(drawn, False)) == "ABCDEFGHJKLM"
    assert marks(drawn, True) == ["1", "2", "3", "4", "5", "6", "7", "8"]


@pytest.mark.parametrize(("paper", "way"), BOTH)
def test_height_of_the_zone_marks(paper: str, way: Orientation) -> None:
    """ISO 5457: 3.5 mm (W)."""
    drawn = sheet(paper, way)
    inside = frame(drawn)
    strip = [text for text in drawn.texts if text.y1 < inside.y0 or text.x1 < inside.x0 or text.y0 > inside.y1]
    assert len(strip) > 12
    assert [text.cap_mm for text in strip] == pytest.approx([3.5] * len(strip), abs=0.02)


@pytest.mark.parametrize(("paper", "way"), BOTH)
def test_width_of_the_title_block(paper: str, way: Orientation) -> None:
    """ISO 7200: 180 mm (A), as wide as the drawing space of A4; in the lower right corner of the frame."""
    drawn = sheet(paper, way)
    inside = frame(drawn)
    corner = [box for box in _nested(drawn) if (box.x1, box.y1) == pytest.approx((inside.x1, inside.y1), abs=0.05)]
    block = corner[1]  # the frame itself is the first
    assert block.x1 - block.x0 == pytest.approx(180, abs=0.1)


def test_a_number_of_sixteen_characters() -> None:
    """ISO 7200: the identification number may have 16 characters: whole on one line, on every paper."""
    for paper in ("A2", "A3", "A4", "A5"):
        assert "OS-01-DRAWING-42" in [text.text for text in sheet(paper).texts]


@pytest.mark.parametrize("paper", ["A2", "A3", "A4", "A5", "letter"])
@pytest.mark.parametrize("way", WAYS)
def test_lettering_heights(paper: str, way: Orientation) -> None:
    """ISO 3098: the series 1.8, 2.5, 3.5, 5, 7, 10, 14, 20 mm (L, two agree). The project's own floor is 2.5."""
    series = (2.5, 3.5, 5, 7, 10, 14, 20)
    for text in sheet(paper, way).texts:
        assert min(abs(text.cap_mm - height) for height in series) < 0.02, text


def test_spacing_of_lines() -> None:
    """ISO 3098: 3.75 mm from base line to base line at 2.5 mm (French table of L); the two cautions of the sheet."""
    first, second = (next(text for text in sheet("A4").texts if text.text == caution) for caution in CAUTIONS)
    assert second.corners[0][1] - first.corners[0][1] == pytest.approx(3.75, abs=0.01)


def test_a4_lies_or_stands() -> None:
    """ISO 5457, Amendment 1 of 2010: A4 may lie too (foreword of DIN EN ISO 5457:2010)."""
    assert sheet("A4", "landscape").width_mm > sheet("A4", "landscape").height_mm
    assert sheet("A4", "portrait").width_mm < sheet("A4", "portrait").height_mm


def test_shape_of_paper() -> None:
    """ISO 216: long to short side 1.41421 (German drafting pages, two agree); whole millimetres leave 0.3 %."""
    for paper in ("A2", "A3", "A4", "A5"):
        drawn = sheet(paper)
        assert drawn.height_mm / drawn.width_mm == pytest.approx(1.41421, rel=0.004)
