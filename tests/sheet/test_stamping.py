"""Module matrices in PDFs: read back by a scanner, no seams, at the right place."""

from __future__ import annotations

import io
import re

import pypdfium2
import pytest
import qrcode
import zxingcpp
from PIL import Image
from pypdf import PdfReader

from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page

PAYLOAD = "HTTPS://RECORDS.EXAMPLE/OS-01/AGITATOR"


def _matrix() -> list[list[bool]]:
    code = qrcode.QRCode(border=0)
    code.add_data(PAYLOAD)
    code.make()
    return code.get_matrix()


def _render(pdf: bytes, dpi: float) -> Image.Image:
    with pypdfium2.PdfDocument(pdf) as document:
        return document[0].render(scale=dpi / 72).to_pil().convert("L")


@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize("turn", [0, 90])
def test_symbols_scan(dpi: int, turn: int) -> None:
    """Four symbols, one of them clipped (drawn the other way), one under scaling: all read, texts equal."""
    page = Page(100, 100)
    rows = _matrix()
    page.modules(5, 5, 0.5, rows)
    with page.group(x=90, y=10, rotate=turn):
        page.modules(0, 0, 0.5, rows)
    with page.group(x=5, y=50, clip=Rect(0, 0, 40, 40)):
        page.modules(3, 3, 0.5, rows)
    with page.group(x=50, y=50, scale=2):
        page.modules(5, 5, 0.375, rows)
    if not turn:
        page = Page(130, 100)
        for x, y in ((5, 5), (60, 5), (5, 55), (60, 55)):
            page.modules(x, y, 0.375, rows)
    found = zxingcpp.read_barcodes(_render(pdf_bytes([page]), dpi))
    assert [code.text for code in found] == [PAYLOAD] * 4


def test_no_seams_between_modules() -> None:
    """A solid 9 x 9 block, off the dots' grid at 203 dpi, is solid black inside."""
    page = Page(30, 30)
    page.modules(5.123, 7.311, 0.377, [[True] * 9 for _ in range(9)])
    image = _render(pdf_bytes([page]), 203)
    dots = 203 / 25.4
    inside = image.crop((int(5.123 * dots) + 2, int(7.311 * dots) + 2, int(8.516 * dots) - 1, int(10.704 * dots) - 1))
    assert inside.width > 20
    assert set(inside.tobytes()) == {0}
    assert image.getpixel((int(4.9 * dots), int(8 * dots))) == 255


def test_place_and_colour_in_the_content() -> None:
    """Worked by hand: 10 mm from the left, 20 mm from the top of a 50 mm page, modules of 1 mm, in points."""
    page = Page(40, 50)
    page.modules(10, 20, 1, [[False, True]], fill="#ff0000")
    (pdf_page,) = PdfReader(io.BytesIO(pdf_bytes([page]))).pages
    content = pdf_page.get_contents()
    assert content is not None
    found = re.search(rb"q ([-\d. ]+) cm ([\d. ]+) rg\n1 0 1 1 re\nf Q", content.get_data())
    assert found is not None
    point = 72 / 25.4
    assert [float(number) for number in found[1].split()] == pytest.approx(
        [point, 0, 0, -point, 10 * point, 30 * point], abs=1e-4
    )
    assert found[2] == b"1 0 0"


def test_text_of_a_stamped_page_stays_searchable_and_linked() -> None:
    """Stamping changes nothing else on the page."""
    page = Page(60, 60)
    with page.link("https://records.example/1"):
        page.text(5, 50, "W12 RD/BK")
    page.modules(5, 5, 0.5, _matrix())
    (pdf_page,) = PdfReader(io.BytesIO(pdf_bytes([page], "Labels"))).pages
    assert "W12 RD/BK" in pdf_page.extract_text()
    assert len(pdf_page["/Annots"]) == 1
