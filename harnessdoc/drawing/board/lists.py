"""What ends at a peg: for each item, plug and splice of its place the wires that land on it, with their sleeves.

Measures itself in columns, so that the list can be made as wide or as tall as the room beside the peg."""

from __future__ import annotations

import math
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from harnessdoc.drawing.stations import EndRow, Station
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Splice
from harnessdoc.model.points import Point
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import TEXT_MM, code_of, draw_sleeve
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page

COLUMN_MM: Final = 61.0
_LINE_MM: Final = 4.0
_HEAD_MM: Final = 7.0
_HEAD_TEXT_MM: Final = 3.5
_PAD_MM: Final = 1.5
_TERMINAL_MM, _WIRE_MM, _SLEEVE_MM, _TO_MM = 12.0, 13.0, 8.0, 11.0
_INDENT_MM, _CODE_MM = 3.0, 18.0
_NOTHING: Final = "no wire is known to end here"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a list: an owner's name, or one wire's end. `part`: "name" and "rest" of one too long for a line."""

    owner: str = ""
    terminal: str = ""
    wire: str = ""
    colour: Colour | None = None
    to: str = ""
    part: str = ""

    @property
    def keeps_next(self) -> bool:
        """Whether it stays with the line after it."""
        return bool(self.owner) or self.part == "name"


@dataclass(frozen=True, slots=True)
class FanOut:
    """One list, or a part of one: its title, its lines."""

    title: str
    lines: tuple[Line, ...]

    def sizes(self, room: Rect) -> list[tuple[float, float]]:
        """Widths and heights that it can have on a tile with that room, the one nearest to a square first."""
        most = max(1, int((room.width - 2 * _PAD_MM) // COLUMN_MM))
        found = []
        for columns in range(1, most + 1):
            tall = max(map(len, _columns(self.lines, columns)))
            size = (columns * COLUMN_MM + 2 * _PAD_MM, _HEAD_MM + tall * _LINE_MM + _PAD_MM)
            if size[1] <= room.height:
                found.append(size)
        return sorted(found, key=lambda size: abs(math.log(size[0] / size[1] / 1.5)))

    def draw(self, page: Page, rect: Rect) -> None:
        """Draw it into a rectangle of one of its sizes."""
        columns = round((rect.width - 2 * _PAD_MM) / COLUMN_MM)
        page.rect(*rect, fill="#ffffff", stroke_mm=0.35)
        page.line(rect.x, rect.y + _HEAD_MM - 1.0, rect.right, rect.y + _HEAD_MM - 1.0, stroke_mm=0.35)
        room = rect.width - 2 * _PAD_MM
        whole = lettering.text_width_mm(self.title, _HEAD_TEXT_MM, True) <= room
        tall = _HEAD_TEXT_MM if whole else TEXT_MM
        page.text(rect.x + _PAD_MM, rect.y + 4.5, self.title, tall, bold=True, box_mm=room)
        for index, column in enumerate(_columns(self.lines, columns)):
            x, y = rect.x + _PAD_MM + index * COLUMN_MM, rect.y + _HEAD_MM
            for line in column:
                _draw_line(page, x, y, line)
                y += _LINE_MM


def fan_outs(harness: Harness, station: Station, apart: Container[str], room: Rect) -> list[FanOut]:
    """The lists of a station but for the owners `apart`, each small enough for a tile with that room."""
    by_owner: dict[str, list[EndRow]] = {}
    for row in station.rows:
        assert row.here.point is not None  # rows at a station end there
        if row.here.point.owner not in apart:
            by_owner.setdefault(row.here.point.owner, []).append(row)
    lines = [line for owner, rows in by_owner.items() for line in _of_owner(harness, owner, rows, apart)]
    return _lists(f"{station.number}  {station.name}", lines, room)


def splice_lists(harness: Harness, splice: Splice, where: str, numbers: Mapping[str, int], room: Rect) -> list[FanOut]:
    """The lists of a splice that sits on a run. `numbers`: of the places, by owner."""
    lines = []
    for wire, end in harness.landings.get(Point(splice.name), ()):
        other = wire.b if end is wire.a else wire.a
        number = numbers.get(other.point.owner) if other.point else None
        lines += _of_wire(Line("", "", wire.name, wire.colour, _to(number, other)))
    return _lists(f"{splice.name} {splice.method or 'splice'}, {where}", lines, room)


def _lists(title: str, lines: Sequence[Line], room: Rect) -> list[FanOut]:
    down = int((room.height - _HEAD_MM - _PAD_MM) // _LINE_MM)
    columns = int((room.width - 2 * _PAD_MM) // COLUMN_MM)
    lines = lines or [Line(_NOTHING)]
    most = max(1, columns * down)
    parts = [list(lines)]
    while max(len(column) for part in parts for column in _columns(part, columns)) > down:
        most = min(most - 1, math.ceil(len(lines) / len(parts)) + 1)
        parts = list(_parts(lines, max(1, most)))
    if len(parts) == 1:
        return [FanOut(title, tuple(parts[0]))]
    return [FanOut(f"{title} ({number} of {len(parts)})", tuple(part)) for number, part in enumerate(parts, 1)]


def _parts(lines: Sequence[Line], most: int) -> Iterator[list[Line]]:
    part: list[Line] = []
    owner = ""
    for line in lines:
        if len(part) >= most or (line.keeps_next and len(part) == most - 1):
            yield part
            part = [] if line.owner else [Line(f"{owner}, continued")]
        owner = line.owner or owner
        part.append(line)
    if part:
        yield part


def _of_owner(harness: Harness, owner: str, rows: Sequence[EndRow], apart: Container[str]) -> Iterator[Line]:
    yield Line(f"{owner} {_about(harness, owner)}".strip())
    for row in rows:
        assert row.here.point is not None  # as above
        number = None if row.there.point and row.there.point.owner in apart else row.there_station
        yield from _of_wire(Line("", row.here.point.terminal, row.wire.name, row.wire.colour, _to(number, row.there)))


def _of_wire(line: Line) -> list[Line]:
    """A wire's end in one line, in two where its name leaves no room for the rest."""
    if lettering.text_width_mm(line.wire, TEXT_MM, True) + 1.0 <= max(_room_mm(line), _WIRE_MM):
        return [line]
    return [replace(line, part="name"), Line(colour=line.colour, to=line.to, part="rest")]


