"""One cavity on a pin-out sheet: its number, its wire's colours as a filled segment, its code beneath.

Knows colours and outlines, no harness.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from harnessdoc.drawing.face_picture import EMPTY_DASH, STUB_GREY
from harnessdoc.model.colours import Colour
from harnessdoc.sheet import inks, lettering
from harnessdoc.sheet.grid import TEXT_MM
from harnessdoc.sheet.page import BLACK, WHITE, Page

CODE_MM: Final = TEXT_MM + 1.0
"""Room for a code under a cavity."""
_LINE_MM: Final = 0.35
_THIN_MM: Final = 0.18
_SPLIT: Final = 0.12  # where the colour segment begins, in heights under the middle
_BETWEEN_MM: Final = 1.2
_BLADE: Final = 0.78  # the short side of a blade's cavity, in long sides
_STEPS: Final = 8
_CROSS: Final = 0.28  # of the room, from a cross's middle to its ends' height
_QUESTION_MM: Final = 1.8  # width of a bold ?
_PITCHES_MM: Final = (6.0, 24.0, 0.1)  # tried for the least pitch: first, last, step


@dataclass(frozen=True, slots=True)
class CavityStyle:
    """Diameter of a face's smaller cavities on paper, height of their numbers, and whether codes fit under them."""

    across_mm: float
    number_mm: float
    coded: bool

    @property
    def under_mm(self) -> float:
        """Height of what is written under a cavity."""
        return CODE_MM if self.coded else 0.0


def style_for(
    pitch_mm: float, names: Sequence[str], codes: Sequence[str], shapes: Iterable[str] = ("round",)
) -> CavityStyle | None:
    """Return how cavities `pitch_mm` apart are drawn; None if not even their numbers have room at 2.5 mm."""
    kinds = frozenset(shapes)
    widest = max((lettering.text_width_mm(code, TEXT_MM) for code in codes), default=0.0)
    with_codes = pitch_mm - CODE_MM - _BETWEEN_MM
    if codes and widest + 0.8 <= pitch_mm and (style := _numbered(with_codes, names, True, kinds)):
        return style
    return _numbered(pitch_mm - _BETWEEN_MM, names, False, kinds)


def least_pitch_mm(names: Sequence[str], shapes: Iterable[str]) -> float:
    """Return the least pitch on paper at which the numbers have room, mm; the last one tried if none will do."""
    return _least_pitch_mm(tuple(names), frozenset(shapes))


@lru_cache(maxsize=256)
def _least_pitch_mm(names: tuple[str, ...], kinds: frozenset[str]) -> float:
    pitch, last, step = _PITCHES_MM
    while pitch < last and style_for(pitch, names, (), kinds) is None:
        pitch += step
    return pitch


def _numbered(across: float, names: Sequence[str], coded: bool, shapes: Iterable[str]) -> CavityStyle | None:
    for height in (3.5, 2.5):
        widest = max(lettering.text_width_mm(name, height, True) for name in names)
        if across > 0 and all(_fits(across, widest, height, shape) for shape in shapes):
            return CavityStyle(across, height, coded)
    return None


def _fits(across: float, width: float, height: float, shape: str) -> bool:
    """Whether a number stands above the segment, inside the outline: its upper corners decide."""
    wide, tall = _sides(shape, across)
    top = height - _SPLIT * tall + 0.5
    if across < 6.0 or top <= 0:
        return False
    if shape == "round":
        return math.hypot(width / 2 + 0.3, top) <= across / 2 - _LINE_MM / 2
    return width + 0.9 <= wide and top + 0.3 <= tall / 2


def _sides(shape: str, across: float) -> tuple[float, float]:
    """Width and height on paper."""
    return {"upright blade": (_BLADE * across, across), "lying blade": (across, _BLADE * across)}.get(
        shape, (across, across)
    )


