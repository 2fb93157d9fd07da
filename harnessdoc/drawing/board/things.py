"""What is drawn on the board, thing by thing, each knowing where it lies; so a tile draws only what it shows.

Bundles in their true thickness, centre lines, distance marks, nails, coverings, splices, pegs, lists, labels."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.board.path import Path, Piece, Point, grown, spanned
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import BLACK, WHITE, Page

CENTRE_LINE_MM: Final = 0.18
CENTRE_DASH: Final = (8.0, 1.5, 1.0, 1.5)  # ISO 128: long-dashed dotted narrow line, centre lines
UNKNOWN_LINE_MM: Final = 0.7
UNKNOWN_DASH: Final = (6.0, 4.0)
OUTLINE_MM: Final = 0.35
THICKEST_MM: Final = 26.0
"""A thicker bundle is drawn so thick, for lists and marks stand close to it; its label says so."""
PEG_MM: Final = 3.0
TEXT_MM: Final = 2.5
_NAIL_MM: Final = 1.0
_THIN_MM: Final = 0.25


@dataclass(frozen=True, slots=True)
class Thing:
    """`rects`: what it covers. `text`: it is printed by the one tile in whose cell it lies."""

    rects: tuple[Rect, ...]
    draw: Callable[[Page], None]
    text: bool = False


def bundle(path: Path, thick_mm: float | None, name: str) -> Thing:
    """A run's outline in its true thickness; nothing for one that nobody knows."""
    rects = tuple(grown(piece.rect, (thick_mm or 0.0) / 2 + 0.5) for piece in path.pieces)

    def draw(page: Page) -> None:
        if thick_mm:
            with page.group("bundle", name):
                page.path(path.data, stroke_mm=thick_mm + OUTLINE_MM)
                page.path(path.data, stroke=WHITE, stroke_mm=max(thick_mm - OUTLINE_MM, 0.05))

    return Thing(rects, draw)


def centre(path: Path, known: bool, name: str) -> Thing:
    """A run's centre line: thin and long-dashed, heavy and broken where the length is not known."""

    def draw(page: Page) -> None:
        with page.group("centre-line", name):
            if known:
                page.path(path.data, stroke_mm=CENTRE_LINE_MM, dash=CENTRE_DASH)
            else:
                page.path(path.data, stroke_mm=UNKNOWN_LINE_MM, dash=UNKNOWN_DASH)

    return Thing(tuple(grown(piece.rect, 0.5) for piece in path.pieces), draw)


def nails(path: Path, thick_mm: float) -> Iterator[Thing]:
    """Three nails inside each bend, that hold the bundle on its radius."""
    for piece in path.pieces:
        if piece.radius:
            off = piece.radius - thick_mm / 2 - _NAIL_MM - 0.3
            for share in (0.0, 0.5, 1.0):
                x, y, _ = piece.at(piece.length_mm * share)
                dx, dy = (x - piece.centre[0]) / piece.radius, (y - piece.centre[1]) / piece.radius
                yield _dot(piece.centre[0] + dx * off, piece.centre[1] + dy * off)


def _dot(x: float, y: float) -> Thing:
    return Thing((Rect(x - 1, y - 1, 2, 2),), lambda page: page.circle(x, y, _NAIL_MM, stroke_mm=_THIN_MM))


def across(path: Path, distance_mm: float, half_mm: float, stroke_mm: float) -> Thing:
    """A mark across a run, so far along its line."""
    x, y, angle = path.at(distance_mm)
    dx, dy = -math.sin(math.radians(angle)) * half_mm, math.cos(math.radians(angle)) * half_mm
    return Thing(
        (spanned((x - dx, y - dy), (x + dx, y + dy)),),
        lambda page: page.line(x - dx, y - dy, x + dx, y + dy, stroke_mm=stroke_mm),
    )


def broken(path: Path, distance_mm: float, half_mm: float) -> Thing:
    """Two zigzag lines across a run, white between them (ISO 128: break lines): something is left out or not known."""
    x, y, angle = path.at(distance_mm)
    reach = half_mm + 3.0

    def draw(page: Page) -> None:
        with page.group(x=x, y=y, rotate=angle):
            page.rect(-2.5, -half_mm - 0.5, 5.0, 2 * half_mm + 1.0, fill=WHITE, stroke="none")
            for side in (-2.5, 2.5):
                page.polyline(
                    [(side, -reach), (side, -1.5), (side - 1.5, -0.75), (side + 1.5, 0.75), (side, 1.5), (side, reach)],
                    stroke_mm=_THIN_MM,
                )

    return Thing((grown(Rect(x, y, 0, 0), reach + 2),), draw)


def joint(path: Path, distance_mm: float, half_mm: float, name: str) -> Thing:
    """A splice: a black diamond on the run."""
    x, y, angle = path.at(distance_mm)
    reach = max(half_mm, 2.5)

    def draw(page: Page) -> None:
        with page.group(f"splice-{name}", f"splice {name}", x=x, y=y, rotate=angle):
            tips = [(-4.0, 0.0), (0.0, -reach), (4.0, 0.0), (0.0, reach)]
            page.polyline(tips, closed=True, fill=BLACK, stroke_mm=_THIN_MM)

    return Thing((grown(Rect(x, y, 0, 0), reach + 4),), draw)


def nail(at: Point, name: str, again: bool) -> Thing:
    """A peg: circle and cross; dashed where its place is laid at another."""
    x, y = at

    def draw(page: Page) -> None:
        with page.group("peg", name):
            page.circle(x, y, PEG_MM, fill=WHITE, stroke_mm=0.5, dash=(1.0, 0.8) if again else ())
            page.line(x - 5, y, x + 5, y, stroke_mm=_THIN_MM)
            page.line(x, y - 5, x, y + 5, stroke_mm=_THIN_MM)

    return Thing((grown(Rect(x, y, 0, 0), 5.5),), draw)


def leader(start: Point, end: Point, from_mm: float) -> Thing:
    """A thin line from a mark (from_mm off its middle) to a text."""
    length = math.dist(start, end) or 1.0
    x = start[0] + (end[0] - start[0]) * min(1.0, from_mm / length)
    y = start[1] + (end[1] - start[1]) * min(1.0, from_mm / length)
    return Thing(
        tuple(_beads((x, y), end)),
        lambda page: page.line(x, y, end[0], end[1], stroke_mm=_THIN_MM),
    )


def _beads(start: Point, end: Point) -> Iterator[Rect]:
    """A slanting line as small rectangles, so that it is found only where it runs."""
    steps = max(1, int(math.dist(start, end) // 5))
    for step in range(steps):
        a, b = step / steps, (step + 1) / steps
        yield spanned(
            (start[0] + (end[0] - start[0]) * a, start[1] + (end[1] - start[1]) * a),
            (start[0] + (end[0] - start[0]) * b, start[1] + (end[1] - start[1]) * b),
        )


def words(rect: Rect, lines: Sequence[str], height_mm: float = TEXT_MM, bold: bool = False) -> Thing:
    """Lines of text in a rectangle made for them."""

    def draw(page: Page) -> None:
        page.lines(rect.x + 0.5, rect.y + 0.5 + height_mm, lines, height_mm, bold=bold)

    return Thing((rect,), draw, text=True)


def straight_at(path: Path, distance_mm: float) -> Piece | None:
    """The straight piece so far along a line; None in a bend."""
    left = distance_mm
    for piece in path.pieces:
        if left <= piece.length_mm:
            return None if piece.radius else piece
        left -= piece.length_mm
    return None
