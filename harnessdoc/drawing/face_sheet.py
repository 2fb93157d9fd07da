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
from harnessdoc.model.face import View
from harnessdoc.model.harness import Harness, Plug
from harnessdoc.sheet import lettering
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation
from harnessdoc.sheet.titles import title_block

WIDTH_MM: Final = 168.0
_MARGIN_MM: Final = 6.0  # clear of the centring marks, which reach 5 mm into the frame
_GUTTER_MM: Final = 12.0
_CONTINUED_MM: Final = 12.0  # height of the heading on further sheets
_FACE_MARGINS_MM: Final = 5.0
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
    """All that makes one plug's sheets. `codes`: texts written under cavities.

    `top`: drawn on top of every sheet. `foot`: drawn under the face.
    """

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
    top: TableRow | None = None

    @property
    def top_mm(self) -> float:
        """Height of what stands on top of every sheet."""
        return self.top.height_mm if self.top else 0.0


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
    area = _area(_open(wanted, setting, 1, 1))
    above = _top_mm(wanted, area) + setting.picture.height_mm + _FACE_MARGINS_MM + wanted.foot.height_mm + 3
    columns = int((area.width + _GUTTER_MM) // (WIDTH_MM + _GUTTER_MM))
    filled: list[list[list[TableRow]]] = []
    rows = list(wanted.rows)
    while rows or not filled:
        room = area.height - (_CONTINUED_MM if filled else above) - wanted.top_mm - wanted.heading.height_mm
        filled.append([_take(rows, room, force=bool(filled)) for _ in range(columns)])
    sheets = len(filled)
    return [_draw_page(wanted, setting, index + 1, sheets, taken) for index, taken in enumerate(filled)]


def _take(rows: list[TableRow], room_mm: float, force: bool) -> list[TableRow]:
    """Take off the rows that fit; with `force` one at least, so that no row stays behind for ever."""
    taken: list[TableRow] = []
    while rows and (rows[0].height_mm <= room_mm + 1e-6 or (force and not taken)):
        room_mm -= rows[0].height_mm
        taken.append(rows.pop(0))
    return taken


def _setting(wanted: FaceSheet) -> _Setting:
    """The smallest paper and face on which every cavity's number has room; the largest there is, if none does."""
    face, view, names = wanted.plug.face, wanted.plug.view, wanted.plug.terminals
    rooms: list[tuple[str, Orientation, float, float]] = [
        *(("A4", "portrait", WIDTH_MM, height) for height in _FACE_MM),
        ("A3", "landscape", 376.0, 150.0),
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
    title = title_block(wanted.harness, wanted.document_type, wanted.mark, number, sheets, about)
    return open_sheet(setting.paper, setting.orientation, title, wanted.cautions)


def _area(sheet: Sheet) -> Rect:
    return sheet.area.inset(_MARGIN_MM)


def _draw_page(
    wanted: FaceSheet, setting: _Setting, number: int, sheets: int, columns: Sequence[Sequence[TableRow]]
) -> Page:
    sheet = _open(wanted, setting, number, sheets)
    area, page = _area(sheet), sheet.page
    used = max(sum(1 for rows in columns if rows), 1)
    x = area.x + (area.width - used * WIDTH_MM - (used - 1) * _GUTTER_MM) / 2
    if wanted.top:
        wanted.top.draw(page, area.x + (area.width - WIDTH_MM) / 2, area.y)
        area = Rect(area.x, area.y + wanted.top_mm, area.width, area.height - wanted.top_mm)
    if number == 1:
        y = area.y + _draw_top(page, wanted, area)
        y = _draw_face(page, wanted, setting, area, y)
        wanted.foot.draw(page, area.x + (area.width - WIDTH_MM) / 2, y)
        y += wanted.foot.height_mm + 3
    else:
        _draw_continued(page, wanted, x, area.y)
        y = area.y + _CONTINUED_MM
    for index, rows in enumerate(columns):
        _draw_rows(page, wanted.heading, rows, x + index * (WIDTH_MM + _GUTTER_MM), y)
    return page


def _draw_rows(page: Page, heading: TableRow, rows: Sequence[TableRow], x: float, y: float) -> None:
    for row in (heading, *rows) if rows else ():
        row.draw(page, x, y)
        y += row.height_mm


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
    return y + picture.height_mm + _FACE_MARGINS_MM


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
        facts.append(f"{len(plug.cut)} cavities cut")
    return shortened("; ".join(facts) + ". The other side is its mirror image.", width, most=3)


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
