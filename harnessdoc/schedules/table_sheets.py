"""Tables over as many sheets as they take: headings stay with the row after them, the table's head comes again on
each sheet, what must be read first stands boxed on top. Knows no harness but for its title block."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from harnessdoc.model.harness import Harness
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, Grid, Row
from harnessdoc.sheet.lettering import wrap
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation
from harnessdoc.sheet.titles import title_block

HEAD_MM: Final = 3.5
_BOX_MM: Final = 3.5
_PAD_MM: Final = 2.0
INSET_MM: Final = 6.0  # clear of the centring marks


@dataclass(frozen=True, slots=True)
class Heading:
    """A line over rows; `level` 1 stands larger, with room before it."""

    text: str
    level: int = 1

    @property
    def height_mm(self) -> float:
        """With the room around it, mm."""
        return 4.0 + HEAD_MM * 1.6 if self.level == 1 else 2.0 + TEXT_MM * 1.6


@dataclass(frozen=True)
class Filled:
    """A row of a table; `ticked`: the column that holds a box to tick, -1 for none; `least_mm`: room to write."""

    grid: Grid
    row: Row
    ticked: int = -1
    least_mm: float = 0.0

    @cached_property
    def height_mm(self) -> float:
        """Its height, mm; its lines are counted once."""
        return max(self.grid.row_mm(self.row), self.least_mm)


Line = Heading | Filled
_UNBROKEN: Final = "\N{NO-BREAK SPACE}"


def unbroken(state: Mapping[str, str | Sequence[str]]) -> str:
    """A state in words whose lines break between devices only: `S1 on, B1 normal or dry`."""
    return ", ".join(
        f"{device} {position if isinstance(position, str) else ' or '.join(position)}".replace(" ", _UNBROKEN)
        for device, position in state.items()
    )


Foot = Callable[[Page, float, float], None]


@dataclass(frozen=True)
class Tables:
    """What goes on the sheets. `blanks`: what is drawn under the cautions of each sheet, `blanks_mm` high.
    `paper`: its name, and
    how it lies."""

    harness: Harness
    kind: str
    mark: str
    cautions: Sequence[str]
    lines: Sequence[Line]
    width_mm: float
    blanks: Foot | None = None
    blanks_mm: float = 0.0
    paper: str = "A4"
    orientation: Orientation = "portrait"


def table_sheets(tables: Tables) -> list[Page]:
    """The sheets, as many as it takes; none where there are no lines."""
    if not tables.lines:
        return []
    sheets = _sheets(tables)
    pages = []
    for number, lines in enumerate(sheets, 1):
        sheet = _open(tables, number, len(sheets))
        _draw(sheet, tables, lines)
        pages.append(sheet.page)
    return pages


def sheets_needed(tables: Tables) -> int:
    """How many sheets it takes; nothing is drawn."""
    return len(_sheets(tables)) if tables.lines else 0


def _sheets(tables: Tables) -> list[list[Line]]:
    trial = _open(tables, 1, 1)
    room = trial.area.height - INSET_MM * 1.5 - _top_mm(tables)
    return list(_paginated(tables.lines, room))


def _open(tables: Tables, number: int, of: int) -> Sheet:
    title = title_block(tables.harness, tables.kind, tables.mark, number, of)
    return open_sheet(tables.paper, tables.orientation, title)


def _cautions(tables: Tables) -> list[str]:
    room = tables.width_mm - 2 * _PAD_MM
    return [line for text in tables.cautions for line in wrap(text, room, TEXT_MM, True)]


def _top_mm(tables: Tables) -> float:
    return 2 * _PAD_MM + STEP_MM * len(_cautions(tables)) + 1.0 + tables.blanks_mm


def _paginated(lines: Sequence[Line], room_mm: float) -> Iterator[list[Line]]:
    """Lines onto sheets; a heading is never the last of one, and stands again where its rows go on."""
    sheet: list[Line] = []
    left, open_headings = room_mm, dict[int, Heading]()
    for index, line in enumerate(lines):
        needed = _needed(lines, index, sheet)
        if sheet and needed > left:
            yield sheet
            again = [] if isinstance(line, Heading) and line.level == 1 else _again(open_headings, line)
            sheet, left = list(again), room_mm - sum(one.height_mm for one in again)
        if isinstance(line, Heading):
            open_headings = {level: one for level, one in open_headings.items() if level < line.level}
            open_headings[line.level] = line
        left -= line.height_mm + _head_mm(sheet, line)
        sheet.append(line)
    if sheet:
        yield sheet


def _again(headings: dict[int, Heading], line: Line) -> list[Heading]:
    level = line.level if isinstance(line, Heading) else 9
    return [Heading(f"{one.text} (goes on)", at) for at, one in headings.items() if at < level]


def _needed(lines: Sequence[Line], index: int, sheet: Sequence[Line]) -> float:
    """A line with all that must stay with it: headings up to the first row, and the head of its table."""
    total, before = 0.0, list(sheet)
    for line in lines[index:]:
        total += line.height_mm + _head_mm(before, line)
        before.append(line)
        if isinstance(line, Filled):
            break
    return total


def _head_mm(before: Sequence[Line], line: Line) -> float:
    """The head of a row's table, where it is the first under a heading or on a sheet."""
    return line.grid.head_mm if isinstance(line, Filled) and _needs_head(before, line) else 0.0


