"""Draws the overview: stations as plates, runs as bundles with length, diameter, covering and splices.

Knows where each place's own block is, for the marks that send the reader on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from harnessdoc.drawing import marks
from harnessdoc.drawing.layout import Cell, Piece, Stop, Way
from harnessdoc.drawing.run_drawing import DIMENSION_MM, draw_above, draw_bundle, draw_run_words
from harnessdoc.drawing.run_words import TOGETHER, RunWords, run_words
from harnessdoc.drawing.stations import Link, Plan, Station
from harnessdoc.model.harness import Harness
from harnessdoc.routing import Routing
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import WHITE, Page

PLATE_MM: Final = (40.0, 28.0)
GAP_MM: Final = 27.6
COLUMN_MM: Final = PLATE_MM[0] + GAP_MM
LEAST_MM: Final = (17.0, 17.0)  # room over and under the runs' height in a row: half a plate and a little white
_PLAIN_ROOM_MM: Final = (12.0, 8.0)
_LANE_MM: Final = 7.0
_MOST_LISTED: Final = 40  # more designations than a plate ever holds
_PLATE_LINE_MM: Final = 0.5


@dataclass(frozen=True, slots=True)
class Spot:
    """A piece in its place: the sheet (from 0) and the top left corner of its raster, mm.

    `middles`: height of each row's runs from there; `height_mm`: of all rows."""

    piece: Piece
    sheet: int
    x: float
    y: float
    middles: tuple[float, ...]
    height_mm: float

    def plate(self, cell: Cell) -> Rect:
        """The outline of the station in a cell."""
        middle = self.y + self.middles[cell.row - self.piece.top]
        return Rect(self.x + cell.column * COLUMN_MM, middle - PLATE_MM[1] / 2, *PLATE_MM)


