"""A page at a printer's exact dots: black or white, nothing between, as a PNG of one bit a dot.

Painted by cairo like the PDF, then parted at half ink. Knows marks only; writes no file.
"""

from __future__ import annotations

import struct
import zlib
from typing import Final, NamedTuple

from harnessdoc.sheet.marks import Group, Rect
from harnessdoc.sheet.page import Page

MM_PER_INCH: Final = 25.4  # exact by definition (international inch, 1959)
_DARK: Final = bytes(ord("0") if level < 128 else ord("1") for level in range(256))  # PNG: 0 is black


class Bitmap(NamedTuple):
    """Dots row by row, eight to a byte, the first in the highest bit; a set bit is white."""

    width: int
    height: int
    dpi: int
    rows: tuple[bytes, ...]

    def png(self) -> bytes:
        """The dots as a PNG file of one bit a dot, with its density; the same dots, the same bytes."""
        per_metre = round(self.dpi / MM_PER_INCH * 1000)
        header = struct.pack(">IIBBBBB", self.width, self.height, 1, 0, 0, 0, 0)
        density = struct.pack(">IIB", per_metre, per_metre, 1)
        data = zlib.compress(b"".join(b"\0" + row for row in self.rows), 9)
        parts = ((b"IHDR", header), (b"pHYs", density), (b"IDAT", data), (b"IEND", b""))
        return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, content) for kind, content in parts)


def bitmap(page: Page, dpi: int) -> Bitmap:
    """Return the page's dots at a density; its size is rounded to whole dots."""
    import cairocffi as cairo

    from harnessdoc.sheet.painting import paint_pdf

    per_mm = dpi / MM_PER_INCH
    width, height = max(1, round(page.width_mm * per_mm)), max(1, round(page.height_mm * per_mm))
    surface = cairo.ImageSurface(cairo.FORMAT_RGB24, width, height)
    context = cairo.Context(surface)
    context.set_source_rgb(1, 1, 1)
    context.paint()
    paint_pdf(_clipped(page), surface, per_mm)
    surface.flush()
    data, stride = bytes(surface.get_data()), surface.get_stride()
    return Bitmap(
        width, height, dpi, tuple(_packed(data[at * stride : at * stride + 4 * width]) for at in range(height))
    )


def _clipped(page: Page) -> Page:
    """The same page with all its marks in a clip: matrices are painted there at once, instead of stamped on a PDF."""
    whole = Page(page.width_mm, page.height_mm)
    whole.symbols = page.symbols
    whole.marks.append(Group(marks=page.marks, clip=Rect(0.0, 0.0, page.width_mm + 1, page.height_mm + 1)))
    return whole


def _packed(row: bytes) -> bytes:
    """One row of 32-bit pixels as bits: by its green, since marks here are grey."""
    levels = row[1::4].translate(_DARK)
    bits = levels + b"1" * (-len(levels) % 8)
    return int(bits, 2).to_bytes(len(bits) // 8, "big")


def _chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