def _room_mm(line: Line) -> float:
    """What is left for a wire's name beside its terminal, sleeve, code and where it goes."""
    used = sum(lettering.text_width_mm(text, TEXT_MM) for text in (line.to, _code(line.colour))) + _SLEEVE_MM + 2.5
    return COLUMN_MM - 2.0 - (_TERMINAL_MM if line.terminal else _INDENT_MM) - min(used, COLUMN_MM / 2)


def _code(colour: Colour | None) -> str:
    """The code; one longer than most without its slashes, as IEC 60757 joins codes."""
    code = code_of(colour)
    if lettering.text_width_mm(code, TEXT_MM) > _CODE_MM:
        code = code.replace("/", "")
    return lettering.fit(code, _CODE_MM, TEXT_MM)


def _to(number: int | None, end: End) -> str:
    """Where the other end is: the number of its place, the splice on a run, or that nobody knows."""
    return f"→ {number}" if number else f"→ {end.point.owner}" if end.point and not end.tail else "→ ?"


def _about(harness: Harness, owner: str) -> str:
    splice: Splice | None = harness.splices.get(owner)
    return (splice.method or "splice") if splice else harness.title_of(owner)


def _columns(lines: Sequence[Line], count: int) -> list[list[Line]]:
    """The lines over so many columns of about the same height, no owner's name last in one, and one on top of each."""
    tall = math.ceil(len(lines) / count)
    while True:
        columns: list[list[Line]] = [[]]
        owner = ""
        for index, line in enumerate(lines):
            heading = line.keeps_next and index + 1 < len(lines)
            if len(columns[-1]) + (1 if heading else 0) >= tall and columns[-1]:
                columns.append([] if line.owner or not owner else [Line(f"{owner}, continued")])
            owner = line.owner or owner
            columns[-1].append(line)
        if len(columns) <= count:
            return columns
        tall += 1


def _draw_line(page: Page, x: float, y: float, line: Line) -> None:
    base = y + (_LINE_MM + TEXT_MM) / 2
    if line.owner:
        page.text(x, base, line.owner, TEXT_MM, bold=True, box_mm=COLUMN_MM - 3)
        return
    end = x + COLUMN_MM - 2.0
    page.text(x + 1.5, base, line.terminal, TEXT_MM, box_mm=_TERMINAL_MM - 2.0)
    x += _TERMINAL_MM if line.terminal or line.part == "rest" else _INDENT_MM
    if line.part == "name":
        page.text(x, base, line.wire, TEXT_MM, bold=True, box_mm=end - x)
        return
    x += max(_WIRE_MM, page.text(x, base, line.wire, TEXT_MM, bold=True, box_mm=max(_room_mm(line), _WIRE_MM)) + 1.0)
    draw_sleeve(page, x + _SLEEVE_MM / 2, base - TEXT_MM / 2, line.colour, _SLEEVE_MM, 2.9)
    page.text(x + _SLEEVE_MM + 1.0, base, _code(line.colour), TEXT_MM)
    page.text(end, base, lettering.fit(line.to, _TO_MM, TEXT_MM), TEXT_MM, anchor="end")
