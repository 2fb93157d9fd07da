"""How a plug's faces stand on a sheet: the asked view large, the other view and the other half small beside it.

Knows faces and room; what is in the cavities is drawn by what it is given.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from harnessdoc.drawing import viewer
from harnessdoc.drawing.cavity import CavityStyle, least_pitch_mm, style_for
from harnessdoc.drawing.face_picture import Picture, fitted, smallest_pitch_mm
from harnessdoc.model.face import View
from harnessdoc.model.harness import Plug
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM
from harnessdoc.sheet.page import Page

_PITCHES_MM: Final = (17.0, 14.0, 12.0)  # largest first; a smaller one if all faces then stand in one row
_SMALL_MM: Final = 9.3  # an unknown colour's ? has room then
_SMALLEST_MM: Final = 7.9
_BETWEEN_MM: Final = 8.0
_CAPTION_MM: Final = 48.0  # least width of a small face's caption
_ASIDE_MM: Final = 4.0
_WIDEST_NAME_MM: Final = 9.0
_NO_ROOM: Final = (
    "Too many cavities for their numbers to have room here; the table names them in the order of the rule."
)

DrawCavity = Callable[[Page, str, str, float, float, CavityStyle, float], None]
"""Draws a cavity: page, name, shape, its middle, the style, and how much larger than the others it is."""


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row that is never broken: its height, and how it is drawn from its top left corner."""

    height_mm: float
    draw: Callable[[Page, float, float], None]


@dataclass(frozen=True, slots=True)
class Shown:
    """A face to be drawn. `group`: its name in the drawing; `caption`: over a small one; `codes`: under cavities."""

    plug: Plug
    view: View
    draw: DrawCavity
    group: str = "face"
    caption: str = ""
    codes: Sequence[str] = ()

    @property
    def shapes(self) -> frozenset[str]:
        """The shapes of its cavities."""
        return frozenset(cavity.shape for cavity in self.plug.face.cavities)

    @property
    def numbers(self) -> tuple[str, ...]:
        """What stands in its cavities."""
        return tuple(cavity_marks(self.plug).values())


@dataclass(frozen=True, slots=True)
class _Fitted:
    """A face with its size and style; none where its numbers have no room. `aside`: its caption stands left of it."""

    shown: Shown
    picture: Picture
    style: CavityStyle | None
    aside: bool = False

    @property
    def small(self) -> bool:
        """Whether it stands under a caption with a viewer."""
        return bool(self.shown.caption)

    @property
    def width_mm(self) -> float:
        """Width with its caption."""
        if self.aside:
            return _CAPTION_MM + _ASIDE_MM + self.picture.width_mm
        return max(self.picture.width_mm, _CAPTION_MM if self.small else 0.0)

    @property
    def caption_beside(self) -> bool:
        """Whether the caption has room beside its viewer."""
        return not self.aside and self.width_mm >= viewer.WIDTH_MM + _CAPTION_MM

    @property
    def caption(self) -> list[str]:
        """The caption's lines."""
        room = _CAPTION_MM if self.aside else self.width_mm - (viewer.WIDTH_MM + 4 if self.caption_beside else 0.0)
        return lettering.wrap(self.shown.caption, room, TEXT_MM, True)

    @property
    def caption_mm(self) -> float:
        """Height of caption and viewer."""
        if not self.small:
            return 0.0
        text = STEP_MM * len(self.caption) + 1
        return max(text, self.viewer_mm) if self.caption_beside else text + self.viewer_mm

    @property
    def viewer_mm(self) -> float:
        """Height of the viewer."""
        return viewer.HEIGHT_MM + (viewer.WORD_MM if self.shown.plug.contacts else 0.0) + 2

    @property
    def height_mm(self) -> float:
        """Height with its caption."""
        if self.aside:
            return max(self.caption_mm, self.picture.height_mm)
        return self.caption_mm + self.picture.height_mm


def cavity_marks(plug: Plug) -> Mapping[str, str]:
    """What stands in each cavity: its name, or *1, *2 for a name that no cavity could hold (the table then says it)."""
    marks: dict[str, str] = {}
    for name in plug.terminals:
        wide = lettering.text_width_mm(name, TEXT_MM, True) > _WIDEST_NAME_MM
        marks[name] = f"*{sum(mark != name for name, mark in marks.items()) + 1}" if wide else name
    return marks


def panel_rows(
    main: Shown,
    beside: Sequence[Shown],
    width_mm: float,
    heights_mm: tuple[float, float, float],
    foot: TableRow,
    force: bool = False,
) -> list[TableRow] | None:
    """Return the rows of faces for that width, the first with `foot` under it.

    `heights_mm`: the most that the main face takes, what all may take together, and what a row may that has to go to
    the next sheet, since there is no room for it under the main face. None if the main face's numbers have no room;
    with `force` it is then drawn without them.
    """
    most, whole, further = heights_mm
    room = most - foot.height_mm - 4
    largest = _main(main, width_mm, room, _PITCHES_MM[0])
    if largest.style is None and not force:
        return None
    sizes = [_main(main, width_mm, room, pitch) for pitch in _PITCHES_MM]
    alike = [large for large in sizes if large.style and largest.style and large.style.coded == largest.style.coded]
    for large, pitch in product(alike, (_SMALL_MM, _SMALLEST_MM)):
        small = [_small(shown, pitch, width_mm, further) for shown in beside]
        shown = [large, *filter(None, small)]
        if _row_mm(shown) <= width_mm and _row(shown, width_mm).height_mm <= room:
            return [_row(shown, width_mm, foot)]
    under = [_stacked(large, beside, (width_mm, further), foot) for large in alike or [largest]]
    return next((rows for rows in under if sum(row.height_mm for row in rows) <= whole), under[0])


