"""Bytes that go to a printer: exact sizes, searchable text, the same each time, on a machine with no fonts."""

from __future__ import annotations

import base64
import io
import math
import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import cairosvg
import pypdfium2
import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont
from PIL import Image, ImageChops, ImageFilter
from pypdf import PdfReader

from harnessdoc.sheet.frame import open_sheet
from harnessdoc.sheet.inks import INKS, sleeve
from harnessdoc.sheet.lettering import text_width_mm
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.output import merge_pdf, pdf_bytes, png_bytes, svg_text
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titleblock import RevisionLine, TitleBlock
from harnessdoc.sheet.typeface import font_file
from tests.sheet.measure import overlaps, smallest_cap_height_mm, text_boxes

MM = 72 / 25.4
_PICTURE = """
import sys
from harnessdoc.sheet.output import merge_pdf, pdf_bytes, png_bytes, svg_text
from harnessdoc.sheet.page import Page
page = Page(210, 297, "Sheet")
page.text(20, 30, "Agitator 2.5 mm² Ω → €", 5, bold=True)
page.text(20, 50, "ŁódźАБВ👍", 3.5)
with page.group("a b", "tip"), page.link("https://records.example/1"):
    page.circle(50, 80, 10, fill="#ffcc00")
with page.symbol("s"):
    page.line(0, 0, 5, 5)
page.use("s", 90, 90)
page.modules(100, 100, 0.5, [[(x * y) % 3 == 0 for x in range(21)] for y in range(21)])
pdf = pdf_bytes([page, Page(50, 30)], "Title")
out = (svg_text(page).encode(), pdf, png_bytes(page, 60), merge_pdf([("one", pdf), ("two", pdf)], "Binder"))
sys.stdout.buffer.write(b"\\0--\\0".join(out))
"""


def _run(**environment: str) -> list[bytes]:
    done = subprocess.run(
        [sys.executable, "-c", _PICTURE], env=environment, capture_output=True, timeout=60, check=True
    )
    return done.stdout.split(b"\0--\0")


def _bare_environment(**more: str) -> dict[str, str]:
    """No HOME, no XDG folders, only what Python needs."""
    return {"PYTHONPATH": str(Path(__file__).resolve().parents[2]), "PATH": os.environ["PATH"], **more}


def test_page_sizes_are_exact() -> None:
    """ISO 216 trimmed sizes (A4 210 x 297, A3 297 x 420, A2 420 x 594 mm) and US letter (8.5 x 11 in) within 0.1 mm."""
    sizes = [(210, 297), (297, 210), (420, 297), (594, 420), (8.5 * 25.4, 11 * 25.4)]
    reader = PdfReader(io.BytesIO(pdf_bytes([Page(*size) for size in sizes])))
    for page, (width, height) in zip(reader.pages, sizes, strict=True):
        assert float(page.mediabox.width) / MM == pytest.approx(width, abs=0.1)
        assert float(page.mediabox.height) / MM == pytest.approx(height, abs=0.1)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
def test_measured_width_is_the_rendered_width(bold: bool, anchor: str) -> None:
    """Within 1 % (found: 0.1 %), at the place the anchor says, by pdfplumber on the PDF."""
    page = Page(210, 50)
    text = "W12 RD/BK 2.5 mm² AVAVA ffi K1:87a"
    wanted = page.text(105, 20, text, 3.5, bold=bold, anchor=anchor)  # type: ignore[arg-type]
    (box,) = text_boxes(pdf_bytes([page]))[0]
    assert box.text == text
    assert box.width_mm == pytest.approx(wanted, rel=0.01)
    start = {"start": 105, "middle": 105 - wanted / 2, "end": 105 - wanted}[anchor]
    assert box.x0 == pytest.approx(start, abs=0.2)
    assert box.cap_mm == pytest.approx(3.5, rel=0.01)
    assert box.bold is bold


def test_text_can_be_searched() -> None:
    """Every drawn string is found in the text that pypdf extracts."""
    page = Page(210, 297)
    texts = ["Orchard sprayer", "2.5 mm² Ω ≥ 5", "K1:87a", "<script>alert(1)</script>", "a & b ]]> c", "Łódź"]
    for index, text in enumerate(texts):
        page.text(20, 20 + 10 * index, text, 3.5)
    extracted = PdfReader(io.BytesIO(pdf_bytes([page]))).pages[0].extract_text()
    for text in texts:
        assert text in extracted


