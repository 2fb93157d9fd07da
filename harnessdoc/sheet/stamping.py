"""Module matrices (QR symbols) put straight into a PDF's page contents, behind cairo's back.

Knows matrices and PDF contents only. Why: cairo takes 3.5 ms to fill 300 rectangles, and labels come by the
thousand. Measured for 2,015 symbols of 33 x 33 modules, two texts each, on 31 sheets:
SVG 0.75 s; PDF by cairo fills 7.2 s, by this module 0.75 s. Through cairosvg, from its sheets of 65: fills 27 s,
a dashed line a row 21 s (and seams between rows), a 1-bit picture 1.6 s (but some viewers blur pictures).
All rectangles of a symbol are one fill, so that no renderer leaves seams between them.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from harnessdoc.sheet.marks import Modules

Matrix = tuple[float, float, float, float, float, float]


def stamp(modules: Modules, matrix: Matrix, page_height_pt: float) -> bytes:
    """Return PDF content for one symbol. `matrix`: from page mm to points, y down, as cairo keeps it."""
    xx, yx, xy, yy, x0, y0 = matrix
    size = modules.module_mm
    left, top = xx * modules.x + xy * modules.y + x0, yx * modules.x + yy * modules.y + y0
    numbers = (xx * size, -yx * size, xy * size, -yy * size, left, page_height_pt - top)
    place = " ".join(f"{number:.5f}".rstrip("0").rstrip(".") for number in numbers)
    red, green, blue = (f"{int(modules.fill[at : at + 2], 16) / 255:.4g}" for at in (1, 3, 5))
    steps = "".join([f"{x} {y} {length} 1 re\n" for x, y, length in modules.runs])
    return f"q {place} cm {red} {green} {blue} rg\n{steps}f Q\n".encode("ascii")


def stamp_pages(pdf: bytes, stamps: Sequence[bytes]) -> bytes:
    """Return the PDF with one run of content added on top of each page (empty for none)."""
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import ArrayObject, DecodedStreamObject, NameObject

    reader = PdfReader(BytesIO(pdf))
    writer = PdfWriter(clone_from=reader)
    writer.pdf_header = reader.pdf_header
    for page, content in zip(writer.pages, stamps, strict=True):
        if not content:
            continue
        before, after = DecodedStreamObject(), DecodedStreamObject()
        before.set_data(b"q\n")
        after.set_data(b"Q\n" + content)
        page[NameObject("/Contents")] = ArrayObject(
            [
                writer._add_object(before),
                page.raw_get("/Contents"),
                writer._add_object(after.flate_encode()),
            ]
        )
    out = BytesIO()
    writer.write(out)
    return out.getvalue()