def _stacked(large: _Fitted, beside: Sequence[Shown], sides: tuple[float, float], foot: TableRow) -> list[TableRow]:
    """The main face in one row, the small ones below it: in one row too, or each in its own."""
    width, height = sides
    found = [one for one in (_small(shown, _SMALL_MM, width, height) for shown in beside) if one is not None]
    rows = [_row([large], width, foot)]
    if len(found) > 1 and _row_mm(found) <= width:
        return [*rows, _row(found, width)]
    return rows + [_row([_set_aside(one, width)], width) for one in found]


def _main(shown: Shown, width: float, height: float, pitch: float) -> _Fitted:
    picture = fitted(shown.plug.face, shown.view, width, height, pitch)
    return _Fitted(shown, picture, style_for(picture.pitch_mm, shown.numbers, shown.codes, shown.shapes))


def _small(shown: Shown, pitch: float, width: float, height: float) -> _Fitted | None:
    """A small face of that pitch, or more if its numbers need it; None if it then is too wide or too tall."""
    face = shown.plug.face
    height -= viewer.HEIGHT_MM + viewer.WORD_MM + 3 * STEP_MM + 6  # under its caption
    pitch = max(least_pitch_mm(shown.numbers, shown.shapes), pitch)
    picture = Picture(face, shown.view, pitch / smallest_pitch_mm(face))
    if picture.width_mm > width or picture.height_mm > height:
        picture = fitted(face, shown.view, width, height, pitch)
    style = style_for(picture.pitch_mm, shown.numbers, (), shown.shapes)
    return _Fitted(shown, picture, style) if style else None


def _set_aside(one: _Fitted, width: float) -> _Fitted:
    """The face with its caption left of it, a little smaller if need be, where that has room; it takes less height."""
    shown, factor = one.shown, one.picture.factor
    beside = fitted(shown.plug.face, shown.view, width - _CAPTION_MM - _ASIDE_MM, 1000.0, one.picture.pitch_mm)
    style = style_for(beside.pitch_mm, shown.numbers, (), shown.shapes)
    found = _Fitted(shown, beside, style, aside=True)
    return found if style and beside.factor > 0.8 * factor and found.height_mm < one.height_mm else one


def _row_mm(shown: Sequence[_Fitted]) -> float:
    return sum(one.width_mm for one in shown) + _BETWEEN_MM * (len(shown) - 1)


def _row(shown: Sequence[_Fitted], width: float, foot: TableRow | None = None) -> TableRow:
    captions = max((one.caption_mm for one in shown if not one.aside), default=0.0)
    height = max(one.height_mm if one.aside or not one.small else captions + one.picture.height_mm for one in shown)
    spoken = 0.0 if all(one.style for one in shown) else STEP_MM + 1

    def draw(page: Page, x: float, y: float) -> None:
        left = x + (width - _row_mm(shown)) / 2
        for one in shown:
            if one.small and not one.aside:
                _draw(page, one, left, y, captions)
            else:
                _draw(page, one, left, y + (height - one.height_mm) / 2, 0.0)
            left += one.width_mm + _BETWEEN_MM
        if spoken:
            page.text(x, y + height + 1 + TEXT_MM, _NO_ROOM)
        if foot:
            foot.draw(page, x, y + height + spoken + 3)

    return TableRow(height + spoken + (foot.height_mm + 3 if foot else 3.0), draw)


def _draw(page: Page, one: _Fitted, x: float, y: float, caption_mm: float) -> None:
    """Draw a face, a small one under its caption of that height, with the top left of all at (x, y)."""
    shown, style = one.shown, one.style
    with page.group(shown.group, f"{shown.plug.name} seen from the {shown.view.value}"):
        if one.small:
            page.lines(x, y + TEXT_MM + 0.5, one.caption, bold=True)
            under = x, y + max(STEP_MM * len(one.caption) + 1, caption_mm - one.viewer_mm)
            at = (x + one.width_mm - viewer.WIDTH_MM, y) if one.caption_beside else under
            viewer.draw_viewer(page, at[0], at[1], shown.view, shown.plug.contacts)
        growth = one.picture.growth(style.across_mm, style.under_mm) if style else {}

        def cavity(page: Page, name: str, shape: str, x: float, y: float) -> None:
            if style is not None:
                shown.draw(page, name, shape, x, y, style, growth.get(name, 1.0))
            else:
                page.circle(x, y, one.picture.pitch_mm * 0.4, stroke_mm=0.25)

        if one.aside:
            middle = x + one.width_mm - one.picture.width_mm / 2, y + one.height_mm / 2
        else:
            middle = x + one.width_mm / 2, y + caption_mm + one.picture.height_mm / 2
        one.picture.draw(page, *middle, cavity)
