"""The sheet that pin-outs and surveys share: plug, view in large letters, face, and a table that goes on.

Knows plugs and tables; what the cavities and the cells say comes from outside.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing import viewer
from harnessdoc.drawing.cavity import CavityStyle, style_for
from harnessdoc.drawing.face_picture import Picture, fitted
from harnessdoc.drawing.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.drawing.titles import title_block
from harnessdoc.model.face import View
from harnessdoc.model.harness import Harness, Plug
from harnessdoc.sheet import lettering
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation

WIDTH_MM: Final = 176.0
_MARGIN_MM: Final = 2.0
_MOST_PITCH_MM: Final = 22.0
_FACE_MM: Final = (92.0, 150.0)  # heights tried for the face; the second leaves the table to the next sheet
_VIEW_WORDS: Final = {View.WIRE_SIDE: "SEEN FROM THE WIRE SIDE", View.MATING_FACE: "SEEN FROM THE MATING FACE"}

DrawCavity = Callable[[Page, str, str, float, float, CavityStyle], None]


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row that is never broken: its height, and how it is drawn from its top left corner."""

    height_mm: float
    draw: Callable[[Page, float, float], None]


@dataclass(frozen=True, slots=True)
class FaceSheet:
    """All that makes one plug's sheets. `codes`: texts written under cavities. `foot`: drawn under the face."""

    harness: Harness
    plug: Plug
    document_type: str
    cautions: Sequence[str]
    codes: Sequence[str]
    draw_cavity: DrawCavity
    foot: TableRow
    heading: TableRow
    rows: Sequence[TableRow]
    mark: str = ""


@dataclass(frozen=True, slots=True)
class _Setting:
    """On what paper the face is drawn, and how large."""

    paper: str
    orientation: Orientation
    picture: Picture
    style: CavityStyle | None


def draw_sheets(wanted: FaceSheet) -> list[Page]:
    """Return the sheets: the face and as much of the table as fits, then the rest. A4 upright, A3 for huge faces."""
    setting = _setting(wanted)
    rows = list(wanted.rows)
    heights: list[list[TableRow]] = []
    area = _area(_open(wanted, setting, 1, 1))
    room = area.height - _top_mm(wanted, area) - setting.picture.height_mm - wanted.foot.height_mm - 9
    while True:
        taken: list[TableRow] = []
        left = room - wanted.heading.height_mm
        while rows and rows[0].height_mm <= left:
            left -= rows[0].height_mm
            taken.append(rows.pop(0))
        heights.append(taken)
        if not rows:
            break
        room = area.height - _CONTINUED_MM
        if not taken and len(heights) > 1:
            heights[-1].append(rows.pop(0))  # taller than a sheet: it cannot be, but it must not go on for ever
            if not rows:
                break
    return [_draw_page(wanted, setting, n + 1, len(heights), taken) for n, taken in enumerate(heights)]


_CONTINUED_MM: Final = 12.0


def _setting(wanted: FaceSheet) -> _Setting:
    """The smallest paper and face on which every cavity's number has room; the largest there is, if none does."""
    face, view, names = wanted.plug.face, wanted.plug.view, wanted.plug.terminals
    rooms: list[tuple[str, Orientation, float, float]] = [
        *(("A4", "portrait", WIDTH_MM, height) for height in _FACE_MM),
        ("A3", "landscape", 384.0, 150.0),
    ]
    tried: list[_Setting] = []
    for paper, orientation, width, height in rooms:
        picture = fitted(face, view, width, height, _MOST_PITCH_MM)
        style = style_for(picture.pitch_mm, names, wanted.codes)
        tried.append(_Setting(paper, orientation, picture, style))
        if style:
            break
    return tried[-1]


def _open(wanted: FaceSheet, setting: _Setting, number: int, sheets: int) -> Sheet:
    about = " ".join(filter(None, (wanted.plug.name, wanted.plug.title)))
    title = title_block(wanted.harness, wanted.document_type, about, sheet=number, sheets=sheets, mark=wanted.mark)
    return open_sheet(setting.paper, setting.orientation, title, wanted.cautions)


