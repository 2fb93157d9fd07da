"""Frames by ISO 5457: sizes, zones, what is left to draw on, and nothing over anything."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from harnessdoc.layouts import LayoutError
from harnessdoc.sheet.frame import ZONE_LETTERS, Sheet, frame_of, open_plain, open_sheet, zone_at, zone_edges
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.paper import Orientation, read_paper
from harnessdoc.sheet.titleblock import RevisionLine, TitleBlock
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes

CAUTIONS = (
    "Disconnect the battery before touching any wire; fuse at the source.",
    "Only as good as the file it came from: check with a meter before you rely on it.",
)
LONG = TitleBlock(
    title="Gj" * 150,
    number="N" * 300,
    document_type="Ärgerlich langer Name " * 9,
    supplementary_title="y" * 300,
    legal_owner="<script>alert(1)</script>",
    revision="REVISION",
    date="2026-10-11T12:00",
    sheet=1234,
    sheets=5678,
    creator="\u202eevil" * 40,
    approved="🧰" * 80,
    scale="not to scale " * 9,
    content_mark="7F3A" * 40,
)
SHORT = TitleBlock(title="Control loom", number="OS-01", document_type="Harness drawing", revision="B")
PAPERS: list[tuple[str, Orientation]] = [
    ("A4", "portrait"),
    ("A4", "landscape"),
    ("A3", "portrait"),
    ("A3", "landscape"),
    ("A2", "portrait"),
    ("A2", "landscape"),
    ("letter", "portrait"),
    ("letter", "landscape"),
    ("A5", "portrait"),
    ("A5", "landscape"),
]
REVISIONS = tuple(RevisionLine(mark, "2026-01-10", f"change {mark} " * 9) for mark in "GFEDCBA")


@pytest.mark.parametrize(("name", "short", "long"), [("A4", 180, 277), ("A3", 277, 390), ("A2", 400, 564)])
def test_drawing_space(name: str, short: float, long: float) -> None:
    """ISO 5457 drawing spaces: A4 180 x 277, A3 277 x 390, A2 400 x 564 mm (de.wikibooks.org Technisches Zeichnen and
    a German electrical drafting book agree): A4 upright, the larger sheets lying."""
    orientation: Orientation = "portrait" if name == "A4" else "landscape"
    frame = frame_of(read_paper(name, orientation))
    assert sorted((frame.width, frame.height)) == [short, long]
    assert (frame.x, frame.y) == (20, 10)  # filing margin left, 10 mm elsewhere


@pytest.mark.parametrize(("length", "zones"), [(210, 4), (297, 6), (420, 8), (594, 12), (841, 16), (1189, 24)])
def test_number_of_zones(length: float, zones: int) -> None:
    """ISO 5457: A4 has 4 x 6 zones, A3 6 x 8, A2 8 x 12, A1 12 x 16, A0 16 x 24 (same two sources)."""
    edges = zone_edges(length)
    assert len(edges) - 1 == zones
    inner = [b - a for a, b in pairwise(edges[1:-1])]
    assert inner == pytest.approx([50] * (zones - 2))
    assert length / 2 in edges  # counted from the centring mark
    assert edges[1] == pytest.approx(length - edges[-2])


def test_zone_letters_leave_out_i_and_o() -> None:
    """ISO 5457: I and O are not used."""
    assert set("ABCDEFGHIJKLMNOPQRSTUVWXYZ") - set(ZONE_LETTERS) == {"I", "O"}


@pytest.mark.parametrize(("paper", "orientation"), PAPERS)
@pytest.mark.parametrize("title", [SHORT, LONG], ids=["short", "long"])
def test_nothing_overlaps_or_leaves_the_sheet(paper: str, orientation: Orientation, title: TitleBlock) -> None:
    """Measured on the rendered page: no text over another, none in the drawing area, none under 2.5 mm."""
    sheet = open_sheet(paper, orientation, title, CAUTIONS)
    (boxes,) = text_boxes(pdf_bytes([sheet.page]))
    assert len(boxes) > 20
    assert overlaps(boxes, 0.0) == []
    assert outside(boxes, 0, 0, sheet.page.width_mm, sheet.page.height_mm) == []
    area = sheet.area
    assert [b.text for b in boxes if b.x1 > area.x and b.x0 < area.right and b.y1 > area.y and b.y0 < area.bottom] == []
    assert smallest_cap_height_mm(boxes) >= 2.499


def test_title_block_fields_and_zone_marks_are_there() -> None:
    """Every stated field is on the sheet, empty ones keep their label; A4 upright is marked 1..4 and A..F twice."""
    title = TitleBlock(
        title="Control loom",
        number="OS-01",
        document_type="Harness drawing",
        supplementary_title="Cab to mast",
        legal_owner="Farm",
        revision="B",
        date="2026-10-11",
        sheet=2,
        sheets=14,
        creator="J. Doe",
        content_mark="7F3A-91C2",
    )
    texts = [box.text for box in text_boxes(pdf_bytes([open_sheet("A4", "portrait", title).page]))[0]]
    for wanted in ("Control loom", "OS-01", "Harness drawing", "Cab to mast", "Farm", "B", "2026-10-11", "2 of 14"):
        assert wanted in texts
    for wanted in ("J. Doe", "7F3A-91C2", "not to scale", "Approved by"):
        assert wanted in texts
    for mark in ("1", "4", "A", "F"):
        assert texts.count(mark) == 2
    assert "5" not in texts
    assert "G" not in texts


def _height(sheet: Sheet) -> float:
    return sheet.area.height


def test_cautions_use_the_room_beside_the_block() -> None:
    """On wide paper the cautions cost no drawing space; upright A4 gives some up."""
    assert _height(open_sheet("A3", "landscape", SHORT, CAUTIONS)) == _height(open_sheet("A3", "landscape", SHORT))
    assert _height(open_sheet("A4", "portrait", SHORT, CAUTIONS)) < _height(open_sheet("A4", "portrait", SHORT))
    assert _height(open_sheet("A4", "portrait", SHORT, ["", " "])) == _height(open_sheet("A4", "portrait", SHORT))


def test_cautions_without_end_are_refused() -> None:
    """They may not eat the sheet."""
    with pytest.raises(ValueError, match="third of the sheet"):
        open_sheet("A4", "portrait", SHORT, ["caution " * 2000])


def test_plain_sheet() -> None:
    """Label stock: no frame, the area the whole page less the margin."""
    sheet = open_plain("A4", 5)
    assert sheet.page.marks == []
    assert tuple(sheet.area) == (5, 5, 200, 287)


def test_unknown_and_broken_paper(tmp_path: Path) -> None:
    """An unknown name, a file that lacks a figure, a file that is no YAML: one clear line each."""
    with pytest.raises(LayoutError, match="A4"):
        open_plain("A44")
    folder = tmp_path / "layouts" / "paper"
    folder.mkdir(parents=True)
    for name, text in (("short", "short side: 3\n"), ("odd", "[1"), ("words", "short side: wide\n"), ("list", "- 1\n")):
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
        with pytest.raises(LayoutError, match="a paper file states"):
            read_paper(name, "portrait", tmp_path)


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ("short side: 105\nlong side: 148\nmargins: {left: 20, others: 10}\n", "116 mm at least, and there are 75.0"),
        ("short side: 60\nlong side: 210\nmargins: {left: 20, others: 10}\n", "38.0 mm of height, and there are 16.0"),
        ("short side: 210\nlong side: 297\nmargins: {left: 20, others: 4}\n", "needs margins of 5 mm"),
    ],
)
def test_paper_too_small_for_the_title_block(tmp_path: Path, size: str, said: str) -> None:
    """A6, a narrow strip, margins without room for zone marks: said so with the figures, not squeezed into nothing."""
    folder = tmp_path / "layouts" / "paper"
    folder.mkdir(parents=True)
    (folder / "small.yaml").write_text(size, encoding="utf-8")
    orientation: Orientation = "landscape" if "60" in size else "portrait"
    with pytest.raises(LayoutError, match=said):
        open_sheet("small", orientation, SHORT, user_folder=tmp_path)


@pytest.mark.parametrize(("length", "zones"), [(148, 2), (210, 4), (215.9, 4), (279.4, 6)])
def test_zones_of_paper_outside_the_standard(length: float, zones: int) -> None:
    """A5 and letter by hand: as many 50 mm zones either side of the middle as lie nearest to half the side."""
    assert len(zone_edges(length)) - 1 == zones


@pytest.mark.parametrize(
    ("paper", "orientation", "point", "zone"),
    [
        ("A4", "portrait", (25, 15), "A1"),  # columns part at 55, 105, 155; rows at 48.5, 98.5, 148.5, 198.5, 248.5
        ("A4", "portrait", (54.9, 48.4), "A1"),
        ("A4", "portrait", (55.1, 48.6), "B2"),
        ("A4", "portrait", (199, 280), "F4"),
        ("A3", "landscape", (211, 149), "D5"),  # just right of and below both centring marks
        ("A3", "landscape", (0, 296), "F1"),
        ("A2", "portrait", (419, 593), "M8"),  # 12 letters: A to H, J to M
        ("A2", "portrait", (300, 446), "J6"),  # rows part at 47 + 50 n: 447 is the lower edge of the ninth, J
    ],
)
def test_zone_of_a_point(paper: str, orientation: Orientation, point: tuple[float, float], zone: str) -> None:
    """Worked by hand from the paper's middle in steps of 50 mm."""
    assert zone_at(open_sheet(paper, orientation, SHORT), *point) == zone


