"""Draws laid-out pieces of the trunk: stations as plates, runs as bundles with length, diameter and covering."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from harnessdoc.drawing import marks
from harnessdoc.drawing.layout import Cell, Piece, Stop, Way
from harnessdoc.drawing.stations import Plan
from harnessdoc.model.harness import Harness, Run
from harnessdoc.model.quantities import format_celsius, format_length
from harnessdoc.routing import Bundle, Routing
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import BLACK, WHITE, Page

PLATE_MM: Final = (40.0, 20.0)
GAP_MM: Final = 27.6
ROW_MM: Final = 37.8
COLUMN_MM: Final = PLATE_MM[0] + GAP_MM
_LANE_MM: Final = 7.0
_BUNDLE_MM: Final = (2.2, 1.5)  # outer and inner width of a bundle's double line
_DIMENSION_MM: Final = 5.5  # from the bundle to its dimension line
_PLATE_LINE_MM: Final = 0.5
_COVER_TICKS: Final = (("tape", (0.2, 0.7)), ("", (0.3, 1.7)))  # dashes across the bundle; the last for all else


@dataclass(frozen=True, slots=True)
class Spot:
    """A piece in its place: the sheet (from 0) and the top left corner of its raster, mm."""

    piece: Piece
    sheet: int
    x: float
    y: float

    def plate(self, cell: Cell) -> Rect:
        """The outline of the station in a cell."""
        row = cell.row - self.piece.top
        return Rect(self.x + cell.column * COLUMN_MM, self.y + row * ROW_MM + (ROW_MM - PLATE_MM[1]) / 2, *PLATE_MM)


def capacity(area: Rect) -> tuple[int, int]:
    """Return how many columns and rows of stations an area holds."""
    return int((area.width + GAP_MM + 1e-6) // COLUMN_MM), int((area.height + 1e-6) // ROW_MM)


def spread(pieces: Sequence[Piece], area: Rect) -> list[Spot]:
    """Return where each piece goes: side by side while there is room, then below, then on another sheet."""
    columns, rows = capacity(area)
    spots: list[Spot] = []
    sheet = column = row = shelf = 0
    for piece in pieces:
        if column and column + piece.columns > columns:
            column, row, shelf = 0, row + shelf, 0
        if row + piece.rows > rows and (row or column):
            sheet, column, row, shelf = sheet + 1, 0, 0, 0
        spots.append(Spot(piece, sheet, area.x + column * COLUMN_MM, area.y + row * ROW_MM))
        column += piece.columns
        shelf = max(shelf, piece.rows)
    return _centred(spots, area)


def _centred(spots: Sequence[Spot], area: Rect) -> list[Spot]:
    """Move each sheet's spots to the middle of the area's width."""
    moved = []
    for spot in spots:
        right = max(other.x + other.piece.columns * COLUMN_MM - GAP_MM for other in spots if other.sheet == spot.sheet)
        moved.append(replace(spot, x=spot.x + max(0.0, (area.right - right) / 2)))
    return moved


def height_mm(spots: Sequence[Spot], area: Rect, sheet: int) -> float:
    """Return how much of the area's height the pieces on a sheet take, mm."""
    return max((spot.y - area.y + spot.piece.rows * ROW_MM for spot in spots if spot.sheet == sheet), default=0.0)