def test_the_font_travels_in_the_pdf() -> None:
    """The carried typeface is embedded, under its own name."""
    page = Page(50, 30)
    page.text(5, 10, "abc")
    fonts = PdfReader(io.BytesIO(pdf_bytes([page]))).pages[0]["/Resources"]["/Font"]
    for font in fonts.values():
        entry = font.get_object()
        assert str(entry["/BaseFont"]).endswith("+DejaVuSansCondensed")
        assert "/FontFile2" in entry["/FontDescriptor"]


def test_two_processes_give_the_same_bytes() -> None:
    """SVG, PDF, PNG and binder do not depend on the process, its hash seed or the clock."""
    first = _run(**_bare_environment(PYTHONHASHSEED="1"))
    second = _run(**_bare_environment(PYTHONHASHSEED="2", TZ="Pacific/Auckland", SOURCE_DATE_EPOCH="1"))
    assert len(first) == 4
    assert [a == b for a, b in zip(first, second, strict=True)] == [True] * 4
    for pdf in (first[1], first[3]):
        reader = PdfReader(io.BytesIO(pdf))
        assert not {"/CreationDate", "/ModDate"} & set(reader.metadata or {})
        assert "/ID" not in reader.trailer


def test_a_machine_without_fonts_gives_the_same_bytes(tmp_path: Path) -> None:
    """With no HOME and a fontconfig that knows no font, every output is the same."""
    empty = tmp_path / "fonts.conf"
    empty.write_text("<?xml version='1.0'?><fontconfig></fontconfig>", encoding="utf-8")
    bare = _bare_environment(FONTCONFIG_FILE=str(empty), FONTCONFIG_PATH="/nowhere", XDG_CACHE_HOME="/nowhere")
    assert _run(**bare) == _run(**_bare_environment(HOME=os.environ.get("HOME", "/")))


def test_cairo_sees_only_the_carried_fonts() -> None:
    """Any other family asked for comes out in the carried one: the machine's fonts are out of reach."""
    script = (
        "import cairocffi, os\n"
        "from harnessdoc.sheet.typeface import load_into_cairo\n"
        "load_into_cairo()\n"
        "assert 'FONTCONFIG_FILE' not in os.environ\n"
        "context = cairocffi.Context(cairocffi.ImageSurface(cairocffi.FORMAT_A8, 9, 9))\n"
        "widths = set()\n"
        "for family in ('DejaVu Sans Condensed', 'DejaVu Serif', 'Liberation Mono', 'monospace'):\n"
        "    context.select_font_face(family)\n"
        "    context.set_font_size(100)\n"
        "    widths.add(round(context.text_extents('Wire iii 123')[4], 3))\n"
        "assert len(widths) == 1, widths\n"
    )
    subprocess.run([sys.executable, "-c", script], env=_bare_environment(), check=True, timeout=60)


def test_svg_and_pdf_paint_the_same_shapes() -> None:
    """Our SVG drawn by cairosvg and our PDF drawn by pdfium show the same picture, but for a dot along edges."""
    page = Page(100, 80)
    page.rect(5, 5, 30, 20, radius=3, fill="#88aaff", stroke_mm=0.5)
    page.path("M40 10 h10 v10 a5 5 0 0 1 -10 0 z q5 -8 10 0 C 60 30 70 5 80 20", fill="#aabbcc", join="round")
    page.polyline([(5, 40), (20, 30), (30, 45)], closed=True, stroke_mm=1, dash=(2, 1), cap="round")
    page.circle(85, 10, 6, fill="#ffee00")
    with page.group(x=60, y=50, rotate=30, scale=1.5, clip=Rect(0, 0, 10, 10)):
        page.rect(-5, -5, 12, 30, fill="#cc2222")
        page.modules(4, 4, 0.7, [[(x + y) % 2 == 0 for x in range(9)] for y in range(9)])
    with page.symbol("s"):
        page.line(-5, 0, 5, 0, stroke_mm=0.7)
        page.circle(0, 0, 2)
    page.use("s", 20, 60, rotate=45, scale=2)
    page.modules(85, 60, 0.5, [[x * y % 3 == 0 for x in range(21)] for y in range(21)])
    svg = Image.open(io.BytesIO(png_bytes(page, 300))).convert("L")
    with pypdfium2.PdfDocument(pdf_bytes([page])) as document:
        pdf = document[0].render(scale=300 / 72).to_pil().convert("L")
    assert abs(svg.width - pdf.width) <= 1
    assert abs(svg.height - pdf.height) <= 1
    box = (0, 0, min(svg.width, pdf.width), min(svg.height, pdf.height))
    blurred = [picture.crop(box).filter(ImageFilter.BoxBlur(2)) for picture in (svg, pdf)]
    different = ImageChops.difference(*blurred).point(lambda value: 255 if value > 60 else 0)
    assert different.histogram()[255] < 0.0005 * box[2] * box[3]


