"""The sheet that pin-outs and surveys share: plug, view in large letters, faces, and a table that goes on.

Knows plugs and tables; what the cavities and the cells say comes from outside.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing import viewer
from harnessdoc.drawing.face_panels import Shown, TableRow, panel_rows
from harnessdoc.model.face import View
from harnessdoc.model.harness import Harness, Plug
from harnessdoc.sheet import lettering
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation, read_paper
from harnessdoc.sheet.titles import title_block

WIDTH_MM: Final = 168.0
"""The usual width of a table: what an upright A4 leaves."""
_WIDEST_MM: Final = 250.0
_MARGIN_MM: Final = 6.0  # clear of the centring marks, which reach 5 mm into the frame
_GUTTER_MM: Final = 12.0
_CONTINUED_MM: Final = 12.0  # height of the heading on further sheets
_GOES_ON_MM: Final = 5.0  # height of the line that says which sheet comes next
_SHARES: Final = (0.5, 1.0)  # of the first sheet, tried for the face; the second leaves the table to the next sheet
_LARGER: Final[tuple[tuple[str, Orientation], ...]] = (
    ("A4", "portrait"), ("A4", "landscape"), ("A3", "landscape"), ("A2", "landscape"),
)  # fmt: skip
_VIEW_WORDS: Final = {View.WIRE_SIDE: "SEEN FROM THE WIRE SIDE", View.MATING_FACE: "SEEN FROM THE MATING FACE"}


@dataclass(frozen=True, slots=True)
class Table:
    """A table's heading and rows, drawn from their top left corners, and how wide they are."""

    width_mm: float
    heading: TableRow
    rows: Sequence[TableRow]


@dataclass(frozen=True, slots=True)
class FaceSheet:
    """All that makes one plug's sheets. `main`: the face in the asked view; `beside`: smaller ones.

    `top`: drawn on top of every sheet. `foot`: what stands under the face, for a width in mm. `table`: makes the table
    for a width in mm, `least_mm` or more, and for cells of so many lines at most.
    """

    harness: Harness
    document_type: str
    cautions: Sequence[str]
    main: Shown
    beside: Sequence[Shown]
    foot: Callable[[float], TableRow]
    table: Callable[[float, int], Table]
    mark: str = ""
    paper: str = "A4"
    top: TableRow | None = None
    least_mm: float = WIDTH_MM

    @property
    def plug(self) -> Plug:
        """The plug that the sheets are about."""
        return self.main.plug

    @property
    def top_mm(self) -> float:
        """Height of what stands on top of every sheet."""
        return self.top.height_mm if self.top else 0.0


@dataclass(frozen=True, slots=True)
class _Leaf:
    """What stands on one sheet: rows of faces, then the table in one column or more."""

    faces: Sequence[TableRow]
    columns: Sequence[Sequence[TableRow]]


@dataclass(frozen=True, slots=True)
class _Setting:
    """On what paper the sheets are, the table made for it, and how it all is parted among them."""

    paper: str
    orientation: Orientation
    area: Rect
    table: Table
    leaves: Sequence[_Leaf]


def draw_sheets(wanted: FaceSheet) -> list[Page]:
    """Return the sheets: the faces and as much of the table as fits, then the rest.

    On the asked paper, upright or lying, whichever first gives the cavities' numbers room; on larger paper for a face
    too large for it. Raises layouts.LayoutError for an unknown paper.
    """
    setting = _setting(wanted)
    return [_draw_page(wanted, setting, index) for index in range(len(setting.leaves))]


# --- planning


def _setting(wanted: FaceSheet) -> _Setting:
    """The first paper on which every cavity's number has room; the largest there is, if none does."""
    for paper, orientation in _papers(wanted.paper):
        for share in _SHARES:
            found = _on(wanted, paper, orientation, share)
            if found:
                return found
    found = _on(wanted, *_LARGER[-1], 1.0, force=True)
    assert found is not None  # forced
    return found


