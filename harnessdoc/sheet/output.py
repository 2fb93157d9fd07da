"""Pages to files' bytes: SVG text, PDF, PNG, and the binder that joins PDFs. The same pages, the same bytes.

Writes no file and knows no harness; whoever calls decides where the bytes go.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Final

from harnessdoc.sheet.page import Page
from harnessdoc.sheet.svg import write_svg

MM_PER_INCH: Final = 25.4  # exact by definition (international inch, 1959)
POINTS_PER_INCH: Final = 72  # ISO 32000-1, 8.3.2.3: default user space unit


def svg_text(page: Page) -> str:
    """Return the page as an SVG document that carries its lettering."""
    return write_svg(page)


def pdf_bytes(pages: Sequence[Page], title: str = "") -> bytes:
    """Return a PDF with one page for each, exact in size, text searchable, no clock in it.

    Raises ValueError for no pages.
    """
    import cairocffi as cairo

    from harnessdoc.sheet.lettering import clean
    from harnessdoc.sheet.painting import paint_pdf
    from harnessdoc.sheet.stamping import stamp_pages

    if not pages:
        raise ValueError("a PDF needs at least one page")
    per_mm = POINTS_PER_INCH / MM_PER_INCH
    out = BytesIO()
    surface = cairo.PDFSurface(out, pages[0].width_mm * per_mm, pages[0].height_mm * per_mm)
    surface.set_metadata(cairo.PDF_METADATA_CREATE_DATE, "")
    if title:
        surface.set_metadata(cairo.PDF_METADATA_TITLE, clean(title))
    stamps = []
    for page in pages:
        surface.set_size(page.width_mm * per_mm, page.height_mm * per_mm)
        stamps.append(paint_pdf(page, surface, per_mm))
        surface.show_page()
    surface.finish()
    return stamp_pages(out.getvalue(), stamps) if any(stamps) else out.getvalue()


def png_bytes(page: Page, dpi: float) -> bytes:
    """Return the page's SVG as a PNG on white, `dpi` pixels to the inch (size rounded to whole pixels)."""
    import cairosvg

    from harnessdoc.sheet.typeface import load_into_cairo

    load_into_cairo()
    png: bytes = cairosvg.svg2png(write_svg(page, carry_font=False).encode(), dpi=dpi, background_color="white")
    return png


def merge_pdf(parts: Sequence[tuple[str, bytes]], title: str = "") -> bytes:
    """Join PDFs into one binder, each part under a bookmark of its name. No clock, no random mark in it.

    Raises ValueError for no parts.
    """
    from pypdf import PdfReader, PdfWriter

    from harnessdoc.sheet.lettering import clean

    if not parts:
        raise ValueError("a binder needs at least one part")
    writer = PdfWriter()
    for name, data in parts:
        writer.append(PdfReader(BytesIO(data)), outline_item=clean(name) or None, import_outline=False)
    writer.metadata = {"/Producer": "harnessdoc"} | ({"/Title": clean(title)} if title else {})
    writer.compress_identical_objects()
    out = BytesIO()
    writer.write(out)
    return out.getvalue()