def capacity(area: Rect, words: Sequence[RunWords]) -> tuple[int, int]:
    """Return how many columns and rows of stations an area surely holds, whatever runs are in a row."""
    row_mm = sum(max([least, *(room[side] for room in map(_room_mm, words))]) for side, least in enumerate(LEAST_MM))
    return int((area.width + GAP_MM + 1e-6) // COLUMN_MM), int((area.height + 1e-6) // row_mm)


def words_of_runs(harness: Harness, routing: Routing) -> tuple[RunWords, ...]:
    """Return what is written of every run."""
    return tuple(run_words(harness, routing, index, GAP_MM - 2) for index in range(len(harness.runs)))


def spread(pieces: Sequence[Piece], area: Rect, links: Sequence[Link], words: Sequence[RunWords]) -> list[Spot]:
    """Return where each piece goes: side by side while there is room, then below, then on another sheet."""
    columns, _ = capacity(area, words)
    spots: list[Spot] = []
    sheet = column = 0
    y, shelf = area.y, 0.0
    for piece in pieces:
        middles, height = _rows_of(piece, links, words)
        if column and column + piece.columns > columns:
            column, y, shelf = 0, y + shelf, 0.0
        if y + height > area.bottom + 1e-6 and (y > area.y or column):
            sheet, column, y, shelf = sheet + 1, 0, area.y, 0.0
        spots.append(Spot(piece, sheet, area.x + column * COLUMN_MM, y, middles, height))
        column += piece.columns
        shelf = max(shelf, height)
    return _centred(spots, area)


def _room_mm(words: RunWords) -> tuple[float, float]:
    return words.above_mm, words.below_mm


def _rows_of(piece: Piece, links: Sequence[Link], words: Sequence[RunWords]) -> tuple[tuple[float, ...], float]:
    """Where the runs of each row lie, each row as high as what is written in it, and the height of all."""
    rooms = [list(LEAST_MM) for _ in range(piece.rows)]
    for way in piece.ways:
        run = links[way.link].run
        needed = _room_mm(words[run]) if run is not None else _PLAIN_ROOM_MM
        room = rooms[way.end.row - piece.top]
        room[:] = max(room[0], needed[0]), max(room[1], needed[1])
    middles, top = [], 0.0
    for above, below in rooms:
        middles.append(top + above)
        top += above + below
    return tuple(middles), top


def _centred(spots: Sequence[Spot], area: Rect) -> list[Spot]:
    """Move each sheet's spots to the middle of the area's width."""
    rights: dict[int, float] = {}
    for spot in spots:
        right = spot.x + spot.piece.columns * COLUMN_MM - GAP_MM
        rights[spot.sheet] = max(rights.get(spot.sheet, 0.0), right)
    return [replace(spot, x=spot.x + max(0.0, (area.right - rights[spot.sheet]) / 2)) for spot in spots]


def height_mm(spots: Sequence[Spot], area: Rect, sheet: int) -> float:
    """Return how much of the area's height the pieces on a sheet take, mm."""
    return max((spot.y - area.y + spot.height_mm for spot in spots if spot.sheet == sheet), default=0.0)


def full_plates(spots: Sequence[Spot]) -> dict[int, tuple[int, Rect]]:
    """Return where each station is drawn in full: its sheet and plate."""
    return {
        stop.station: (spot.sheet, spot.plate(stop.cell))
        for spot in spots
        for stop in spot.piece.stops
        if not stop.echo
    }


class TrunkDrawing:
    """Draws the spots of one harness; knows on which sheet each station is drawn in full and goes on."""

    def __init__(
        self, layout: Plan, words: Sequence[RunWords], spots: Sequence[Spot], covers: Sequence[str | None]
    ) -> None:
        """Note where everything is, for the remarks that send the reader on. `covers`: of each run."""
        self._plan, self._words, self._covers = layout, words, covers
        self._full: dict[int, int] = {}
        self._goes_on: dict[int, list[int]] = {}
        for spot in spots:
            for stop in spot.piece.stops:
                if not stop.echo:
                    self._full[stop.station] = spot.sheet
                elif _is_root(spot.piece, stop):
                    self._goes_on.setdefault(stop.station, []).append(spot.sheet)

    def draw(self, page: Page, spot: Spot, blocks: Mapping[int, str]) -> None:
        """Draw one piece: bundles first, then the plates, whose fill hides the bundles' ends.

        `blocks`: by station, the sheet and zone of its own block."""
        for way in spot.piece.ways:
            self._draw_way(page, spot, way)
        for stop in spot.piece.stops:
            self._draw_stop(page, spot, stop, blocks)

    # --- runs

    def _draw_way(self, page: Page, spot: Spot, way: Way) -> None:
        start, end = spot.plate(way.start), spot.plate(way.end)
        y = end.y + end.height / 2
        points = [(start.right, y), (end.x, y)]
        if way.start.row != way.end.row:
            x = start.right - 6 - way.lane * _LANE_MM
            points = [(x, start.bottom if way.end.row > way.start.row else start.y), (x, y), (end.x, y)]
        link = self._plan.links[way.link]
        names = f"{self._plan.stations[link.a].name} - {self._plan.stations[link.b].name}"
        gap = Rect(end.x - GAP_MM, y, GAP_MM, 0)
        stops = {stop.cell: stop.station for stop in spot.piece.stops}
        a_left = stops[way.start] == link.a
        if link.run is None:
            words = "way not stated" if link.wires else "plugs that mate"
            with page.group(f"run-{names}", f"run {names}", desc=words):
                page.polyline(points, stroke_mm=0.5, dash=(3, 1.5), join="round")
                draw_above(page, gap, [_counted(link.wires, "wire"), words] if link.wires else [words])
                marks.dimension(page, gap.x, gap.right, y + DIMENSION_MM, "length unknown")
            return
        said = self._words[link.run]
        with page.group(f"run-{names}", f"run {names}", desc=", ".join((said.length, *said.above))):
            draw_bundle(page, points, self._covers[link.run])
            draw_run_words(page, gap, said, a_left)

    # --- stations

    def _draw_stop(self, page: Page, spot: Spot, stop: Stop, blocks: Mapping[int, str]) -> None:
        station = self._plan.stations[stop.station]
        plate = spot.plate(stop.cell)
        with page.group(f"place-{station.number}", f"{station.number} {station.name}", desc=" ".join(station.owners)):
            page.rect(
                *plate,
                radius=2,
                fill=WHITE,
                stroke_mm=0.35 if stop.echo else _PLATE_LINE_MM,
                dash=(2.0, 1.0) if stop.echo else (),
            )
            marks.balloon(page, plate.x + 4.6, plate.y + 5, station.number, filled=not stop.echo)
            y = _draw_name(page, plate, station.name)
            room = int((plate.bottom - 1.4 - y) // STEP_MM) + 1
            remarks = [line for text in self._remarks(spot, stop) for line in shortened(text, plate.width - 5, most=3)]
            if not stop.echo:
                where = blocks.get(stop.station, "")
                remarks = [*plate_lines(station, where, plate.width - 5, room - len(remarks)), *remarks]
            page.lines(plate.x + 2.5, y, remarks, TEXT_MM)

    def _remarks(self, spot: Spot, stop: Stop) -> list[str]:
        if stop.echo and not _is_root(spot.piece, stop):
            return [f"The loop closes here, drawn on {self._where(spot, [self._full[stop.station]])}"]
        if stop.echo:
            return [f"Goes on from here, drawn on {self._where(spot, [self._full[stop.station]])}"]
        if stop.more:
            sheets = self._goes_on.get(stop.station, [])
            return [f"{_counted(stop.more, 'more run')}: {self._where(spot, sheets)}"]
        return []

    def _where(self, spot: Spot, sheets: list[int]) -> str:
        others = sorted({sheet for sheet in sheets if sheet != spot.sheet})
        return "sheet " + ", ".join(str(sheet + 1) for sheet in others) if others else "this sheet"


def plate_lines(station: Station, where: str, width_mm: float, most: int) -> list[str]:
    """Return a plate's lines: all designations in full and where the block is, or how many more stand there."""
    owners, where = station.owners, where.replace(" ", TOGETHER)
    for count in range(min(len(owners), _MOST_LISTED), -1, -1):
        left = len(owners) - count
        tail = (
            f"see {where}"
            if not left
            else f"and {left} more: {where}"
            if count
            else f"{_counted(left, 'part')}: {where}"
        )
        listed = lettering.wrap(" ".join(owners[:count]), width_mm, TEXT_MM) if count else []
        lines = [*listed, *lettering.wrap(tail, width_mm, TEXT_MM)]
        if len(lines) <= most:
            return lines
    return lines[: max(most, 1)]


def _is_root(piece: Piece, stop: Stop) -> bool:
    return stop.cell == piece.stops[0].cell


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" + ("" if count == 1 else "s")


def _draw_name(page: Page, plate: Rect, name: str) -> float:
    """Write the name beside the balloon, large where it fits; return the next base line."""
    x, room = plate.x + 9.2, plate.width - 10.2
    if lettering.text_width_mm(name, 3.5, True) <= room:
        page.text(x, plate.y + 6.75, name, 3.5, bold=True)
        return plate.y + 12.2
    lines = shortened(name, room, bold=True, most=3)
    page.lines(x, plate.y + 4.6, lines, TEXT_MM, bold=True)
    return plate.y + max(12.2, 4.6 + STEP_MM * len(lines) + 0.4)