def _papers(asked: str) -> Iterator[tuple[str, Orientation]]:
    """The asked paper both ways, an upright one first for those that are filed, then larger ones."""
    size = read_paper(asked)
    lying_first = size.height_mm > 300
    yield from (
        ((asked, "landscape"), (asked, "portrait"))
        if lying_first
        else (
            (asked, "portrait"),
            (asked, "landscape"),
        )
    )
    for paper, orientation in _LARGER:
        larger = read_paper(paper, orientation)
        if paper != asked and larger.width_mm * larger.height_mm > size.width_mm * size.height_mm + 1000:
            yield paper, orientation


def _on(wanted: FaceSheet, paper: str, orientation: Orientation, share: float, force: bool = False) -> _Setting | None:
    """How the sheets are filled on a paper; None if title block, table or the cavities' numbers have no room."""
    try:
        area = _area(_open(wanted, paper, orientation, 1, 1))
    except ValueError:  # too small for a title block
        return None
    if area.width < wanted.least_mm - 0.1:
        return None
    first = area.height - wanted.top_mm - _top_mm(wanted, area) - _GOES_ON_MM
    next_mm = area.height - wanted.top_mm - _CONTINUED_MM - _GOES_ON_MM
    rows = panel_rows(
        wanted.main, wanted.beside, area.width, (first * share, first, next_mm), wanted.foot(area.width), force
    )
    if rows is None or (rows[0].height_mm > first and not force):
        return None
    columns = max(int((area.width + _GUTTER_MM) // (WIDTH_MM + _GUTTER_MM)), 1)
    width = min((area.width - _GUTTER_MM * (columns - 1)) / columns, _WIDEST_MM)
    table = wanted.table(width, max(int((next_mm - 20) / STEP_MM), 2))
    rows = [rows[0], *(row for row in rows[1:] if row.height_mm <= next_mm)]
    return _Setting(paper, orientation, area, table, _filled(rows, table, first, next_mm, columns))


def _filled(faces: Sequence[TableRow], table: Table, first: float, further: float, columns: int) -> list[_Leaf]:
    leaves: list[_Leaf] = []
    faces, rows, room = list(faces), list(table.rows), first
    while faces or rows or not leaves:
        taken = _take(faces, room, force=True)
        room -= sum(row.height_mm for row in taken) + table.heading.height_mm
        parts: list[list[TableRow]] = []
        alone = not taken and bool(leaves)  # what is too tall for a sheet of its own is too tall for all
        if not faces and (alone or room >= sum(row.height_mm for row in rows[:2]) - 1e-6):
            parts = [_take(rows, room, force=alone) for _ in range(columns)]
        leaves.append(_Leaf(taken, parts))
        room = further
    return leaves


def _take(rows: list[TableRow], room_mm: float, force: bool) -> list[TableRow]:
    """Take off the rows that fit; with `force` one at least, so that no row stays behind for ever."""
    taken: list[TableRow] = []
    while rows and (rows[0].height_mm <= room_mm + 1e-6 or (force and not taken)):
        room_mm -= rows[0].height_mm
        taken.append(rows.pop(0))
    return taken


# --- drawing


def _open(wanted: FaceSheet, paper: str, orientation: Orientation, number: int, sheets: int) -> Sheet:
    about = " ".join(filter(None, (wanted.plug.name, wanted.plug.title)))
    title = title_block(wanted.harness, wanted.document_type, wanted.mark, number, sheets, about)
    return open_sheet(paper, orientation, title, wanted.cautions)


def _area(sheet: Sheet) -> Rect:
    return sheet.area.inset(_MARGIN_MM)


def _draw_page(wanted: FaceSheet, setting: _Setting, index: int) -> Page:
    leaf, table = setting.leaves[index], setting.table
    page = _open(wanted, setting.paper, setting.orientation, index + 1, len(setting.leaves)).page
    area = setting.area
    used = max(sum(1 for rows in leaf.columns if rows), 1)
    x = area.x + (area.width - used * table.width_mm - (used - 1) * _GUTTER_MM) / 2
    if wanted.top:
        wanted.top.draw(page, area.x + (area.width - WIDTH_MM) / 2, area.y)
        area = Rect(area.x, area.y + wanted.top_mm, area.width, area.height - wanted.top_mm)
    if index == 0:
        y = area.y + _draw_top(page, wanted, area)
    else:
        _draw_continued(page, wanted, x, area.y, table.width_mm)
        y = area.y + _CONTINUED_MM
    for row in leaf.faces:
        row.draw(page, area.x, y)
        y += row.height_mm
    for number, rows in enumerate(leaf.columns):
        _draw_rows(page, table.heading, rows, x + number * (table.width_mm + _GUTTER_MM), y)
    if index + 1 < len(setting.leaves):
        page.text(area.right, area.bottom, f"goes on: sheet {index + 2}", TEXT_MM, bold=True, anchor="end")
    return page


def _draw_rows(page: Page, heading: TableRow, rows: Sequence[TableRow], x: float, y: float) -> None:
    for row in (heading, *rows) if rows else ():
        row.draw(page, x, y)
        y += row.height_mm


def _draw_continued(page: Page, wanted: FaceSheet, x: float, y: float, room: float) -> None:
    name = lettering.fit(wanted.plug.name, room / 3, 5.0, True)
    width = page.text(x, y + 7, name, 5.0, bold=True)
    words = f"continued, {_VIEW_WORDS[wanted.main.view].lower()}"
    page.text(x + width + 4, y + 7, words, 3.5, box_mm=room - width - 4)


# --- the top: plug, view, viewer


def _facts(wanted: FaceSheet, width: float) -> list[str]:
    plug = wanted.plug
    count = len(plug.terminals)
    facts = [f"{count} {'cavity' if count == 1 else 'cavities'}"]
    if plug.face.key != "none":
        facts[0] += f", {plug.face.key_is} {plug.face.key_side(wanted.main.view)}"
    if lettering.fit(plug.name, width * 0.6, 7.0, True) != lettering.clean(plug.name):
        facts.insert(0, f"plug {plug.name}")
    if plug.contacts:
        facts.append(plug.contacts)
    if plug.place:
        facts.append(f"place: {plug.place}")
    if plug.mates_with:
        facts.append(f"mates with {plug.mates_with}")
    if plug.cut:
        dates = sorted(filter(None, plug.cut.values()))
        when = ", ".join(dict.fromkeys((dates[0], dates[-1]))).replace(", ", " to ") if dates else ""
        facts.append(" ".join(filter(None, (f"{len(plug.cut)} cavities cut", when))))
    return lettering.wrap("; ".join(facts) + ".", width, TEXT_MM)


def _view_line(wanted: FaceSheet, area: Rect) -> tuple[float, float, float]:
    """How tall the words of the view are, how far down their base line is, and how much width is free for facts.

    Beside the viewer where they have room there, else under it over the whole width."""
    words, room = _VIEW_WORDS[wanted.main.view], area.width - viewer.WIDTH_MM - 6
    for height in (7.0, 5.0):
        if lettering.text_width_mm(words, height, True) <= room:
            return height, 19.5, room
    under = 5 + viewer.HEIGHT_MM + viewer.WORD_MM + 7
    return (5.0 if lettering.text_width_mm(words, 5.0, True) <= area.width else 3.5), under, area.width


def _top_mm(wanted: FaceSheet, area: Rect) -> float:
    _, base, room = _view_line(wanted, area)
    seen = 5 + viewer.HEIGHT_MM + viewer.WORD_MM + 3
    return max(base + 5 + STEP_MM * len(_facts(wanted, room)), seen)


def _draw_top(page: Page, wanted: FaceSheet, area: Rect) -> float:
    plug, room = wanted.plug, area.width - viewer.WIDTH_MM - 6
    name = lettering.fit(plug.name, room * 0.6, 7.0, True)
    width = page.text(area.x, area.y + 9, name, 7.0, bold=True)
    page.text(area.x + width + 4, area.y + 9, plug.title, 3.5, box_mm=room - width - 4)
    height, base, free = _view_line(wanted, area)
    page.text(area.x, area.y + base, _VIEW_WORDS[wanted.main.view], height, bold=True)
    page.lines(area.x, area.y + base + 2.5 + TEXT_MM, _facts(wanted, free))
    viewer.draw_viewer(page, area.right - viewer.WIDTH_MM, area.y + 5, wanted.main.view, plug.contacts)
    return _top_mm(wanted, area)
