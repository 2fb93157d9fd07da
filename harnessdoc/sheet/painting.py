"""A page painted by cairo, straight from its marks: the way to PDF.

cairocffi is used directly (cairosvg stands on it): parsing our own SVG again costs more than drawing, and
here text stays whole strings with the font's own advances, so PDF text can be searched. Knows marks only.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from io import BytesIO
from typing import Any

import cairocffi as cairo

from harnessdoc.sheet import lettering, typeface
from harnessdoc.sheet.marks import Box, Circle, Group, Ink, Mark, Modules, Picture, Shape, Text, Use
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.stamping import Matrix, stamp

_CAPS = {"butt": cairo.LINE_CAP_BUTT, "round": cairo.LINE_CAP_ROUND, "square": cairo.LINE_CAP_SQUARE}
_JOINS = {"miter": cairo.LINE_JOIN_MITER, "round": cairo.LINE_JOIN_ROUND, "bevel": cairo.LINE_JOIN_BEVEL}


def paint_pdf(page: Page, surface: Any, points_per_mm: float) -> bytes:
    """Paint a page on a cairo PDF surface, links too. Returns what is to be stamped on it (`stamping`)."""
    painter = _painter(page, surface, points_per_mm)
    painter.marks(page.marks)
    return b"".join(stamp(modules, matrix, page.height_mm * points_per_mm) for modules, matrix in painter.to_stamp)


def _painter(page: Page, surface: Any, units_per_mm: float) -> _Painter:
    typeface.load_into_cairo()
    context = cairo.Context(surface)
    context.scale(units_per_mm, units_per_mm)
    context.set_miter_limit(4)  # as SVG
    options = cairo.FontOptions()
    options.set_hint_style(cairo.HINT_STYLE_NONE)
    options.set_hint_metrics(cairo.HINT_METRICS_OFF)
    context.set_font_options(options)
    return _Painter(context, page)


class _Painter:
    """Paints marks into one context."""

    def __init__(self, context: Any, page: Page) -> None:
        self.context = context
        self.page = page
        self.clips = 0
        self.to_stamp: list[tuple[Modules, Matrix]] = []

    def marks(self, marks: Iterable[Mark]) -> None:
        """Paint marks in order."""
        for mark in marks:
            match mark:
                case Text():
                    self._text(mark)
                case Shape():
                    self._shape(mark)
                case Box():
                    self._box(mark)
                case Circle():
                    self.context.new_path()
                    self.context.arc(mark.x, mark.y, mark.radius, 0, 2 * math.pi)
                    self.context.close_path()
                    self._ink(mark.ink)
                case Modules():
                    self._modules(mark)
                case Picture():
                    self._picture(mark)
                case Use():
                    symbol = self.page.symbols[mark.symbol]
                    self._placed(mark.x, mark.y, mark.rotate, mark.scale, symbol)
                case Group():
                    self._placed(mark.x, mark.y, mark.rotate, mark.scale, mark)

    def _placed(self, x: float, y: float, rotate: float, scale: float, group: Group) -> None:
        context = self.context
        context.save()
        context.translate(x, y)
        if rotate:
            context.rotate(math.radians(rotate))
        if scale != 1:
            context.scale(scale, scale)
        if group.clip is not None:
            context.new_path()
            context.rectangle(*group.clip)
            context.clip()
            self.clips += 1
        outside = group.href.startswith(("http://", "https://"))
        if outside:
            address = group.href.replace("'", "%27").encode("ascii", "xmlcharrefreplace").decode()
            context.tag_begin("Link", f"uri='{address}'")
        self.marks(group.marks)
        if outside:
            context.tag_end("Link")
        context.restore()
        self.clips -= group.clip is not None

    def _colour(self, colour: str) -> None:
        red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
        self.context.set_source_rgb(red, green, blue)

    def _ink(self, ink: Ink) -> None:
        """Fill and stroke the current path."""
        context = self.context
        stroked = ink.stroke != "none" and ink.stroke_mm > 0
        if ink.fill != "none":
            self._colour(ink.fill)
            context.fill_preserve() if stroked else context.fill()
        if stroked:
            self._colour(ink.stroke)
            context.set_line_width(ink.stroke_mm)
            context.set_line_cap(_CAPS[ink.cap])
            context.set_line_join(_JOINS[ink.join])
            context.set_dash(ink.dash if sum(ink.dash) else [])
            context.stroke()
        context.new_path()

    def _shape(self, shape: Shape) -> None:
        context = self.context
        context.new_path()
        for command, numbers in shape.segments:
            if command == "M":
                context.move_to(*numbers)
            elif command == "L":
                context.line_to(*numbers)
            elif command == "C":
                context.curve_to(*numbers)
            else:
                context.close_path()
        self._ink(shape.ink)

    def _box(self, box: Box) -> None:
        context, radius = self.context, box.radius
        context.new_path()
        if not radius:
            context.rectangle(box.x, box.y, box.width, box.height)
        else:
            right, bottom = box.x + box.width, box.y + box.height
            quarter = math.pi / 2
            context.arc(right - radius, box.y + radius, radius, -quarter, 0)
            context.arc(right - radius, bottom - radius, radius, 0, quarter)
            context.arc(box.x + radius, bottom - radius, radius, quarter, 2 * quarter)
            context.arc(box.x + radius, box.y + radius, radius, 2 * quarter, 3 * quarter)
            context.close_path()
        self._ink(box.ink)

    def _text(self, mark: Text) -> None:
        if mark.fill == "none":
            return
        context = self.context
        self._colour(mark.fill)
        weight = cairo.FONT_WEIGHT_BOLD if mark.bold else cairo.FONT_WEIGHT_NORMAL
        context.select_font_face(typeface.FAMILY, cairo.FONT_SLANT_NORMAL, weight)
        context.set_font_size(lettering.font_size_mm(mark.height_mm, mark.bold))
        back = 0.0
        if mark.anchor != "start":
            back = lettering.text_width_mm(mark.text, mark.height_mm, mark.bold)
            back = back / 2 if mark.anchor == "middle" else back
        if not mark.rotate:
            context.move_to(mark.x - back, mark.y)
            context.show_text(mark.text)
            return
        context.save()
        context.translate(mark.x, mark.y)
        context.rotate(math.radians(mark.rotate))
        context.move_to(-back, 0)
        context.show_text(mark.text)
        context.restore()

    def _modules(self, mark: Modules) -> None:
        """Fill all runs as one path: one fill leaves no seams between runs, whatever the renderer."""
        context, module_mm = self.context, mark.module_mm
        if not self.clips:
            self.to_stamp.append((mark, context.get_matrix().as_tuple()))
            return
        self._colour(mark.fill)
        context.new_path()
        for x, y, length in mark.runs:
            context.rectangle(mark.x + x * module_mm, mark.y + y * module_mm, length * module_mm, module_mm)
        context.fill()

    def _picture(self, mark: Picture) -> None:
        context = self.context
        surface = cairo.ImageSurface.create_from_png(BytesIO(mark.png))
        context.save()
        context.translate(mark.x, mark.y)
        context.scale(mark.width / surface.get_width(), mark.height / surface.get_height())
        context.set_source_surface(surface)
        context.paint()
        context.restore()
