"""A line on the board: straight pieces with round bends, its exact length, and any point along it. Pure geometry.

Lengths are measured along the centre line, bends included: a bend of angle t and radius r counts r·t."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from harnessdoc.sheet.marks import Rect

Point = tuple[float, float]


class Piece(NamedTuple):
    """A straight (`radius` 0) or a bend round `centre` by `turn` radians, clockwise on paper where above 0."""

    start: Point
    end: Point
    length_mm: float
    radius: float = 0.0
    centre: Point = (0.0, 0.0)
    turn: float = 0.0

    def at(self, distance_mm: float) -> tuple[float, float, float]:
        """The point so far along it, and the direction there in degrees clockwise from the right."""
        if not self.radius:
            dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
            share = distance_mm / self.length_mm if self.length_mm else 0.0
            return self.start[0] + dx * share, self.start[1] + dy * share, math.degrees(math.atan2(dy, dx))
        begin = math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])
        angle = begin + self.turn * distance_mm / self.length_mm
        x = self.centre[0] + self.radius * math.cos(angle)
        y = self.centre[1] + self.radius * math.sin(angle)
        return x, y, math.degrees(angle + math.copysign(math.pi / 2, self.turn))

    @property
    def rect(self) -> Rect:
        """What it spans: a bend lies inside the rectangle of its ends and its corner, which they span."""
        return spanned(self.start, self.end)


@dataclass(frozen=True)
class Path:
    """A line through corner points, each inner corner rounded by `radius_mm`."""

    points: tuple[Point, ...]
    radius_mm: float

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """Straights and bends in order. Raises ValueError where a straight is too short for its bends."""
        found: list[Piece] = []
        at, taken = self.points[0], 0.0
        for index in range(1, len(self.points)):
            corner, before = self.points[index], self.points[index - 1]
            follows = self.points[index + 1] if index + 1 < len(self.points) else None
            turn = turn_of(before, corner, follows) if follows else 0.0
            cut = self.radius_mm * math.tan(abs(turn) / 2)
            length = math.dist(before, corner)
            if length < taken + cut - 1e-6:
                raise ValueError(f"{length:.1f} mm are too short for bends of {self.radius_mm:.0f} mm")
            end = _towards(corner, before, cut)
            if length - taken - cut > 1e-6:
                found.append(Piece(at, end, length - taken - cut))
            if follows and turn:
                leaving = _towards(corner, follows, cut)
                found.append(self._bend(end, leaving, before, corner, turn))
                end = leaving
            at, taken = end, cut
        return tuple(found)

    def _bend(self, start: Point, end: Point, before: Point, corner: Point, turn: float) -> Piece:
        length = math.dist(before, corner)
        along = ((corner[0] - before[0]) / length, (corner[1] - before[1]) / length)
        side = math.copysign(self.radius_mm, turn)
        centre = (start[0] - along[1] * side, start[1] + along[0] * side)
        return Piece(start, end, self.radius_mm * abs(turn), self.radius_mm, centre, turn)

    @cached_property
    def length_mm(self) -> float:
        """Along the centre line, bends included."""
        return sum(piece.length_mm for piece in self.pieces)

    def at(self, distance_mm: float) -> tuple[float, float, float]:
        """The point so far along it, and the direction there in degrees clockwise from the right."""
        left = distance_mm
        for piece in self.pieces:
            if left <= piece.length_mm:
                return piece.at(left)
            left -= piece.length_mm
        return self.pieces[-1].at(self.pieces[-1].length_mm)

    @cached_property
    def data(self) -> str:
        """As SVG path data."""
        x, y = self.pieces[0].start
        parts = [f"M{x:.4f} {y:.4f}"]
        for piece in self.pieces:
            x, y = piece.end
            if piece.radius:
                parts.append(f"A{piece.radius:.4f} {piece.radius:.4f} 0 0 {int(piece.turn > 0)} {x:.4f} {y:.4f}")
            else:
                parts.append(f"L{x:.4f} {y:.4f}")
        return "".join(parts)


def turn_of(before: Point, corner: Point, follows: Point) -> float:
    """The angle between two legs in radians, above 0 to the right (clockwise on paper)."""
    ax, ay = corner[0] - before[0], corner[1] - before[1]
    bx, by = follows[0] - corner[0], follows[1] - corner[1]
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def saved_mm(turn: float, radius_mm: float) -> float:
    """How much shorter a bend is than the sharp corner it replaces: 2·r·tan(t/2) - r·t."""
    return radius_mm * (2 * math.tan(abs(turn) / 2) - abs(turn))


def spanned(a: Point, b: Point) -> Rect:
    """The rectangle that two points span."""
    return Rect(min(a[0], b[0]), min(a[1], b[1]), abs(a[0] - b[0]), abs(a[1] - b[1]))


def grown(rect: Rect, margin_mm: float) -> Rect:
    """The rectangle with a margin all round."""
    return rect.inset(-margin_mm)


def meet(a: Rect, b: Rect) -> bool:
    """Whether two rectangles reach into each other; lines count as having an inside along themselves."""
    ax, ay, aw, ah = a
    bx, by, bw, bh = b
    return ax < bx + bw and bx < ax + aw and ay < by + bh and by < ay + ah


def _towards(start: Point, to: Point, distance_mm: float) -> Point:
    length = math.dist(start, to)
    share = distance_mm / length if length else 0.0
    return start[0] + (to[0] - start[0]) * share, start[1] + (to[1] - start[1]) * share