def _area(sheet: Sheet) -> Rect:
    return sheet.area.inset(_MARGIN_MM)


def _draw_page(wanted: FaceSheet, setting: _Setting, number: int, sheets: int, rows: Sequence[TableRow]) -> Page:
    sheet = _open(wanted, setting, number, sheets)
    area, page = _area(sheet), sheet.page
    x = area.x + (area.width - WIDTH_MM) / 2
    if number == 1:
        y = area.y + _draw_top(page, wanted, area)
        y = _draw_face(page, wanted, setting, area, y)
        wanted.foot.draw(page, x, y)
        y += wanted.foot.height_mm + 3
    else:
        _draw_continued(page, wanted, x, area.y)
        y = area.y + _CONTINUED_MM
    if rows:
        wanted.heading.draw(page, x, y)
        y += wanted.heading.height_mm
    for row in rows:
        row.draw(page, x, y)
        y += row.height_mm
    return page


def _draw_continued(page: Page, wanted: FaceSheet, x: float, y: float) -> None:
    name = lettering.fit(wanted.plug.name, WIDTH_MM / 3, 5.0, True)
    width = page.text(x, y + 7, name, 5.0, bold=True)
    words = f"continued, {_VIEW_WORDS[wanted.plug.view].lower()}"
    page.text(x + width + 4, y + 7, words, 3.5, box_mm=WIDTH_MM - width - 4)


def _draw_face(page: Page, wanted: FaceSheet, setting: _Setting, area: Rect, y: float) -> float:
    picture, style = setting.picture, setting.style
    middle = area.x + area.width / 2, y + 2 + picture.height_mm / 2

    def cavity(page: Page, name: str, shape: str, x: float, y: float) -> None:
        if style is not None:
            wanted.draw_cavity(page, name, shape, x, y, style)
        else:
            page.circle(x, y, picture.pitch_mm * 0.4, stroke_mm=0.25)

    with page.group("face", f"{wanted.plug.name} {wanted.plug.view.value}"):
        picture.draw(page, *middle, cavity)
    return y + picture.height_mm + 4


# --- the top: plug, view, viewer


def _facts(wanted: FaceSheet, width: float) -> list[str]:
    plug = wanted.plug
    facts = [f"{len(plug.terminals)} cavities, {plug.face.key_is} {plug.face.key_side(plug.view)}"]
    if plug.face.key == "none":
        facts = [f"{len(plug.terminals)} cavities"]
    if plug.place:
        facts.append(f"place: {plug.place}")
    if plug.mates_with:
        facts.append(f"mates with {plug.mates_with}")
    if plug.cut:
        facts.append(f"cut whole {plug.cut['whole']}" if "whole" in plug.cut else f"{len(plug.cut)} cavities cut")
    facts.append("The other side is its mirror image.")
    return shortened("; ".join(facts), width, most=3)


def _top_mm(wanted: FaceSheet, area: Rect) -> float:
    return 24.5 + STEP_MM * len(_facts(wanted, area.width - viewer.WIDTH_MM - 6))


def _draw_top(page: Page, wanted: FaceSheet, area: Rect) -> float:
    plug, room = wanted.plug, area.width - viewer.WIDTH_MM - 6
    name = lettering.fit(plug.name, room * 0.6, 7.0, True)
    width = page.text(area.x, area.y + 9, name, 7.0, bold=True)
    page.text(area.x + width + 4, area.y + 9, plug.title, 3.5, box_mm=room - width - 4)
    words = _VIEW_WORDS[plug.view]
    height = 7.0 if lettering.text_width_mm(words, 7.0, True) <= room else 5.0
    page.text(area.x, area.y + 19.5, words, height, bold=True)
    facts = _facts(wanted, room)
    page.lines(area.x, area.y + 22 + TEXT_MM, facts)
    viewer.draw_viewer(page, area.right - viewer.WIDTH_MM, area.y + 5, plug.view)
    return _top_mm(wanted, area)
