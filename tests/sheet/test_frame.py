"""Frames by ISO 5457: sizes, zones, what is left to draw on, and nothing over anything."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from harnessdoc.layouts import LayoutError
from harnessdoc.sheet.frame import ZONE_LETTERS, Sheet, frame_of, open_plain, open_sheet, zone_edges
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.paper import Orientation, read_paper
from harnessdoc.sheet.titleblock import TitleBlock
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
]


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
    for wanted in ("Control loom", "OS-01", "Harness drawing", "Cab to mast", "Farm", "B", "2026-10-11", "2 / 14"):
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


def test_paper_too_small_for_the_title_block(tmp_path: Path) -> None:
    """A5 upright cannot hold 180 mm: said so, not squeezed into nothing."""
    folder = tmp_path / "layouts" / "paper"
    folder.mkdir(parents=True)
    (folder / "A5.yaml").write_text(
        "short side: 148\nlong side: 210\nmargins: {left: 20, others: 10}\n", encoding="utf-8"
    )
    with pytest.raises(ValueError, match="too small"):
        open_sheet("A5", "portrait", SHORT, user_folder=tmp_path)