@pytest.mark.parametrize(("paper", "orientation"), PAPERS)
def test_every_zone_is_named_as_it_is_marked(paper: str, orientation: Orientation) -> None:
    """At each printed zone mark of the strips, `zone_at` answers with that mark (read off the rendered page)."""
    sheet = open_sheet(paper, orientation, SHORT)
    frame = sheet.frame
    (boxes,) = text_boxes(pdf_bytes([sheet.page]))
    marks = [box for box in boxes if box.y1 < frame.y or box.x1 < frame.x or box.y0 > frame.bottom]
    assert len(marks) >= 7
    for box in marks:
        zone = zone_at(sheet, (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2)
        assert box.text in (zone[0], zone[1:])


@pytest.mark.parametrize(("paper", "orientation"), PAPERS)
@pytest.mark.parametrize("title", [SHORT, LONG], ids=["short", "long"])
def test_list_of_revisions(paper: str, orientation: Orientation, title: TitleBlock) -> None:
    """The newest first, as many as have room, the rest counted; over nothing else and not in the drawing area."""
    sheet = open_sheet(paper, orientation, replace(title, revisions=REVISIONS), CAUTIONS)
    (boxes,) = text_boxes(pdf_bytes([sheet.page]))
    assert overlaps(boxes, 0.0) == []
    assert outside(boxes, 0, 0, sheet.page.width_mm, sheet.page.height_mm) == []
    assert smallest_cap_height_mm(boxes) >= 2.499
    area = sheet.area
    assert area.height > sheet.frame.height / 4
    assert [b.text for b in boxes if b.x1 > area.x and b.x0 < area.right and b.y1 > area.y and b.y0 < area.bottom] == []
    changes = [box.text.split()[1] for box in boxes if box.text.startswith("change ")]
    listed = [mark for index, mark in enumerate(changes) if mark not in changes[:index]]
    (rest,) = [box.text for box in boxes if box.text.endswith(" earlier")] or ["and 0 earlier"]
    assert listed == list("GFEDCBA"[: len(listed)])
    assert len(listed) + int(rest.split()[1]) == 7


def test_a_short_list_of_revisions_costs_no_room_on_wide_paper() -> None:
    """Beside the block on A3 lying; all of it."""
    title = replace(SHORT, revisions=(RevisionLine("B", "2026-04-26", "mast plug"), RevisionLine("A", "", "first")))
    sheet = open_sheet("A3", "landscape", title, CAUTIONS)
    assert sheet.area == open_sheet("A3", "landscape", SHORT, CAUTIONS).area
    texts = [box.text for box in text_boxes(pdf_bytes([sheet.page]))[0]]
    assert {"mast plug", "first", "2026-04-26"} <= set(texts)
    assert not any("earlier" in text for text in texts)


def test_a_sheet_says_what_it_is_to_who_cannot_see() -> None:
    """Number and title name the document; kind, revision and "sheet 2 of 4" describe it."""
    page = open_sheet("A4", "portrait", replace(SHORT, sheet=2, sheets=4)).page
    assert page.title == "OS-01 Control loom"
    assert page.desc == "Harness drawing, revision B, sheet 2 of 4"