def _needs_head(before: Sequence[Line], line: Filled) -> bool:
    rows = [one for one in before if isinstance(one, Filled)]
    level_1 = bool(before) and _since_title(before)
    return not rows or rows[-1].grid is not line.grid or level_1


def _since_title(before: Sequence[Line]) -> bool:
    """Whether nothing but headings came since the last large heading."""
    for one in reversed(before):
        if isinstance(one, Filled):
            return False
        if one.level == 1:
            return True
    return False


def _draw(sheet: Sheet, tables: Tables, lines: Sequence[Line]) -> None:
    page = sheet.page
    x = sheet.area.x + (sheet.area.width - tables.width_mm) / 2
    y = _draw_top(page, tables, x, sheet.area.y + INSET_MM)
    drawn: list[Line] = []
    for line in lines:
        if isinstance(line, Heading):
            tall = HEAD_MM if line.level == 1 else TEXT_MM
            page.text(x, y + line.height_mm - tall * 0.6, line.text, tall, bold=True, box_mm=tables.width_mm)
        else:
            if _needs_head(drawn, line):
                page.line(x, y, x + line.grid.width_mm, y, stroke_mm=0.5)
                bottom = line.grid.draw_head(page, x, y)
                line.grid.draw_sides(page, x, y, bottom, inner=True)
                y = bottom
            elif drawn and isinstance(drawn[-1], Heading):
                page.line(x, y, x + line.grid.width_mm, y, stroke_mm=0.18)
            _draw_row(page, line, x, y)
        drawn.append(line)
        y += line.height_mm


def _draw_top(page: Page, tables: Tables, x: float, y: float) -> float:
    lines = _cautions(tables)
    height = 2 * _PAD_MM + STEP_MM * len(lines)
    page.rect(x, y, tables.width_mm, height, stroke_mm=0.7)
    page.lines(x + _PAD_MM, y + _PAD_MM + TEXT_MM + 0.3, lines, TEXT_MM, bold=True)
    if tables.blanks is not None:
        tables.blanks(page, x, y + height + 1.0)
    return y + height + 1.0 + tables.blanks_mm


def _draw_row(page: Page, line: Filled, x: float, y: float) -> None:
    grid, bottom = line.grid, y + line.height_mm
    grid.draw_row(page, x, y, line.row, rule=False)
    page.line(x, bottom, x + grid.width_mm, bottom, stroke_mm=0.18)
    grid.draw_sides(page, x, y, bottom, inner=True)
    if line.ticked >= 0:
        left = x + sum(column.width_mm for column in grid.columns[: line.ticked])
        side = (grid.columns[line.ticked].width_mm - _BOX_MM) / 2
        page.rect(left + side, y + (line.height_mm - _BOX_MM) / 2, _BOX_MM, _BOX_MM, stroke_mm=0.35)
