"""A plug at the end of its wires: its face as it is looked at, then its cavities in use as a strip of cells."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from harnessdoc.drawing.breakouts.cells import Strip, cells_mm, strip_parts
from harnessdoc.drawing.breakouts.rows import NAME_MM, Slot, words_in
from harnessdoc.drawing.breakouts.ruler import Ruler, draw_spine
from harnessdoc.drawing.face_picture import EMPTY_DASH, STUB_GREY, Picture, smallest_pitch_mm
from harnessdoc.drawing.flow import Part
from harnessdoc.model.harness import Harness, Plug
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.sheet.page import Page

_LEFT_MM: Final = 8.0  # clear of the bundle
_TALLEST_MM: Final = 60.0
_EDGE_MM: Final = 0.7
_GAP_MM: Final = 0.8


def plug_parts(ruler: Ruler, harness: Harness, plug: Plug, slots: Sequence[Slot]) -> Iterator[Part]:
    """Return a plug's face with its words, and its cavities in use with their wires."""
    title, facts = plug.title or "plug", _facts(plug)
    room = ruler.body_mm - cells_mm(slots) - 3.0
    beside = _small_picture(plug, room) if slots else None
    if beside is None:
        yield _face_part(ruler, harness, plug, facts, bool(slots))
    if not slots:
        return
    texts = (plug.title, _mate(plug), ", ".join(facts) if beside else "")
    words = words_in(room, plug.name, plug.contacts or "", texts)
    if beside is None:
        yield from strip_parts(ruler, Strip(plug.name, title, words, tuple(slots)))
        return
    cavity = _SmallCavity(harness, plug, beside.pitch_mm - _GAP_MM)

    def draw(page: Page, x: float, y: float) -> None:
        beside.draw(page, x + beside.width_mm / 2, y + 1.0 + beside.height_mm / 2, cavity)

    yield from strip_parts(ruler, Strip(plug.name, title, words, tuple(slots), (), draw, beside.height_mm + 2.0))


def _facts(plug: Plug) -> list[str]:
    facts = [f"seen from the {plug.view.value}"]
    if plug.cut:
        facts.append(f"{len(plug.cut)} of {len(plug.terminals)} cavities cut: see its pin-out sheet")
    return facts


def _mate(plug: Plug) -> str:
    return f"mates with {plug.mates_with}" if plug.mates_with else ""


def _face_part(ruler: Ruler, harness: Harness, plug: Plug, facts: list[str], used: bool) -> Part:
    """The face beside its words where there is room, else under them."""
    facts = list(facts)
    if not used:
        facts = [plug.title, _mate(plug), *facts, "no wire is known to end here"]
    whole = ruler.width_mm - _LEFT_MM
    picture = _small_picture(plug, whole)
    if picture is None:
        facts.append("its face is on its own pin-out sheet")
    room = whole - (picture.width_mm + 6 if picture else 0)
    beside = room >= 40 or picture is None
    name = lettering.fit(plug.name, 40.0, NAME_MM, True)
    indent = lettering.text_width_mm(name, NAME_MM, True) + 3
    caption = shortened(", ".join(filter(None, facts)), (room if beside else whole) - indent, most=6)
    text_mm = 6.2 + STEP_MM * (len(caption) - 1) + 1.6
    tall = picture.height_mm + 1.0 if picture else 0.0
    height = (max(text_mm, tall) if beside else text_mm + tall) + 2.0

    def draw(page: Page, x: float, y: float) -> None:
        draw_spine(page, x, y, y + height)
        with page.group(f"plug-{plug.name}", f"{plug.name} {plug.title}", desc=", ".join(facts)):
            page.text(x + _LEFT_MM, y + 5.2, name, NAME_MM, bold=True)
            page.lines(x + _LEFT_MM + indent, y + 5.2, caption, TEXT_MM)
            if picture:
                middle = x + ruler.width_mm - picture.width_mm / 2
                top = y + (0.0 if beside else text_mm)
                picture.draw(page, middle, top + tall / 2, _SmallCavity(harness, plug, picture.pitch_mm - _GAP_MM))

    return Part(height, draw, glued=used)


def _small_picture(plug: Plug, room_mm: float) -> Picture | None:
    """The face just large enough for its numbers; None if that is wider than a column or very tall."""
    widest = max(lettering.text_width_mm(name, TEXT_MM) for name in plug.terminals)
    across = max(widest, TEXT_MM) + 2 * _EDGE_MM + 1.2
    picture = Picture(plug.face, plug.view, (across + _GAP_MM) / smallest_pitch_mm(plug.face))
    return picture if picture.width_mm <= room_mm and picture.height_mm <= _TALLEST_MM else None


class _SmallCavity:
    """Draws one cavity: its number, grey where a stub is left in it, dashed where it is empty."""

    def __init__(self, harness: Harness, plug: Plug, across: float) -> None:
        self._stubs = {name for name in plug.terminals if (plug.name, name) in harness.stubs}
        self._empty = set(plug.empty)
        self._half = across / 2

    def __call__(self, page: Page, name: str, shape: str, x: float, y: float) -> None:
        half = self._half
        fill = STUB_GREY if name in self._stubs else "none"
        dash = EMPTY_DASH if name in self._empty else ()
        if shape == "round":
            page.circle(x, y, half, fill=fill, stroke_mm=0.25, dash=dash)
        else:
            page.rect(x - half, y - half, 2 * half, 2 * half, radius=0.6, fill=fill, stroke_mm=0.25, dash=dash)
        page.text(x, y + TEXT_MM / 2, name, TEXT_MM, anchor="middle")
