"""The cabinet sheet of one place, for the laminator: as large as its text can be, flat or folded.

Puts sections on sheets; 5 mm stay clear all round for the laminate's seal."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count, product
from typing import Final

from harnessdoc.drawing.cabinet.facts import Facts
from harnessdoc.drawing.cabinet.lettered import HEIGHTS_MM, Lettered
from harnessdoc.drawing.cabinet.sections import fuse_block, isolation_block, live_block, plug_blocks, relay_block
from harnessdoc.drawing.flow import Block, Frame, Placed, pour
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness
from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Paper, read_paper

CLEAR_MM: Final = 5.0
"""Free along every edge of the sheet, for the laminate's seal."""
CUT_RADIUS_MM: Final = 8.0
"""To be cut round the corners; the marks inside have the same centre."""
_INSIDE_MM: Final = 2.5
_FOOT_MM: Final = 5.5
_GUTTER_MM: Final = 6.0
_TEXT_MM: Final = 2.5
_BORDER_MM: Final = 0.35
_MARK_MM: Final = 0.7
_NARROWEST: Final = 30.0  # a column, in heights of its text
_WHOLE: Final = 0.8  # a section that takes less of a column is kept whole where that takes no other sheet
_FOLD_DASH: Final = (4.0, 2.0)

_Frames = Iterator[Frame]


@dataclass(frozen=True, slots=True)
class _Laid:
    """Parts on one side of the sheets, and how many sheets that takes."""

    placed: list[Placed]
    sheets: int


def cabinet_sheets(
    harness: Harness, study: Study, place: str, mark: str = "", paper: str = "A4", fold: bool = False
) -> list[Page]:
    """Return a place's cabinet sheets: one where all fits at 2.5 mm, else more; none without plugs, fuses and relays.

    Flat: upright, everything on one side. `fold`: lying, to be printed on both sides (turned on the short edge) and
    folded in the middle; a front and a back a sheet. The text is the largest of ISO 3098 that fits on one sheet. Raises
    layouts.LayoutError for an unknown paper.
    """
    facts = Facts(harness, study, place)
    if not facts.worth_a_sheet:
        return []
    size = read_paper(paper, "landscape" if fold else "portrait")
    sides = _folded(facts, size) if fold else [_flat(facts, size)]
    sheets = max(side.sheets for side in sides)
    pages = []
    for number in range(sheets):
        for index, side in enumerate(sides):
            page = _open(facts, size, mark, fold, (number, sheets), ("front", "back")[index] if fold else "")
            for one in side.placed:
                if one.sheet == number:
                    one.part.draw(page, one.x, one.y)
            pages.append(page)
    return pages


# --- what goes where


