"""A page of paper that collects drawing, in millimetres from the top left corner, y down.

Cleans and checks all that goes in, so that nothing of a user's text can break or forge what the writers
(`svg`, `painting`) make of it. Knows nothing of frames, harnesses or output files.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Final

from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import (
    Anchor,
    Box,
    Cap,
    Circle,
    Group,
    Ink,
    Join,
    Mark,
    Modules,
    Picture,
    Rect,
    Shape,
    Text,
    Use,
    runs_of,
)
from harnessdoc.sheet.paths import Segment, read_path

BLACK: Final = "#000000"
WHITE: Final = "#ffffff"
NONE: Final = "none"
TITLE_ID: Final = "sheet-title"
DESC_ID: Final = "sheet-desc"
_COLOUR: Final = re.compile(r"#[0-9a-fA-F]{6}")
_SHORT_COLOUR: Final = re.compile(r"#[0-9a-fA-F]{3}")
_ANY_SCHEME: Final = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")
_PNG: Final = b"\x89PNG\r\n\x1a\n"


class Page:
    """One page. Lengths are mm, angles degrees clockwise, colours "#rrggbb" or "none"."""

    def __init__(self, width_mm: float, height_mm: float, title: str = "", desc: str = "") -> None:
        """Start an empty page of an exact size; title and description are metadata (as in SVG), not drawn."""
        self.width_mm = _length(width_mm)
        self.height_mm = _length(height_mm)
        self.title = lettering.clean(title)
        self.desc = lettering.clean(desc)
        self.marks: list[Mark] = []
        self.symbols: dict[str, Group] = {}
        self._into = self.marks
        self._linked = False
        self._ids: set[str] = {TITLE_ID, DESC_ID}

    # --- shapes

    def line(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        *,
        stroke: str = BLACK,
        stroke_mm: float = 0.25,
        dash: Sequence[float] = (),
        cap: Cap = "butt",
    ) -> None:
        """Draw a straight line."""
        self.polyline(((x1, y1), (x2, y2)), stroke=stroke, stroke_mm=stroke_mm, dash=dash, cap=cap)

    def polyline(
        self,
        points: Sequence[tuple[float, float]],
        *,
        closed: bool = False,
        fill: str = NONE,
        stroke: str = BLACK,
        stroke_mm: float = 0.25,
        dash: Sequence[float] = (),
        cap: Cap = "butt",
        join: Join = "miter",
    ) -> None:
        """Draw a line through points, closed or open (two points at least)."""
        if len(points) < 2:
            raise ValueError("a line needs two points")
        segments = [Segment("L" if index else "M", (_number(x), _number(y))) for index, (x, y) in enumerate(points)]
        if closed:
            segments.append(Segment("Z", ()))
        self._into.append(Shape(tuple(segments), _ink(fill, stroke, stroke_mm, dash, cap, join)))

    def strokes(
        self,
        strokes: Iterable[tuple[float, float, float, float]],
        *,
        stroke: str = BLACK,
        stroke_mm: float = 0.25,
        cap: Cap = "butt",
    ) -> None:
        """Draw many straight strokes (x1, y1, x2, y2) as one shape; none draws nothing."""
        segments: list[Segment] = []
        for x1, y1, x2, y2 in strokes:
            segments.append(Segment("M", (_number(x1), _number(y1))))
            segments.append(Segment("L", (_number(x2), _number(y2))))
        if segments:
            self._into.append(Shape(tuple(segments), _ink(NONE, stroke, stroke_mm, (), cap, "miter")))

    def path(
        self,
        data: str,
        *,
        fill: str = NONE,
        stroke: str = BLACK,
        stroke_mm: float = 0.25,
        dash: Sequence[float] = (),
        cap: Cap = "butt",
        join: Join = "miter",
    ) -> None:
        """Draw SVG path data (M L H V C Q A Z, small letters relative). Raises ValueError for other text."""
        self._into.append(Shape(read_path(data), _ink(fill, stroke, stroke_mm, dash, cap, join)))

    def rect(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        radius: float = 0.0,
        fill: str = NONE,
        stroke: str = BLACK,
        stroke_mm: float = 0.25,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a rectangle, its corners rounded by `radius`."""
        ink = _ink(fill, stroke, stroke_mm, dash, "butt", "miter")
        width, height = _length(width), _length(height)
        radius = min(_length(radius), width / 2, height / 2)
        self._into.append(Box(_number(x), _number(y), width, height, radius, ink))

    def circle(
        self,
        x: float,
        y: float,
        radius: float,
        *,
        fill: str = NONE,
        stroke: str = BLACK,
        stroke_mm: float = 0.25,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a circle round (x, y)."""
        ink = _ink(fill, stroke, stroke_mm, dash, "butt", "miter")
        self._into.append(Circle(_number(x), _number(y), _length(radius), ink))

    # --- text

    def text(
        self,
        x: float,
        y: float,
        text: str,
        height_mm: float = lettering.SMALLEST_MM,
        *,
        bold: bool = False,
        anchor: Anchor = "start",
        rotate: float = 0.0,
        box_mm: float | None = None,
        fill: str = BLACK,
    ) -> float:
        """Write one line with its base line at y, capitals `height_mm` tall, turned round (x, y) by `rotate`.

        With `box_mm` the text is shortened with … to that width. Returns the width drawn, mm.
        """
        text = lettering.clean(text) if box_mm is None else lettering.fit(text, box_mm, height_mm, bold)
        if not text:
            return 0.0
        self._into.append(
            Text(
                _number(x),
                _number(y),
                text,
                _length(height_mm),
                bold,
                _anchor(anchor),
                _number(rotate),
                _colour(fill),
            )
        )
        return lettering.text_width_mm(text, height_mm, bold)

    def lines(
        self,
        x: float,
        y: float,
        texts: Sequence[str],
        height_mm: float = lettering.SMALLEST_MM,
        *,
        bold: bool = False,
        anchor: Anchor = "start",
        fill: str = BLACK,
    ) -> float:
        """Write lines under each other, the first base line at y. Returns the next base line, mm."""
        for text in texts:
            self.text(x, y, text, height_mm, bold=bold, anchor=anchor, fill=fill)
            y += height_mm * lettering.LINE_SPACING
        return y

    # --- matrices and pictures

    def modules(
        self, x: float, y: float, module_mm: float, rows: Sequence[Sequence[bool]], *, fill: str = BLACK
    ) -> None:
        """Draw a black and white module matrix (a QR symbol), top left at (x, y), exact and vector.

        In a PDF it lies above everything else on the page: draw nothing over it.
        """
        self._into.append(Modules(_number(x), _number(y), _length(module_mm), runs_of(rows), _colour(fill)))

    def image(self, x: float, y: float, width: float, height: float, png: bytes) -> None:
        """Place a PNG picture, stretched to the size. Raises ValueError for any other kind of bytes."""
        if not png.startswith(_PNG):
            raise ValueError("only PNG pictures can be placed on a page")
        self._into.append(Picture(_number(x), _number(y), _length(width), _length(height), png))

    # --- groups, symbols, links

    @contextmanager
    def group(
        self,
        name: str = "",
        title: str = "",
        *,
        desc: str = "",
        link: str = "",
        potential: int | None = None,
        x: float = 0.0,
        y: float = 0.0,
        rotate: float = 0.0,
        scale: float = 1.0,
        clip: Rect | None = None,
    ) -> Iterator[None]:
        """Draw what follows as one group: moved to (x, y), then turned, then scaled, cut at `clip` (own mm).

        The name becomes the SVG id, made safe and unique on the page. Title (a tool tip in browsers) and `desc` are
        for who listens to the drawing. `potential` counts the potentials of a harness from 0: pointing at a group of
        one highlights all of it on the page. `link`: an address as for `link`; links don't nest (ValueError).
        """
        group = Group(
            id=self._safe_id(name) if name else "",
            title=lettering.clean(title),
            desc=lettering.clean(desc),
            potential=_count(potential),
            x=_number(x),
            y=_number(y),
            rotate=_number(rotate),
            scale=_number(scale),
            href=_href(link) if link else "",
            clip=clip,
        )
        with self._collect(group):
            yield

    @contextmanager
    def link(self, href: str) -> Iterator[None]:
        """Make what follows a link. http, https and relative addresses only, else ValueError; links don't nest."""
        with self._collect(Group(href=_href(href))):
            yield

    @contextmanager
    def symbol(self, name: str) -> Iterator[None]:
        """Draw what follows into a symbol round its own (0, 0), to be placed with `use`."""
        if name in self.symbols:
            raise ValueError(f"the page has a symbol {name!r} already")
        group = Group(id=self._safe_id(f"symbol-{name}"))
        outer, self._into = self._into, group.marks
        try:
            yield
        finally:
            self._into = outer
        self.symbols[name] = group

    def use(self, name: str, x: float, y: float, *, rotate: float = 0.0, scale: float = 1.0) -> None:
        """Place a symbol of this page with its (0, 0) at (x, y). Raises KeyError for an unknown one."""
        if name not in self.symbols:
            raise KeyError(name)
        self._into.append(Use(name, _number(x), _number(y), _number(rotate), _number(scale)))

    @contextmanager
    def _collect(self, group: Group) -> Iterator[None]:
        if group.href and self._linked:
            raise ValueError(f"a link inside a link: {group.href!r:.60}")
        self._into.append(group)
        outer, self._into = self._into, group.marks
        was_linked, self._linked = self._linked, self._linked or bool(group.href)
        try:
            yield
        finally:
            self._into, self._linked = outer, was_linked

    def _safe_id(self, wanted: str) -> str:
        """An XML id of ASCII letters, digits, '-', '_' and '.', unique on this page."""
        base = re.sub(r"[^A-Za-z0-9_.-]+", "-", wanted)[:64] or "id"
        base = base if base[0].isalpha() or base[0] == "_" else f"id-{base}"
        name, count = base, 1
        while name in self._ids:
            count += 1
            name = f"{base}-{count}"
        self._ids.add(name)
        return name


def _number(value: float) -> float:
    """Refuse what no drawing can hold: not a number, endless."""
    value = float(value)
    if not math.isfinite(value):
        raise ValueError(f"not a length or angle: {value}")
    return value


def _length(value: float) -> float:
    value = _number(value)
    if value < 0:
        raise ValueError(f"a length below zero: {value}")
    return value


def _count(value: int | None) -> int | None:
    if value is not None and (not isinstance(value, int) or isinstance(value, bool) or value < 0):
        raise ValueError(f"potentials are counted 0, 1, 2 ...: {value!r:.40}")
    return value


def _colour(value: str) -> str:
    if value == NONE or _COLOUR.fullmatch(value):
        return value.lower()
    if _SHORT_COLOUR.fullmatch(value):
        return "#" + "".join(2 * digit for digit in value[1:].lower())
    raise ValueError(f"not a colour (#rrggbb or none): {value!r:.40}")


def _ink(fill: str, stroke: str, stroke_mm: float, dash: Sequence[float], cap: Cap, join: Join) -> Ink:
    if cap not in ("butt", "round", "square") or join not in ("miter", "round", "bevel"):
        raise ValueError(f"no such line end or corner: {cap!r:.40}, {join!r:.40}")
    return Ink(_colour(fill), _colour(stroke), _length(stroke_mm), tuple(map(_length, dash)), cap, join)


def _anchor(value: Anchor) -> Anchor:
    if value not in ("start", "middle", "end"):
        raise ValueError(f"no such anchor: {value!r:.40}")
    return value


def _href(value: str) -> str:
    """Pass http, https and relative addresses, cleaned; refuse any other (javascript:, data:, file:)."""
    value = lettering.clean(value).replace(" ", "%20").replace("\\", "%5C")
    scheme = _ANY_SCHEME.match(value)
    if scheme and scheme[0].lower() not in ("http:", "https:"):
        raise ValueError(f"only http, https and relative links can go on paper: {value!r:.60}")
    return value
