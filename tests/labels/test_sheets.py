"""Label sheets as a stranger sees them: rendered, scanned with zxing-cpp, measured with pdfplumber and pypdf."""

from __future__ import annotations

import shutil
import subprocess
from collections import Counter
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pdfplumber
import pypdf
import pytest
import zxingcpp
from PIL import Image

from harnessdoc.labels.says import Label, Role, wire_labels
from harnessdoc.labels.sheets import LabelRun, PlacedLabel, label_pages, lay_out
from harnessdoc.labels.stock import read_stock
from harnessdoc.model.harness import Circuit, End, Harness, Title, Wire
from harnessdoc.model.points import Point
from harnessdoc.reading import read_harness
from harnessdoc.sheet.output import pdf_bytes, png_bytes, svg_text
from tests.sheet.measure import overlaps, text_boxes

SAMPLE = Path(__file__).resolve().parents[2] / "sample_harness"
MM = 25.4 / 72
TITLE = Title("Loom", "OS-01", records="https://records.example/os-01")


@pytest.fixture(scope="module")
def sample() -> Harness:
    return read_harness(SAMPLE)


@pytest.fixture(scope="module", params=["a4-65-38x21", "a4-24-63x34"])
def run(request: pytest.FixtureRequest, sample: Harness) -> LabelRun:
    return label_pages(sample, read_stock(request.param), mark="MARK1")


@pytest.fixture(scope="module")
def pdf(run: LabelRun) -> bytes:
    return pdf_bytes(run.pages)


def test_every_end_of_every_wire_and_every_stub_has_a_label(sample: Harness, run: LabelRun) -> None:
    assert len(run.labels) == 2 * len(sample.wires) + len(sample.stubs)
    numbers = Counter(one.label.number for one in run.labels if one.label.role is Role.WIRE_END)
    assert numbers == dict.fromkeys(sample.wires, 2)


@pytest.mark.parametrize("dpi", [203, 300])
def test_every_symbol_of_the_sample_scans(sample: Harness, dpi: int) -> None:
    made = label_pages(sample, read_stock(), dpi)
    wanted = Counter(one.label.payload for one in made.labels if one.symbol is not None)
    assert sum(wanted.values()) + len(made.without_qr) == len(made.labels)
    assert sum(wanted.values()) > 0.9 * len(made.labels)
    found: Counter[str] = Counter()
    for page in made.pages[: made.sheets]:
        found.update(_scan(png_bytes(page, dpi)))
    assert found == wanted


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="needs poppler's pdftoppm")
@pytest.mark.parametrize("dpi", [203, 300])
def test_the_pdf_rendered_by_poppler_scans(sample: Harness, tmp_path: Path, dpi: int) -> None:
    made = label_pages(sample, read_stock(), dpi)
    (tmp_path / "a.pdf").write_bytes(pdf_bytes(made.pages))
    command = ["pdftoppm", "-gray", "-png", "-r", str(dpi), "-l", str(made.sheets), "a.pdf", "page"]
    subprocess.run(command, cwd=tmp_path, check=True)
    found: Counter[str] = Counter()
    for image in tmp_path.glob("page*.png"):
        found.update(_scan(image.read_bytes()))
    assert found == Counter(one.label.payload for one in made.labels if one.symbol is not None)


