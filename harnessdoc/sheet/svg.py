"""A page as SVG text: millimetres, text kept as text, its lettering carried inside, the same bytes each time.

Draws what `page.Page` collected; svgwrite escapes. Knows no harness.
"""

from __future__ import annotations

import base64
from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from harnessdoc.sheet import lettering, typeface
from harnessdoc.sheet.marks import Box, Circle, Group, Ink, Mark, Modules, Picture, Shape, Text, Use
from harnessdoc.sheet.page import DESC_ID, TITLE_ID, Page
from harnessdoc.sheet.paths import Segment

_FONT_STACK = f"'{typeface.FAMILY}','DejaVu Sans',Arial,sans-serif"


_FOR_BROWSERS = ";text-rendering:geometricPrecision"
"""Keeps browsers from rounding letters to dots; cairosvg would take it as an order for antialiasing."""


_NEAR_MM = "1.6"
"""Own choice: how wide the unseen lines are that a pointer finds."""
_HIGHLIGHT = "filter:drop-shadow(0 0 .5px #b0006a) drop-shadow(0 0 .5px #b0006a)"


def write_svg(page: Page, carry_font: bool = True) -> str:
    """Return the page as a complete SVG document, its lettering and what pointing at it highlights inside.

    Without `carry_font` it is bare: the reader must have the typeface, and nothing is highlighted.
    """
    import svgwrite

    width, height = number(page.width_mm), number(page.height_mm)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", profile="full", debug=False
    )
    # Kerning and ligatures off: cairo draws without, so browser and PDF agree with the measured widths.
    drawing.update(
        {
            "font-family": _FONT_STACK,
            "style": "font-kerning:none;font-variant-ligatures:none" + (_FOR_BROWSERS if carry_font else ""),
        }
    )
    _tell(drawing, page)
    if carry_font:
        letters: dict[bool, set[str]] = defaultdict(set)
        potentials: set[int] = set()
        _survey([*page.symbols.values(), *page.marks], letters, potentials)
        css = "".join(typeface.font_face_css(letters[bold], bold) for bold in sorted(letters))
        css += "".join(map(_highlight, sorted(potentials)))
        if css:
            drawing.defs.add(drawing.style(css))
    writer = _Writer(drawing, page, carry_font)
    for symbol in page.symbols.values():
        drawing.defs.add(writer.group(symbol))
    for mark in page.marks:
        drawing.add(writer.element(mark))
    return '<?xml version="1.0" encoding="utf-8"?>\n' + str(drawing.tostring()) + "\n"


def _tell(drawing: Any, page: Page) -> None:
    """Say what the drawing is to who can't see it: a document of graphics (WAI-ARIA Graphics Module) with a name."""
    drawing.update({"lang": "en", "role": "graphics-document document"})
    told = (("title", page.title, TITLE_ID, "aria-labelledby"), ("desc", page.desc, DESC_ID, "aria-describedby"))
    for tag, text, name, attribute in reversed(told):
        if text:
            drawing.set_desc(**{tag: text})
            drawing.elements[0].xml.set("id", name)
            drawing.update({attribute: name})


def _highlight(potential: int) -> str:
    """The rule by which pointing at, or tabbing to, any group of a potential highlights all its groups."""
    return f"svg:has(.p{potential}:is(:hover,:focus-within)) .p{potential}{{{_HIGHLIGHT}}}"


