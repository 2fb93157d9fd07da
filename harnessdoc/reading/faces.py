"""Plug faces from their rule: rows and columns, rings, or coordinates."""

from __future__ import annotations

import math

from harnessdoc.model.face import Cavity, Face
from harnessdoc.reading.shapes import FaceShape


def make_face(name: str, shape: FaceShape) -> Face:
    """The face in mm, seen on the mating face, y down. Raises ValueError when the rule is not one of the three."""
    rules = [
        shape.rows is not None and shape.columns is not None,
        shape.rings is not None,
        shape.cavities is not None,
    ]
    if sum(rules) != 1:
        raise ValueError("a face has one rule: rows and columns, or rings, or cavities")
    if shape.cavities is not None:
        cavities = _from_points(shape)
    else:
        places = _ring_places(shape) if shape.rings is not None else _grid_places(shape)
        names = shape.names or tuple(str(n) for n in range(1, len(places) + 1))
        if len(names) != len(places):
            raise ValueError(f"names lists {len(names)} cavities, the rule makes {len(places)}")
        cavities = tuple(Cavity(n, x, y, shape.shape) for n, (x, y) in zip(names, places, strict=True))
    if len({cavity.name for cavity in cavities}) != len(cavities):
        raise ValueError("two cavities of the face have one name")
    margin = shape.pitch_mm or 5.0
    width = 2 * max(abs(c.x_mm) for c in cavities) + 1.6 * margin
    height = 2 * max(abs(c.y_mm) for c in cavities) + 1.6 * margin
    outline = shape.outline or ("round" if shape.rings is not None else "rect")
    if outline == "round":
        width = height = 2 * max(math.hypot(c.x_mm, c.y_mm) for c in cavities) + 1.6 * margin
    return Face(name, outline, width, height, cavities, shape.key, shape.key_is)


def _grid_places(shape: FaceShape) -> list[tuple[float, float]]:
    rows, columns, pitch = shape.rows or 1, shape.columns or 1, shape.pitch_mm or 5.0
    return [
        (pitch * (column - (columns - 1) / 2), pitch * (row - (rows - 1) / 2))
        for row in range(rows)
        for column in range(columns)
    ]


def _ring_places(shape: FaceShape) -> list[tuple[float, float]]:
    """Rings from the middle out; each is wide enough for its cavities at the pitch."""
    pitch = shape.pitch_mm or 5.0
    places: list[tuple[float, float]] = []
    radius = 0.0
    for index, count in enumerate(shape.rings or ()):
        if count == 1 and index == 0:
            places.append((0.0, 0.0))
            continue
        radius = max(radius + pitch, pitch / (2 * math.sin(math.pi / count)) if count > 1 else pitch)
        turns = [2 * math.pi * n / count for n in range(count)]
        places += [(radius * math.sin(turn), -radius * math.cos(turn)) for turn in turns]
    if not places:
        raise ValueError("rings holds no cavity")
    return places


def _from_points(shape: FaceShape) -> tuple[Cavity, ...]:
    given = shape.cavities or {}
    if not given:
        raise ValueError("cavities names none")
    if any(not math.isfinite(value) or abs(value) > 500 for at in given.values() for value in at):
        raise ValueError("a cavity lies outside 500 mm from the face's centre")
    return tuple(Cavity(name, at[0], at[1], shape.shape) for name, at in given.items())