class TrunkDrawing:
    """Draws the spots of one harness; knows on which sheet each station is drawn in full and goes on."""

    def __init__(self, harness: Harness, routing: Routing, plan: Plan, spots: Sequence[Spot]) -> None:
        """Note where everything is, for the remarks that send the reader on."""
        self._harness, self._routing, self._plan = harness, routing, plan
        self._full: dict[int, int] = {}
        self._goes_on: dict[int, list[int]] = {}
        for spot in spots:
            for stop in spot.piece.stops:
                if not stop.echo:
                    self._full[stop.station] = spot.sheet
                elif _is_root(spot.piece, stop):
                    self._goes_on.setdefault(stop.station, []).append(spot.sheet)

    def draw(self, page: Page, spot: Spot) -> None:
        """Draw one piece: bundles first, then the plates, whose fill hides the bundles' ends."""
        for way in spot.piece.ways:
            self._draw_way(page, spot, way)
        for stop in spot.piece.stops:
            self._draw_stop(page, spot, stop)

    # --- runs

    def _draw_way(self, page: Page, spot: Spot, way: Way) -> None:
        start, end = spot.plate(way.start), spot.plate(way.end)
        y = end.y + end.height / 2
        points = [(start.right, y), (end.x, y)]
        if way.start.row != way.end.row:
            x = start.right - 6 - way.lane * _LANE_MM
            points = [(x, start.bottom if way.end.row > way.start.row else start.y), (x, y), (end.x, y)]
        link = self._plan.links[way.link]
        title = f"run {self._plan.stations[link.a].name} - {self._plan.stations[link.b].name}"
        with page.group("run", title):
            gap = Rect(end.x - GAP_MM, y, GAP_MM, 0)
            if link.run is None:
                _draw_plain(page, points)
                _above(page, gap, (_counted(link.wires, "wire"), "way not stated"))
                marks.dimension(page, gap.x, gap.right, y + _DIMENSION_MM, "length unknown")
            else:
                self._draw_run(page, points, gap, link.run)

    def _draw_run(self, page: Page, points: list[tuple[float, float]], gap: Rect, index: int) -> None:
        run, bundle = self._harness.runs[index], self._routing.bundles[index]
        _draw_bundle(page, points, run.cover)
        wires = len(self._routing.in_run[index])
        _above(page, gap, (*bundle_lines(bundle, wires), run.cover or "covering not stated"))
        length = format_length(run.length_mm) if run.length_mm is not None else "length unknown"
        marks.dimension(page, gap.x, gap.right, gap.y + _DIMENSION_MM, length)
        below = shortened(surroundings(run), GAP_MM - 2, most=3)
        page.lines(gap.x + GAP_MM / 2, gap.y + _DIMENSION_MM + 4, below, TEXT_MM, anchor="middle")

    # --- stations

    def _draw_stop(self, page: Page, spot: Spot, stop: Stop) -> None:
        station = self._plan.stations[stop.station]
        plate = spot.plate(stop.cell)
        with page.group(f"place-{station.number}", f"{station.number} {station.name}"):
            page.rect(
                *plate,
                radius=2,
                fill=WHITE,
                stroke_mm=0.35 if stop.echo else _PLATE_LINE_MM,
                dash=(2.0, 1.0) if stop.echo else (),
            )
            marks.balloon(page, plate.x + 4.6, plate.y + 5, station.number, filled=not stop.echo)
            y = _draw_name(page, plate, station.name)
            lines = [line for text in self._remarks(spot, stop) for line in shortened(text, plate.width - 5, most=2)]
            room = int((plate.bottom - 1.2 - y) // STEP_MM) + 1
            if not stop.echo:
                listed = shortened(" ".join(station.owners), plate.width - 5, most=max(1, room - len(lines)))
                lines = [*listed, *lines]
            page.lines(plate.x + 2.5, y, lines[:room], TEXT_MM)

    def _remarks(self, spot: Spot, stop: Stop) -> list[str]:
        if stop.echo and not _is_root(spot.piece, stop):
            return ["The loop closes here,", f"drawn on {self._where(spot, [self._full[stop.station]])}"]
        if stop.echo:
            return ["Goes on from here,", f"drawn on {self._where(spot, [self._full[stop.station]])}"]
        if stop.more:
            sheets = self._goes_on.get(stop.station, [])
            return [f"{_counted(stop.more, 'more run')}: {self._where(spot, sheets)}"]
        return []

    def _where(self, spot: Spot, sheets: list[int]) -> str:
        others = sorted({sheet for sheet in sheets if sheet != spot.sheet})
        return "sheet " + ", ".join(str(sheet + 1) for sheet in others) if others else "this sheet"


def bundle_lines(bundle: Bundle, wires: int) -> list[str]:
    """Return what is written of a bundle: its diameter, and how far that is verified."""
    if not bundle.members:
        return ["no wire known here"]
    if bundle.diameter_mm is None:
        return ["Ø unknown", _counted(wires, "wire")]
    size = f"{bundle.diameter_mm:.1f} mm"
    if bundle.verified:
        return [f"Ø {size}", _counted(wires, "wire")]
    return [f"Ø > {size}", "not verified", _counted(wires, "wire")]


def surroundings(run: Run) -> str:
    """Return what a run passes through and how warm it gets, as written under it."""
    parts = []
    if run.hole_mm is not None:
        rim = {True: "grommet", False: "no grommet", None: "grommet?"}[run.grommet]
        parts.append(f"hole {format_length(run.hole_mm)}, {rim}")
    elif run.grommet is not None:
        parts.append("grommet" if run.grommet else "no grommet")
    if run.warm_c is not None:
        parts.append(f"up to {format_celsius(run.warm_c)}")
    return ", ".join(parts)


def _is_root(piece: Piece, stop: Stop) -> bool:
    return stop.cell == piece.stops[0].cell


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" + ("" if count == 1 else "s")


def _above(page: Page, gap: Rect, texts: Sequence[str]) -> None:
    lines = [line for text in texts for line in shortened(text, gap.width - 2, most=2)][:5]
    y = gap.y - 2.6 - STEP_MM * (len(lines) - 1)
    page.lines(gap.x + gap.width / 2, y, lines, TEXT_MM, anchor="middle")


def _draw_plain(page: Page, points: Sequence[tuple[float, float]]) -> None:
    page.polyline(points, stroke_mm=0.5, dash=(3, 1.5), join="round")


def _draw_bundle(page: Page, points: Sequence[tuple[float, float]], cover: str | None) -> None:
    """A double line, with ticks across it where the bundle is covered."""
    page.polyline(points, stroke_mm=_BUNDLE_MM[0], join="round")
    page.polyline(points, stroke=WHITE, stroke_mm=_BUNDLE_MM[1], join="round")
    if cover:
        ticks = next(dash for word, dash in _COVER_TICKS if word in cover.lower())
        for leg in pairwise(points):  # each by itself: a dash round a corner would be a blot
            page.polyline(leg, stroke=BLACK, stroke_mm=_BUNDLE_MM[1], dash=ticks)


def _draw_name(page: Page, plate: Rect, name: str) -> float:
    """Write the name beside the balloon, large where it fits; return the next base line."""
    x, room = plate.x + 9.2, plate.width - 10.2
    if lettering.text_width_mm(name, 3.5, True) <= room:
        page.text(x, plate.y + 6.75, name, 3.5, bold=True)
        return plate.y + 12.2
    lines = shortened(name, room, bold=True, most=2)
    page.lines(x, plate.y + 4.6, lines, TEXT_MM, bold=True)
    return plate.y + 12.2