def number(value: float) -> str:
    """Write a length to a tenth of a micrometre, without useless zeros."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _survey(marks: Iterable[Mark], letters: dict[bool, set[str]], potentials: set[int]) -> None:
    """Gather the letters by weight and the potentials that the marks use."""
    for mark in marks:
        if isinstance(mark, Text):
            letters[mark.bold].update(mark.text)
        elif isinstance(mark, Group):
            if mark.potential is not None:
                potentials.add(mark.potential)
            _survey(mark.marks, letters, potentials)


class _Writer:
    """Turns marks into svgwrite elements."""

    def __init__(self, drawing: Any, page: Page, complete: bool) -> None:
        self.drawing = drawing
        self.page = page
        self.complete = complete
        self.clips = 0

    def element(self, mark: Mark) -> Any:
        """Return the element of one mark."""
        match mark:
            case Shape():
                return self._shape(mark)
            case Box():
                extra = {"rx": number(mark.radius)} if mark.radius else {}
                return self.drawing.rect(
                    (number(mark.x), number(mark.y)),
                    (number(mark.width), number(mark.height)),
                    **_ink(mark.ink),
                    **extra,
                )
            case Circle():
                return self.drawing.circle((number(mark.x), number(mark.y)), number(mark.radius), **_ink(mark.ink))
            case Text():
                return self._text(mark)
            case Modules():
                return self._modules(mark)
            case Picture():
                data = "data:image/png;base64," + base64.b64encode(mark.png).decode()
                return self.drawing.image(
                    data,
                    (number(mark.x), number(mark.y)),
                    (number(mark.width), number(mark.height)),
                    preserveAspectRatio="none",
                )
            case Use():
                transform = _transform(mark.x, mark.y, mark.rotate, mark.scale)
                return self.drawing.use("#" + self.page.symbols[mark.symbol].id, **transform)
            case Group():
                return self.group(mark)

    def group(self, group: Group) -> Any:
        """Return a group, its names, its link (inside it) and its clip."""
        attributes = _transform(group.x, group.y, group.rotate, group.scale)
        if group.id:
            attributes["id"] = group.id
        if group.potential is not None:
            attributes["class_"] = f"p{group.potential}"
        if group.clip is not None:
            attributes["clip_path"] = f"url(#{self._clip(group)})"
        element = self._link(group.href, attributes) if group.href else self.drawing.g(**attributes)
        if group.title or group.desc:
            element.set_desc(title=group.title or None, desc=group.desc or None)
        if group.potential is not None and self.complete:
            self._widen(element, group)
        for mark in group.marks:
            element.add(self.element(mark))
        return element

    def _widen(self, element: Any, group: Group) -> None:
        """Let a pointer find thin lines: the group's open lines once more, unseen and wider (hatching is left out)."""
        lines = [mark.segments for mark in group.marks if isinstance(mark, Shape) and mark.ink.fill == "none"]
        found = [_data(line) for line in lines if sum(segment.command == "M" for segment in line) == 1]
        if found:
            extra = {"stroke_width": _NEAR_MM, "pointer_events": "stroke"}
            element.add(self.drawing.path("".join(found), fill="none", stroke="none", **extra))

    def _link(self, href: str, attributes: dict[str, str]) -> Any:
        """An `a` is a group too; SVG 2 writes its address without the old prefix."""
        link = self.drawing.a("", target="_top", **attributes)
        link.attribs.pop("xlink:href")
        link.update({"href": href})
        return link

    def _clip(self, group: Group) -> str:
        assert group.clip is not None
        self.clips += 1
        name = f"clip.{self.clips}"
        clip = self.drawing.clipPath(id=name)
        x, y, width, height = map(number, group.clip)
        clip.add(self.drawing.rect((x, y), (width, height)))
        self.drawing.defs.add(clip)
        return name

    def _shape(self, shape: Shape) -> Any:
        points = shape.segments
        if len(points) == 2 and points[1].command == "L":
            start, end = (tuple(map(number, point.numbers)) for point in points)
            return self.drawing.line(start, end, **_ink(shape.ink, filled=False))
        return self.drawing.path(_data(points), **_ink(shape.ink))

    def _text(self, mark: Text) -> Any:
        x, y = number(mark.x), number(mark.y)
        extra = {"font_size": number(lettering.font_size_mm(mark.height_mm, mark.bold))}
        if mark.bold:
            extra["font_weight"] = "bold"
        if mark.anchor != "start":
            extra["text_anchor"] = mark.anchor
        if mark.rotate:
            extra["transform"] = f"rotate({number(mark.rotate)} {x} {y})"
        if mark.fill != "#000000":
            extra["fill"] = mark.fill
        return self.drawing.text(mark.text, insert=(x, y), **extra)

    def _modules(self, mark: Modules) -> Any:
        data, at_x, at_y = [], 0, 0
        for x, y, length in mark.runs:
            data.append(f"m{x - at_x} {y - at_y}h{length}v1h-{length}z")
            at_x, at_y = x, y
        extra = {} if mark.fill == "#000000" else {"fill": mark.fill}
        return self.drawing.path(
            "M0 0" + "".join(data),
            transform=f"translate({number(mark.x)} {number(mark.y)}) scale({mark.module_mm:.6g})",
            **extra,
        )


def _data(segments: Iterable[Segment]) -> str:
    """Absolute segments as path data."""
    return "".join(command + " ".join(map(number, numbers)) for command, numbers in segments)


def _ink(ink: Ink, filled: bool = True) -> dict[str, str]:
    attributes = {"fill": ink.fill} if filled else {}
    if ink.stroke == "none" or ink.stroke_mm == 0:
        return attributes
    attributes |= {"stroke": ink.stroke, "stroke_width": number(ink.stroke_mm)}
    if ink.dash:
        attributes["stroke_dasharray"] = ",".join(map(number, ink.dash))
    if ink.cap != "butt":
        attributes["stroke_linecap"] = ink.cap
    if ink.join != "miter":
        attributes["stroke_linejoin"] = ink.join
    return attributes


def _transform(x: float, y: float, rotate: float, scale: float) -> dict[str, str]:
    parts = []
    if x or y:
        parts.append(f"translate({number(x)} {number(y)})")
    if rotate:
        parts.append(f"rotate({number(rotate)})")
    if scale != 1:
        parts.append(f"scale({scale:.6g})")
    return {"transform": " ".join(parts)} if parts else {}