def draw_cavity(
    page: Page,
    x: float,
    y: float,
    name: str,
    shape: str,
    style: CavityStyle,
    *,
    colours: Sequence[Colour | None] = (),
    stub: bool = False,
    empty: bool = False,
    code: str = "",
    growth: float = 1.0,
) -> None:
    """Draw a cavity round (x, y). A stub's upper part is grey, an empty one dashed, an unknown colour a ? or ×."""
    width, height = _sides(shape, style.across_mm * growth)
    fill, dash = (STUB_GREY if stub else WHITE), (EMPTY_DASH if empty else ())
    if shape == "round":
        page.circle(x, y, width / 2, fill=fill, stroke="none")
    else:
        page.rect(x - width / 2, y - height / 2, width, height, fill=fill, stroke="none")
    if colours:
        _draw_segment(page, x, y, shape, (width, height), colours)
    if shape == "round":
        page.circle(x, y, width / 2, stroke_mm=_LINE_MM, dash=dash)
    else:
        page.rect(x - width / 2, y - height / 2, width, height, radius=0.4, stroke_mm=_LINE_MM, dash=dash)
    split = y + height * _SPLIT
    spare = 0.0 if shape == "round" else max(split - (y - height / 2) - style.number_mm, 1.0) / 2 - 0.5
    page.text(x, split - 0.5 - spare, name, style.number_mm, bold=True, anchor="middle")
    if style.coded and code:
        page.text(x, y + height / 2 + CODE_MM - 0.4, code, TEXT_MM, anchor="middle")


def draw_contact(page: Page, x: float, y: float, contacts: str) -> None:
    """Draw what a contact looks like end on, round (x, y): a pin is a disc in a ring, a socket an open ring."""
    page.circle(x, y, 1.3, stroke_mm=_LINE_MM)
    if contacts == "pins":
        page.circle(x, y, 0.75, fill=BLACK, stroke="none")
    else:
        page.circle(x, y, 0.6, stroke_mm=_THIN_MM)


def _draw_segment(
    page: Page, x: float, y: float, shape: str, sides: tuple[float, float], colours: Sequence[Colour | None]
) -> None:
    """The lower part, one share a wire, each in its base colour with its tracers as upright stripes."""
    half, split = sides[1] / 2, sides[1] * _SPLIT
    reach = math.sqrt(half**2 - split**2) if shape == "round" else sides[0] / 2
    share = 2 * reach / len(colours)
    for index, colour in enumerate(colours):
        left = -reach + index * share
        unknown = colour is None or inks.ink(colour.base) is None
        deep = _depth(abs(left + share / 2) + (_QUESTION_MM / 2 if len(colours) > 1 else 0.0), half, split, shape)
        asked = unknown and share >= _QUESTION_MM + 0.4 and deep >= TEXT_MM + 0.55
        if unknown and not asked:
            room = _depth(abs(left + share / 2), half, split, shape)
            _draw_cross(page, x + left + share / 2, y + split + room / 2, min(room, share) * _CROSS)
            if len(colours) == 1:
                continue  # no segment: a white one would say that the wire is white
        for start, end, code in _stripes(left, left + share, colour):
            outline = _under(start, end, split, half, shape)
            fill = (inks.ink(code) if code else None) or WHITE
            segment = [(x + dx, y + dy) for dx, dy in outline]
            page.polyline(segment, closed=True, fill=fill, stroke_mm=_THIN_MM)
            inks.hatch(page, code, segment)
        if asked:
            base = y + split + (deep + TEXT_MM) / 2 - 0.1
            page.text(x + left + share / 2, base, "?", TEXT_MM, bold=True, anchor="middle")


def _draw_cross(page: Page, x: float, y: float, arm: float) -> None:
    """Nobody knows the colour, and a ? has no room."""
    page.line(x - arm, y - arm, x + arm, y + arm, stroke_mm=_LINE_MM)
    page.line(x - arm, y + arm, x + arm, y - arm, stroke_mm=_LINE_MM)


def _depth(along: float, half: float, split: float, shape: str) -> float:
    """How deep the segment is at that way from the middle."""
    return (half if shape != "round" else math.sqrt(max(half**2 - along**2, 0.0))) - split


def _stripes(left: float, right: float, colour: Colour | None) -> list[tuple[float, float, str]]:
    """A wire's share parted into base and tracers: base, tracer, base, tracer, base."""
    if colour is None or not colour.tracers:
        return [(left, right, colour.base if colour else "")]
    codes = [colour.base]
    for tracer in colour.tracers:
        codes += [tracer, colour.base]
    width = (right - left) / len(codes)
    return [(left + index * width, left + (index + 1) * width, code) for index, code in enumerate(codes)]


def _under(start: float, end: float, split: float, half: float, shape: str) -> list[tuple[float, float]]:
    """The outline of a stripe between the split and the cavity's lower edge."""
    if shape != "round":
        return [(start, split), (end, split), (end, half), (start, half)]
    along = [start + (end - start) * step / _STEPS for step in range(_STEPS, -1, -1)]
    return [(start, split), (end, split), *((dx, math.sqrt(max(half**2 - dx**2, 0.0))) for dx in along)]