@pytest.mark.parametrize("dpi", [203, 300])
def test_symbols_render_without_a_grey_module(sample: Harness, dpi: int) -> None:
    """Whole dots on the dot grid: every pixel of a symbol is black or white, and equals its module."""
    made = label_pages(sample, read_stock(), dpi)
    image = Image.open(BytesIO(png_bytes(made.pages[0], dpi))).convert("L")
    for one in [one for one in made.labels if one.sheet == 0 and one.symbol][::7]:
        placed = one.symbol
        assert placed is not None
        left, top = round(placed.x * dpi / 25.4), round(placed.y * dpi / 25.4)
        quiet = 4 * placed.dots
        side = placed.symbol.modules * placed.dots
        crop = image.crop((left - quiet, top - quiet, left + side + quiet, top + side + quiet))
        assert set(crop.tobytes()) <= {0, 255}
        for y, row in enumerate(placed.symbol.rows):
            for x, black in enumerate(row):
                at = (quiet + x * placed.dots + placed.dots // 2, quiet + y * placed.dots + placed.dots // 2)
                assert (crop.getpixel(at) == 0) == black


def test_quiet_zones_are_white_and_inside_their_label(run: LabelRun) -> None:
    """Four modules all round (ISO/IEC 18004), inside the label's own margin."""
    for one in run.labels:
        if one.symbol is None:
            continue
        side = one.symbol.symbol.modules * one.symbol.module_mm
        quiet = 4 * one.symbol.module_mm
        assert one.symbol.x - quiet >= one.box.x + 0.8
        assert one.symbol.y - quiet >= one.box.y + 0.8
        assert one.symbol.x + side + quiet <= one.box.right - 0.8
        assert one.symbol.y + side + quiet <= one.box.bottom - 0.8
        assert one.symbol.module_mm >= 0.33


def test_texts_stay_in_their_label_and_apart(run: LabelRun, pdf: bytes) -> None:
    pages = text_boxes(pdf)
    for number in range(run.sheets):
        here = [one for one in run.labels if one.sheet == number]
        assert not overlaps(pages[number])
        words = [box for box in pages[number] if not box.text.startswith("OS-01 ·")]
        assert len(words) == sum(len(one.arrangement.lines) for one in here)
        for box in words:
            assert any(_within(box, one) for one in here), box.text
            assert box.cap_mm >= 2.49
    for boxes in pages[run.sheets :]:
        assert not overlaps(boxes)


def _within(box: object, one: PlacedLabel) -> bool:
    """Inside the label, and out of its symbol with its quiet zone."""
    x0, y0, x1, y1 = (getattr(box, name) for name in ("x0", "y0", "x1", "y1"))
    inside = x0 >= one.box.x and y0 >= one.box.y and x1 <= one.box.right and y1 <= one.box.bottom
    if not inside or one.symbol is None:
        return bool(inside)
    quiet = 4 * one.symbol.module_mm
    side = one.symbol.symbol.modules * one.symbol.module_mm
    return bool(
        x1 <= one.symbol.x - quiet + 0.05
        or y0 >= one.symbol.y + side + quiet - 0.05
        or y1 <= one.symbol.y - quiet + 0.05
    )


def test_the_number_is_the_largest_text(run: LabelRun) -> None:
    for one in run.labels:
        number, *others = one.arrangement.lines
        assert number.text == one.label.number
        assert number.height_mm >= 3.5
        assert all(line.height_mm < number.height_mm for line in others)


def test_labels_lie_where_the_stock_says_measured_on_the_pdf(sample: Harness) -> None:
    """38.1 x 21.2 mm, first at 4.75, 10.7, pitch 40.6 and 21.2 mm: cut marks within 0.1 mm, typed by hand."""
    made = label_pages(sample, read_stock(), cut_marks=True)
    with pdfplumber.open(BytesIO(pdf_bytes(made.pages[:1]))) as document:
        page = document.pages[0]
        outlines = [shape for shape in (*page.rects, *page.curves) if not shape["fill"]]
    assert len(outlines) == 65
    for index, shape in enumerate(sorted(outlines, key=lambda one: (round(one["top"]), one["x0"]))):
        row, column = divmod(index, 5)
        place = (shape["x0"] * MM, shape["top"] * MM, shape["x1"] * MM, shape["bottom"] * MM)
        left, top = 4.75 + 40.6 * column, 10.7 + 21.2 * row
        assert place == pytest.approx((left, top, left + 38.1, top + 21.2), abs=0.1)


def test_pages_are_exactly_a4(pdf: bytes) -> None:
    for page in pypdf.PdfReader(BytesIO(pdf)).pages:
        assert float(page.mediabox.width) * MM == pytest.approx(210, abs=0.1)
        assert float(page.mediabox.height) * MM == pytest.approx(297, abs=0.1)


def test_a_used_sheet_starts_at_its_nth_label(sample: Harness) -> None:
    stock = read_stock()
    made = label_pages(sample, stock, start=64)
    assert [(one.sheet, one.position) for one in made.labels[:4]] == [(0, 64), (0, 65), (1, 1), (1, 2)]
    for start in (0, 66, -1):
        with pytest.raises(ValueError, match="labels 1 to 65; it can't start at"):
            label_pages(sample, stock, start=start)


def test_the_same_labels_give_the_same_bytes(sample: Harness) -> None:
    first, second = (pdf_bytes(label_pages(sample, read_stock()).pages) for _ in range(2))
    assert first == second


LONG = "A title that is far too long for any label here, however it is broken into lines, and on"


def test_notes_tell_what_carries_no_symbol_and_what_was_shortened() -> None:
    wires = {
        "W1": Wire("W1", End(Point("F1", "1")), End(Point("M1", "1"))),
        "W2": Wire("W2", End(Point("F1", "2")), End(Point("M1", "2")), circuit="long"),
    }
    harness = Harness(TITLE, wires=wires, circuits={"long": Circuit("long", LONG)})
    made = label_pages(harness, read_stock(), mark="4F2A")
    assert {one.subject for one in made.without_qr} == {"W1 at F1:1", "W1 at M1:1"}
    assert {one.subject for one in made.shortened} == {"W2 at F1:2", "W2 at M1:2"}
    notes = " ".join(_texts(made)[-1])
    for words in ("W1 at F1:1, W1 at M1:1", "on no circuit", LONG, "4F2A", "76 mm"):
        assert words in notes
    assert "4F2A" in " ".join(_texts(made)[0])


def test_a_symbol_too_large_for_the_label_is_told() -> None:
    """Version 7 (100 to 122 bytes at level M) has 53 modules with its quiet zone: 26.5 mm at 203 dpi, 17.9 at 300."""
    label = Label(Role.WIRE_END, "W1 at F1:1", "W1", (), "x" * 120)
    made = lay_out([label], TITLE, read_stock(), 203)
    assert made.labels[0].symbol is None
    assert "version 7" in made.without_qr[0].text
    assert "26.5 mm at 4 dots of 203 dpi" in made.without_qr[0].text
    assert lay_out([label], TITLE, read_stock(), 300).labels[0].symbol is not None


def test_a_payload_that_no_symbol_holds_is_told() -> None:
    made = lay_out(
        [Label(Role.WIRE_END, "a", "W1", (), "x" * 2332), Label(Role.WIRE_END, "b", "W2", ())], TITLE, read_stock()
    )
    assert ["too long" in made.without_qr[0].text, made.without_qr[1].text] == [True, "nothing to point at"]


AWKWARD = ["../../x", "<script>alert(1)</script>", "W" * 300, "🚜🚜", "مرحبا", "a\u202eb", "&\"'", "W\x001", "\ud800"]


def test_awkward_names_do_no_harm() -> None:
    wires = {name: Wire(name, End(Point(name, name)), End(Point("F1", "1")), circuit=name) for name in AWKWARD}
    harness = Harness(replace(TITLE, number=AWKWARD[1], records=None), wires=wires)
    made = label_pages(harness, read_stock(), mark="<b>")
    assert len(made.labels) == 2 * len(AWKWARD)
    assert any("W" * 300 in one.text for one in made.shortened)
    assert {one.subject for one in made.without_qr if "half a character" in one.text}
    boxes = text_boxes(pdf_bytes(made.pages))
    for one in made.labels:
        for line in one.arrangement.lines:
            assert "\u202e" not in line.text
            assert "\x00" not in line.text
    assert not overlaps(boxes[0])
    for page in made.pages:
        assert "<script>alert" not in svg_text(page)
    wanted = Counter(one.label.payload for one in made.labels if one.symbol)
    assert Counter(_scan(png_bytes(made.pages[0], 300))) == wanted


def test_no_labels_give_the_notes_alone() -> None:
    made = label_pages(Harness(TITLE), read_stock())
    assert made.sheets == 0
    assert len(made.pages) == 1


def test_many_notes_run_over_several_sheets() -> None:
    wires = {f"W{n}": Wire(f"W{n}", End(Point("F1", str(n))), End(Point("M1", str(n)))) for n in range(700)}
    made = label_pages(Harness(TITLE, wires=wires), read_stock("a4-24-63x34"))
    notes = made.pages[made.sheets :]
    assert len(notes) > 1
    words = " ".join(text for texts in _texts(made)[made.sheets :] for text in texts)
    for n in (0, 350, 699):
        assert f"W{n} at F1:{n}" in words


def test_payloads_are_the_harness_s_own(sample: Harness, run: LabelRun) -> None:
    assert [one.label for one in run.labels] == list(wire_labels(sample))


def _scan(png: bytes) -> list[str]:
    image = Image.open(BytesIO(png)).convert("L")
    return [found.bytes.decode() for found in zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)]


def _texts(made: LabelRun) -> list[list[str]]:
    return [[box.text for box in boxes] for boxes in text_boxes(pdf_bytes(made.pages))]