def _flat(facts: Facts, size: Paper) -> _Laid:
    """Isolation over the whole width, then the rest in one column or more."""
    area = _area(Rect(0, 0, size.width_mm, size.height_mm))
    for height in HEIGHTS_MM:
        most = max(1, int((area.width + _GUTTER_MM) // (_NARROWEST * height + _GUTTER_MM)))
        for columns, whole in product(range(1, most + 1), (True, False)):
            laid = _try_flat(facts, area, height, columns, whole)
            if laid is not None and laid.sheets == 1:
                return laid
    laid = _try_flat(facts, area, HEIGHTS_MM[-1], most, False)
    assert laid is not None  # frames never end
    return laid


def _try_flat(facts: Facts, area: Rect, height: float, columns: int, whole: bool) -> _Laid | None:
    kit = Lettered(height, area.width)
    top = pour([isolation_block(facts, kit)], iter([Frame(0, area)]))
    if top is None or (kit.cut and height > HEIGHTS_MM[-1]):
        return None if height > HEIGHTS_MM[-1] else _poured(facts, area, height, columns, whole, [], 0.0)
    used = max(one.y + one.part.height_mm for one in top.placed) - area.y + _GUTTER_MM
    if used > area.height * 0.75 and height > HEIGHTS_MM[-1]:
        return None
    return _poured(facts, area, height, columns, whole, top.placed, used)


def _poured(
    facts: Facts, area: Rect, height: float, columns: int, whole: bool, top: list[Placed], used: float
) -> _Laid | None:
    width = (area.width - _GUTTER_MM * (columns - 1)) / columns
    kit = Lettered(height, width, (area.height - used) * _WHOLE if whole else 0.0)
    blocks = [*([] if top else [isolation_block(facts, kit)]), *_front(facts, kit), *_back(facts, kit)]

    def frames() -> _Frames:
        for sheet in count():
            start = area.y + (used if sheet == 0 else 0.0)
            for column in range(columns):
                x = area.x + column * (width + _GUTTER_MM)
                yield Frame(sheet, Rect(x, start, width, area.bottom - start))

    laid = _side(blocks, frames(), top)
    return None if kit.cut and height > HEIGHTS_MM[-1] else laid


def _folded(facts: Facts, size: Paper) -> list[_Laid]:
    """Outside: isolation on the cover, then fuses and relays; inside: faces and what is live when."""
    left, right = _panels(size)
    front = _largest_side(left, lambda kit: [isolation_block(facts, kit), *_front(facts, kit)], right, left)
    back = _largest_side(left, lambda kit: list(_back(facts, kit)), left, right)
    return [front, back]


def _largest_side(panel: Rect, blocks: Callable[[Lettered], list[Block]], first: Rect, second: Rect) -> _Laid:
    """One side of the folded sheet in the largest text that fits on one; at 2.5 mm on as many as it takes."""
    for height, whole in product(HEIGHTS_MM, (True, False)):
        kit = Lettered(height, panel.width, panel.height * _WHOLE if whole else 0.0)
        made = blocks(kit)
        if height > HEIGHTS_MM[-1] and pour(made[:1], iter([Frame(0, panel)])) is None:
            continue  # the first section, isolation, goes on no second panel
        side = _side(made, _pairs(first, second), [])
        if side.sheets == 1 and _inside(side, panel) and not kit.cut:
            break
    return side


def _inside(side: _Laid, panel: Rect) -> bool:
    """Whether no part is taller than its panel."""
    return all(one.y + one.part.height_mm <= panel.bottom + 1e-6 for one in side.placed)


def _side(blocks: Sequence[Block], frames: _Frames, before: list[Placed]) -> _Laid:
    poured = pour(blocks, frames)
    assert poured is not None  # frames never end
    placed = [*before, *poured.placed]
    return _Laid(placed, 1 + max((one.sheet for one in placed), default=0))


def _front(facts: Facts, kit: Lettered) -> Iterator[Block]:
    makers: tuple[Callable[[Facts, Lettered], Block | None], ...] = (fuse_block, relay_block)
    yield from (block for make in makers if (block := make(facts, kit)) is not None)


def _back(facts: Facts, kit: Lettered) -> Iterator[Block]:
    yield from plug_blocks(facts, kit)
    live = live_block(facts, kit)
    if live is not None:
        yield live


def _pairs(first: Rect, second: Rect) -> _Frames:
    for sheet in count():
        yield Frame(sheet, first)
        yield Frame(sheet, second)


# --- the paper


def _area(whole: Rect) -> Rect:
    """What a sheet or a panel leaves for its sections: clear of the seal, the border and the foot."""
    inner = whole.inset(CLEAR_MM + _BORDER_MM + _INSIDE_MM)
    return Rect(inner.x, inner.y, inner.width, inner.height - _FOOT_MM)


def _panels(size: Paper) -> tuple[Rect, Rect]:
    half = size.width_mm / 2
    return _area(Rect(0, 0, half, size.height_mm)), _area(Rect(half, 0, half, size.height_mm))


def _open(facts: Facts, size: Paper, mark: str, fold: bool, number: tuple[int, int], side: str) -> Page:
    title = facts.harness.title
    page = Page(size.width_mm, size.height_mm, title=f"{title.number} {facts.place}, cabinet sheet")
    with page.group("border", "border, 5 mm clear of the edge, and corners to be cut round"):
        _draw_border(page, size)
    if fold:
        with page.group("fold", "fold here"):
            middle = size.width_mm / 2
            page.line(middle, CLEAR_MM, middle, size.height_mm - CLEAR_MM, stroke_mm=0.25, dash=_FOLD_DASH)
    sheet = f"sheet {number[0] + 1} / {number[1]}" if number[1] > 1 else ""
    revision = f"rev. {title.revision}" if title.revision else ""
    words = [facts.place, title.number, "" if fold else title.title, revision, mark, sheet, side]
    cut = f"corners: cut round, {CUT_RADIUS_MM:.0f} mm" + ("; fold at the broken line" if fold else "")
    panels = _panels(size) if fold else (_area(Rect(0, 0, size.width_mm, size.height_mm)),)
    with page.group("foot", "what this sheet is"):
        for index, panel in enumerate(panels):
            base = panel.bottom + _FOOT_MM - 1.2
            page.line(panel.x, base - 4.0, panel.right, base - 4.0, stroke_mm=0.25)
            if fold and index == 1:
                page.text(panel.x, base, cut, _TEXT_MM, box_mm=panel.width)
                continue
            end = 0.0 if fold else page.text(panel.right, base, cut, _TEXT_MM, anchor="end", box_mm=panel.width)
            page.text(panel.x, base, _fitted(words, panel.width - end - 3), _TEXT_MM, bold=True)
    return page


def _fitted(words: list[str], room_mm: float) -> str:
    """The words in one line, the title left out where it does not fit."""
    line = ", ".join(filter(None, words))
    if lettering.text_width_mm(line, _TEXT_MM, True) > room_mm:
        line = ", ".join(filter(None, (*words[:2], *words[3:])))
    return lettering.fit(line, room_mm, _TEXT_MM, True)


def _draw_border(page: Page, size: Paper) -> None:
    """A border, and at its corners heavy quarter circles about the centre of the cut."""
    edge = CLEAR_MM + _MARK_MM / 2
    radius = CUT_RADIUS_MM - edge
    right, bottom = size.width_mm - edge, size.height_mm - edge
    page.rect(edge, edge, right - edge, bottom - edge, radius=radius, stroke_mm=_BORDER_MM)
    for x, y, dx, dy in ((edge, edge, 1, 1), (right, edge, -1, 1), (right, bottom, -1, -1), (edge, bottom, 1, -1)):
        sweep = 1 if dx * dy > 0 else 0
        page.path(f"M{x} {y + dy * radius}A{radius} {radius} 0 0 {sweep} {x + dx * radius} {y}", stroke_mm=_MARK_MM)