def _whole_sheet() -> Page:
    """A framed sheet with all that a drawing has: title block, revisions, sleeves, letters of every weight."""
    lines = (RevisionLine("B", "2026-04-26", "pump relay moved"), RevisionLine("A", "2026-01-10", "first issue"))
    title = TitleBlock("Control loom, Łódź", "OS-01", "Harness drawing", revision="B", revisions=lines)
    sheet = open_sheet("A4", "landscape", title, ["Disconnect the battery before touching any wire."])
    for index, code in enumerate(INKS):
        x, y = 40 + 60 * (index % 4), 30 + 12 * (index // 4)
        sleeve(sheet.page, x, y, 8, 3.2, code, ["RD", "BK"][: index % 3], 15 * index)
        sheet.page.text(
            x + 6, y + 1.2, f"W{index} {code} 2.5 mm² Ω → ≥", 2.5 if index % 2 else 3.5, bold=index % 3 == 0
        )
        sheet.page.text(x + 6, y + 6, "turned", 2.5, rotate=-15, anchor="middle")
    return sheet.page


def _rendered(pdf: bytes, dpi: float) -> Image.Image:
    with pypdfium2.PdfDocument(pdf) as document:
        return document[0].render(scale=dpi / 72).to_pil().convert("L")


def test_svg_and_pdf_of_a_whole_sheet_agree() -> None:
    """Another program reads the SVG's text and lines and places each letter itself; the picture is that of our PDF."""
    page = _whole_sheet()
    pdf = _rendered(pdf_bytes([page]), 200)  # first: from then on cairo has the carried fonts
    svg = _rendered(cairosvg.svg2pdf(svg_text(page).encode()), 200)
    box = (0, 0, min(svg.width, pdf.width), min(svg.height, pdf.height))
    assert max(svg.width - box[2], svg.height - box[3], pdf.width - box[2], pdf.height - box[3]) <= 1
    blurred = [picture.crop(box).filter(ImageFilter.BoxBlur(2)) for picture in (svg, pdf)]
    different = ImageChops.difference(*blurred).point(lambda value: 255 if value > 60 else 0)
    assert different.histogram()[255] < 0.0005 * box[2] * box[3]


def test_a_viewer_without_fonts_has_all_letters() -> None:
    """The typeface inside the SVG has the outline and the advance of the carried file for every letter of the sheet."""
    svg = svg_text(_whole_sheet())
    faces = dict(re.findall(r"font-weight:(\w+);src:url\(data:font/woff;base64,([^)]*)\)", svg))
    assert set(faces) == {"normal", "bold"}
    root = ElementTree.fromstring(svg)
    texts = [element for element in root.iter() if element.tag.endswith("}text")]
    assert len(texts) > 60
    assert "DejaVu Sans Condensed" in (root.get("font-family") or "")
    for weight, data in faces.items():
        carried, whole = TTFont(io.BytesIO(base64.b64decode(data))), TTFont(font_file(weight == "bold"))
        letters = {c for text in texts if text.get("font-weight", "normal") == weight for c in text.text or ""}
        assert len(letters) > 10
        for letter in letters:
            (advance, points), (wanted, wanted_points) = (_glyph(font, letter) for font in (carried, whole))
            assert advance == wanted, letter
            assert len(points) == len(wanted_points) > 0 or letter == " "
            for at, where in zip(points, wanted_points, strict=True):
                assert math.dist(at, where) <= 1, letter  # one unit of 2048 to the em: 2 µm at 3.5 mm


def _glyph(font: TTFont, letter: str) -> tuple[int, list[tuple[float, float]]]:
    """A letter's advance and all points of its outline, in font units."""
    name, glyphs = font.getBestCmap()[ord(letter)], font.getGlyphSet()
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    return font["hmtx"][name][0], [point for _, points in pen.value for point in points]


def test_the_pdf_of_a_whole_sheet_is_searchable_and_whole() -> None:
    """Every text of the sheet is found in it; every font is embedded, with a table from glyphs to letters."""
    page = _whole_sheet()
    (read,) = PdfReader(io.BytesIO(pdf_bytes([page]))).pages
    extracted = read.extract_text()
    for index, code in enumerate(INKS):
        assert f"W{index} {code} 2.5 mm² Ω → ≥" in extracted
    for text in ("Control loom, Łódź", "first issue", "Disconnect the battery before touching any wire.", "1 of 1"):
        assert text in extracted
    fonts = [font.get_object() for font in read["/Resources"]["/Font"].values()]
    assert len(fonts) >= 2
    for font in fonts:
        assert "/ToUnicode" in font
        whole = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
        assert "/FontFile2" in whole["/FontDescriptor"]


def test_links_reach_the_pdf() -> None:
    """An outside address becomes a link area; quotes in it do not break out."""
    page = Page(100, 50)
    with page.link("https://records.example/o'neil?a=1&b=(2)"):
        page.text(10, 10, "record")
    (annotation,) = PdfReader(io.BytesIO(pdf_bytes([page]))).pages[0]["/Annots"]
    assert annotation.get_object()["/A"]["/URI"] == "https://records.example/o%27neil?a=1&b=(2)"


def test_a_linked_group_is_linked_in_the_pdf() -> None:
    """The area is that of what is drawn in it, as it is turned and moved; a relative address is left to the SVG."""
    page = Page(100, 50)
    with page.group("W1", "wire W1", link="https://records.example/os-01/a", potential=3, x=50, y=20, rotate=90):
        page.line(0, 0, 20, 0, stroke_mm=1)
    with page.group("W2", link="a.html"):
        page.line(5, 5, 20, 5)
    (annotation,) = PdfReader(io.BytesIO(pdf_bytes([page]))).pages[0]["/Annots"]
    assert annotation.get_object()["/A"]["/URI"] == "https://records.example/os-01/a"
    left, low, right, high = (float(value) / MM for value in annotation.get_object()["/Rect"])
    assert (left, right) == pytest.approx((49.5, 50.5), abs=0.3)
    assert (50 - high, 50 - low) == pytest.approx((20, 40), abs=0.3)


def test_binder_has_bookmarks_and_all_pages() -> None:
    """A bookmark a part, at its first page; the texts of both parts are there."""
    parts = []
    for name, count in (("Drawing", 1), ("Labels", 2)):
        pages = [Page(210, 297) for _ in range(count)]
        for number, page in enumerate(pages):
            page.text(20, 20, f"{name} {number}", 5)
        parts.append((name, pdf_bytes(pages)))
    reader = PdfReader(io.BytesIO(merge_pdf(parts, "Binder")))
    assert [item.title for item in reader.outline] == ["Drawing", "Labels"]  # type: ignore[union-attr]
    assert [reader.get_destination_page_number(item) for item in reader.outline] == [0, 1]  # type: ignore[arg-type]
    assert [page.extract_text().strip() for page in reader.pages] == ["Drawing 0", "Labels 0", "Labels 1"]
    assert reader.metadata is not None
    assert reader.metadata.title == "Binder"


@pytest.mark.parametrize("nothing", [[], ()])
def test_nothing_is_no_pdf(nothing: list[Page]) -> None:
    """No pages, no parts: an error, not a broken file."""
    with pytest.raises(ValueError, match="at least one"):
        pdf_bytes(nothing)
    with pytest.raises(ValueError, match="at least one"):
        merge_pdf([])


def test_measuring_sees_overlaps_and_small_print() -> None:
    """The measuring helper itself: crossing texts, a turned neighbour that does not touch, the smallest capitals."""
    page = Page(100, 100)
    page.text(10, 10, "first", 3.5)
    page.text(12, 11, "over it", 2.5)
    page.text(60, 60, "leaning one", 2.5, rotate=45)
    page.text(66, 60, "leaning two", 2.5, rotate=45)
    page.text(10, 90, "tiny", 1.8)
    (boxes,) = text_boxes(pdf_bytes([page]))
    assert [(a.text, b.text) for a, b in overlaps(boxes)] == [("first", "over it")]
    assert smallest_cap_height_mm(boxes) == pytest.approx(1.8, rel=0.01)
    assert text_width_mm("tiny", 1.8) == pytest.approx(boxes[-1].width_mm, rel=0.01)
