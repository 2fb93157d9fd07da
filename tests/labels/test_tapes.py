"""Tapes and sleeves: strips measured, and every label of the sample read from its dots at each density."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image

from harnessdoc.labels.run import LabelRun, Section, label_run
from harnessdoc.labels.stock import offered
from harnessdoc.labels.tapes import STRIP_MM, edge_mm, label_bitmap
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness
from harnessdoc.routing import Routing, route_harness
from harnessdoc.sheet.output import pdf_bytes, png_bytes
from tests.sheet.measure import overlaps, text_boxes

SAMPLE = Path(__file__).resolve().parents[2] / "sample_harness"


@pytest.fixture(scope="module")
def sample() -> tuple[Harness, Routing]:
    harness = read_harness(SAMPLE)
    return harness, route_harness(harness)


def run_on(sample: tuple[Harness, Routing], *stocks: str, dpi: int = 300, **how: object) -> LabelRun:
    return label_run(*sample, offered(stocks), dpi=dpi, **how)  # type: ignore[arg-type]


@pytest.mark.parametrize("dpi", [180, 203, 300, 600])
def test_every_label_of_the_sample_is_read_from_its_dots(sample: tuple[Harness, Routing], dpi: int) -> None:
    """On tape of 36 mm every record has room: 27 mm hold 37 modules of 4 dots at 180 dpi, 20.9 mm."""
    (section,) = run_on(sample, "tape-36", dpi=dpi).sections
    assert section.dpi == dpi
    carrying = [one for one in section.labels if one.symbol is not None]
    assert len(carrying) > 0.85 * len(section.labels)
    for one in carrying:
        image = Image.open(BytesIO(label_bitmap(one).png()))
        assert image.mode == "1"
        found = zxingcpp.read_barcodes(image.convert("L"), formats=zxingcpp.BarcodeFormat.QRCode)
        copies = sum(face.symbol is not None for face in one.faces)
        assert [code.text for code in found] == [one.label.payload] * copies


@pytest.mark.parametrize("dpi", [180, 203, 300, 600])
def test_modules_are_whole_dots(sample: tuple[Harness, Routing], dpi: int) -> None:
    run = run_on(sample, "tape-36", dpi=dpi, only=["W12", "X4"])
    for one in [one for one in run.labels if one.symbol is not None][::5]:
        image = Image.open(BytesIO(label_bitmap(one).png())).convert("L")
        for face in one.faces:
            if face.symbol is None:
                continue
            placed = face.symbol
            left, top = (placed.x - one.box.x) * dpi / 25.4, (placed.y - edge_mm(one)) * dpi / 25.4
            assert left == pytest.approx(round(left), abs=1e-6)
            assert top == pytest.approx(round(top), abs=1e-6)
            for y, row in enumerate(placed.symbol.rows):
                for x, black in enumerate(row):
                    at = (round(left) + x * placed.dots, round(top) + y * placed.dots)
                    for corner in (at, (at[0] + placed.dots - 1, at[1] + placed.dots - 1)):
                        assert (image.getpixel(corner) == 0) == black


@pytest.mark.parametrize("stock", ["tape-6", "tape-12", "tape-24", "sleeve-2to1"])
def test_texts_stay_on_what_is_printed_and_apart(sample: tuple[Harness, Routing], stock: str) -> None:
    """Floors: 1.8 mm on tape of 6 mm and on shrunk sleeves (ISO 3098), else 2.5 mm."""
    run = run_on(sample, stock, only=["X4", "W12", "supply"])
    assert run.labels
    for section in run.sections:
        pages = text_boxes(pdf_bytes(section.pages))
        edge = edge_mm(section.labels[0])
        for page, boxes in zip(section.pages, pages, strict=True):
            assert not overlaps(boxes)
            for box in boxes:
                assert edge - 0.05 <= box.y0
                assert box.y1 <= page.height_mm - edge + 0.1  # what hangs may reach into the margin
                assert box.cap_mm >= (2.49 if stock in ("tape-12", "tape-24") else 1.79)
        for one in section.labels:
            for face in one.faces:
                assert one.box.x - 1e-6 <= face.box.x
                assert face.box.right <= one.box.right + 1e-6


def test_strips_are_as_long_as_their_labels_and_cut_between_them(sample: tuple[Harness, Routing]) -> None:
    (section,) = run_on(sample, "tape-12").sections
    assert len(section.pages) > 1
    for index, page in enumerate(section.pages):
        here = [one for one in section.labels if one.sheet == index]
        assert page.height_mm == 12
        assert page.width_mm == pytest.approx(sum(one.box.width for one in here))
        assert page.width_mm <= STRIP_MM + 0.2
        assert [one.position for one in here] == list(range(1, len(here) + 1))
    image = Image.open(BytesIO(png_bytes(section.pages[0], 600))).convert("L")
    for one in section.labels[1:4]:  # ticks, measured
        x = round(one.box.x * 600 / 25.4)
        ink = image.crop((x - 12, round(1.5 * 600 / 25.4), x + 12, round(2.4 * 600 / 25.4)))
        box = ink.point(lambda level: 255 if level < 128 else 0).getbbox()
        assert box is not None
        assert (x - 12 + (box[0] + box[2]) / 2) * 25.4 / 600 == pytest.approx(one.box.x, abs=0.1)


def test_sleeves_are_parted_by_size_and_told_in_order_of_assembly(sample: tuple[Harness, Routing]) -> None:
    run = run_on(sample, "sleeve-2to1")
    sizes = [section.sleeve for section in run.sections]
    assert sizes == sorted(set(sizes))
    assert all(section.name == f"sleeve-2to1 {section.sleeve.text}" for section in run.sections if section.sleeve)
    for section in run.sections:
        assert section.sleeve is not None
        for page in section.pages:
            assert page.height_mm == pytest.approx(3.14159265 * section.sleeve.before_mm / 2)
    words = " ".join(box.text for boxes in text_boxes(pdf_bytes(run.notes)) for box in boxes)
    assert "Sleeves, in order of assembly" in words
    assert "goes on before the terminal" in words


def test_an_offset_moves_print_but_not_the_cut(sample: tuple[Harness, Routing]) -> None:
    sections: list[Section] = []
    for offset in ((0.0, 0.0), (0.5, -0.25)):
        sections += run_on(sample, "tape-24", only=["W12"], offset=offset).sections
    for plain, moved in zip(sections[0].labels, sections[1].labels, strict=True):
        assert moved.box == plain.box
        assert moved.faces[0].box.x - plain.faces[0].box.x == pytest.approx(0.5)
        assert moved.faces[0].box.y - plain.faces[0].box.y == pytest.approx(-0.25)
