"""Plug faces from their rule: rows and columns, rings, or coordinates. Knows no file; a fault names its key."""

from __future__ import annotations

import itertools
import math
import string
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.model.face import Cavity, Face
from harnessdoc.reading.face_shape import FaceShape
from harnessdoc.reading.problems import meant

_PITCH_MM: Final = 5.0  # own choice, for a face that states none: only proportions matter on paper
_MARGIN: Final = 0.8  # own choice: from the outermost cavities to the outline, in pitches
_NEAREST_MM: Final = 0.5  # own choice: nearer than this two cavities are one
_FARTHEST_MM: Final = 500.0
_ONLY_WITH: Final = {
    "columns": ("columns", ("rows",)),
    "row_pitch_mm": ("row pitch", ("rows",)),
    "offset_mm": ("offset", ("rows",)),
    "first": ("first", ("rows",)),
    "order": ("order", ("rows",)),
    "radii_mm": ("radii", ("rings",)),
    "start_deg": ("start", ("rings",)),
    "turn": ("turn", ("rings",)),
    "gaps": ("gaps", ("rows", "rings")),
    "numbering": ("numbering", ("rows", "rings")),
    "names": ("names", ("rows", "rings")),
}
"""Keys that mean nothing under another rule: field to its key and the rules."""


class FaceError(ValueError):
    """A rule that makes no face. `at`: the way of keys to where the fault is, () for the whole."""

    def __init__(self, text: str, *at: str) -> None:
        super().__init__(text)
        self.at = at


@dataclass(frozen=True, slots=True)
class _Place:
    """A place that a rule makes: its row or ring and its place in it, from 0, and its centre in mm."""

    line: int
    step: int
    x_mm: float
    y_mm: float


def make_face(name: str, shape: FaceShape) -> Face:
    """The face in mm, seen on the mating face, y down. Raises FaceError when the rule makes none."""
    rule = _rule(shape)
    if rule == "cavities":
        places, names = _stated_places(shape), tuple(shape.cavities)
        kept = places
    else:
        places = _ring_places(shape) if rule == "rings" else _grid_places(shape)
        kept = _without_gaps(places, shape)
        names = shape.names or tuple(_numbers(kept, shape.numbering))
        if len(names) != len(kept):
            raise FaceError(f"names lists {len(names)} cavities, the rule makes {len(kept)}", "names")
    if shape.count is not None and shape.count != len(names):
        raise FaceError(f"count says {shape.count} cavities, the rule makes {len(names)}", "count")
    double = next((n for index, n in enumerate(names) if n in names[:index]), None)
    if double is not None:
        raise FaceError(f"two cavities of the face have one name, {double!r}", "names")
    cavities = _shaped(names, kept, shape)
    _hold_apart(cavities, rule)
    return _outlined(name, cavities, places, shape, rule)


def _rule(shape: FaceShape) -> str:
    """Which of the three rules, all its keys being there and no others."""
    stated = [rule for rule in ("rows", "rings", "cavities") if getattr(shape, rule) is not None]
    if len(stated) != 1 or (isinstance(shape.rows, int) and shape.columns is None):
        raise FaceError("a face has one rule: rows and columns, or rings, or cavities")
    (rule,) = stated
    for field, (key, rules) in _ONLY_WITH.items():
        if rule not in rules and getattr(shape, field) != getattr(FaceShape, field):
            raise FaceError(f"{key} goes with {' or '.join(rules)}, and this face is made by {rule}", key)
    if isinstance(shape.rows, tuple) and shape.columns is not None:
        raise FaceError("rows says how many cavities each row has; then columns says nothing more", "columns")
    return rule


# --- places


def _grid_places(shape: FaceShape) -> list[_Place]:
    """Rows of cavities in the order of their numbers; every second row moved right by the offset."""
    counts = shape.rows if isinstance(shape.rows, tuple) else (shape.columns or 1,) * (shape.rows or 1)
    across, down = shape.pitch_mm or _PITCH_MM, shape.row_pitch_mm or shape.pitch_mm or _PITCH_MM
    offset = shape.offset_mm or 0.0
    bottom, right = shape.first.startswith("bottom"), shape.first.endswith("right")
    made: list[tuple[tuple[int, int], _Place]] = []
    for row, count in enumerate(counts):
        line = len(counts) - 1 - row if bottom else row
        for column in range(count):
            step = count - 1 - column if right else column
            x = across * (column - (count - 1) / 2) + (offset if row % 2 else 0.0)
            made.append((_turn(shape.order, line, step, len(counts), count), _Place(line, step, x, down * row)))
    return _centred([place for _, place in sorted(made, key=lambda one: one[0])])


def _turn(order: str, line: int, step: int, lines: int, steps: int) -> tuple[int, int]:
    """What a place is sorted by: the line it is in, then its place in it; to and fro turns at each end."""
    to_and_fro = order.endswith("fro")
    if order.startswith("rows"):
        return line, steps - 1 - step if to_and_fro and line % 2 else step
    return step, lines - 1 - line if to_and_fro and step % 2 else line


def _ring_places(shape: FaceShape) -> list[_Place]:
    """Rings from the middle out, of the stated radii or each wide enough for its cavities at the pitch."""
    counts: Sequence[int] = shape.rings
    pitch = shape.pitch_mm or _PITCH_MM
    radii = shape.radii_mm or list(_least_radii(counts, pitch))
    starts = shape.start_deg if isinstance(shape.start_deg, tuple) else (shape.start_deg,) * len(counts)
    for key, found in (("radii", radii), ("start", starts)):
        if len(found) != len(counts):
            raise FaceError(f"{key} lists {len(found)}, and there are {len(counts)} rings", key)
    way = 1 if shape.turn == "clockwise" else -1
    places: list[_Place] = []
    for ring, (count, radius, start) in enumerate(zip(counts, radii, starts, strict=True)):
        for step in range(count):
            angle = math.radians(start + way * 360 * step / count)
            places.append(_Place(ring, step, radius * math.sin(angle), -radius * math.cos(angle)))
    if not places:
        raise FaceError("rings holds no cavity", "rings")
    return places


def _least_radii(counts: Sequence[int], pitch: float) -> Iterator[float]:
    """The radius at which a ring's cavities are a pitch apart; never nearer than a pitch to the ring within."""
    radius = -pitch
    for count in counts:
        radius = max(radius + pitch, pitch / (2 * math.sin(math.pi / count)) if count > 1 else 0.0)
        yield radius


def _stated_places(shape: FaceShape) -> list[_Place]:
    """Coordinates from the outline's middle; from anywhere, where neither its size nor a round outline is stated."""
    if not shape.cavities:
        raise FaceError("cavities names none", "cavities")
    for name, at in shape.cavities.items():
        if any(not math.isfinite(value) or abs(value) > _FARTHEST_MM for value in at):
            text = f"a cavity lies outside {_FARTHEST_MM:.0f} mm from the face's centre"
            raise FaceError(text, "cavities", name)
    places = [_Place(0, index, x, y) for index, (x, y) in enumerate(shape.cavities.values())]
    stated = shape.outline == "round" or shape.width_mm is not None or shape.height_mm is not None
    return places if stated else _centred(places)


def _centred(places: list[_Place]) -> list[_Place]:
    xs, ys = [place.x_mm for place in places], [place.y_mm for place in places]
    x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return [_Place(place.line, place.step, place.x_mm - x, place.y_mm - y) for place in places]


def _without_gaps(places: list[_Place], shape: FaceShape) -> list[_Place]:
    """The places that hold a cavity; a gap names its row or ring and its place in it, both from 1."""
    gaps = {(line - 1, step - 1): index for index, (line, step) in enumerate(shape.gaps)}
    there = {(place.line, place.step) for place in places}
    for line, step in gaps:
        if (line, step) not in there:
            raise FaceError(f"gaps: the rule makes no place {step + 1} in {line + 1}", "gaps")
    kept = [place for place in places if (place.line, place.step) not in gaps]
    if not kept:
        raise FaceError("gaps leaves no cavity", "gaps")
    return kept


def _numbers(places: list[_Place], numbering: str) -> Iterator[str]:
    letters = string.ascii_uppercase
    if numbering != "1" and max(p.line + 1 if numbering == "A1" else len(places) for p in places) > len(letters):
        raise FaceError(f"numbering {numbering} has {len(letters)} letters; list the names instead", "numbering")
    for index, place in enumerate(places):
        if numbering == "A1":
            yield f"{letters[place.line]}{place.step + 1}"
        else:
            yield letters[index] if numbering == "A" else str(index + 1)


# --- cavities and outline


def _shaped(names: Sequence[str], places: Sequence[_Place], shape: FaceShape) -> tuple[Cavity, ...]:
    shapes: dict[str, tuple[str, float | None]] = {}
    for text, (kind, chosen) in shape.other_shapes.items():
        for name in chosen:
            if name not in names:
                text_ = f"other shapes: {name!r:.40} is no cavity of this face{meant(name, names)}"
                raise FaceError(text_, "other shapes", text)
            if name in shapes:
                raise FaceError(f"other shapes names cavity {name!r:.40} twice", "other shapes", text)
            shapes[name] = kind
    made = zip(names, places, strict=True)
    return tuple(Cavity(name, place.x_mm, place.y_mm, *shapes.get(name, shape.shape)) for name, place in made)


def _hold_apart(cavities: Sequence[Cavity], rule: str) -> None:
    """Raise FaceError for the first two cavities that take one another's room."""
    first = min(_clashes(cavities), default=None)
    if first is not None:
        one, other, why = cavities[first[0]], cavities[first[1]], first[2]
        at = (rule, other.name) if rule == "cavities" else (rule,)
        raise FaceError(f"cavities {one.name} and {other.name} clash: {why}", *at)


def _clashes(cavities: Sequence[Cavity]) -> Iterator[tuple[int, int, str]]:
    """Which two clash, by their place in the list, and why."""
    reach = max(_NEAREST_MM, 2 * max(max(cavity.half_mm) for cavity in cavities))
    ordered = sorted(enumerate(cavities), key=lambda one: one[1].x_mm)
    for at, (index, one) in enumerate(ordered):
        for number, other in itertools.islice(ordered, at + 1, None):
            if other.x_mm - one.x_mm >= reach:
                break
            why = _clash(one, other)
            if why:
                yield min(index, number), max(index, number), why


def _clash(one: Cavity, other: Cavity) -> str:
    across, down = abs(one.x_mm - other.x_mm), abs(one.y_mm - other.y_mm)
    apart = math.hypot(across, down)
    if apart < _NEAREST_MM:
        return f"their centres are {apart:.1f} mm apart"
    (width, height), (width_too, height_too) = one.half_mm, other.half_mm
    if one.shape == other.shape == "round":
        overlap = apart < width + width_too
    else:
        overlap = across < width + width_too and down < height + height_too
    return "at their sizes they overlap" if overlap else ""


def _outlined(name: str, cavities: tuple[Cavity, ...], places: Sequence[_Place], shape: FaceShape, rule: str) -> Face:
    pitch = shape.pitch_mm or (_closest_mm(cavities) if rule == "cavities" else 0.0) or _PITCH_MM
    outline = shape.outline or ("round" if rule == "rings" else "rect")
    margin = 2 * _MARGIN * pitch
    if outline == "round":
        width = 2 * max(math.hypot(place.x_mm, place.y_mm) for place in places) + margin
        width = height = shape.width_mm or shape.height_mm or width
        if (shape.height_mm or width) != width:
            raise FaceError("a round outline has one width", "height")
    else:
        width = shape.width_mm or 2 * max(abs(place.x_mm) for place in places) + margin
        height = shape.height_mm or 2 * max(abs(place.y_mm) for place in places) + margin
    _hold_inside(cavities, outline, width, height, "width" if shape.width_mm is not None else "height")
    return Face(name, outline, width, height, cavities, shape.key, shape.key_is, shape.ribs)


def _hold_inside(cavities: Sequence[Cavity], outline: str, width: float, height: float, key: str) -> None:
    for cavity in cavities:
        if outline == "round":
            inside = 2 * math.hypot(cavity.x_mm, cavity.y_mm) < width
        else:
            inside = 2 * abs(cavity.x_mm) < width and 2 * abs(cavity.y_mm) < height
        if not inside:
            raise FaceError(f"cavity {cavity.name} lies outside the outline, {width:g} x {height:g} mm", key)


def _closest_mm(cavities: Sequence[Cavity]) -> float:
    """The smallest distance between two cavities, mm; 0 for a single one."""
    closest = math.inf
    ordered = sorted(cavities, key=lambda cavity: cavity.x_mm)
    for index, one in enumerate(ordered):
        for other in ordered[index + 1 :]:
            if other.x_mm - one.x_mm >= closest:
                break
            closest = min(closest, math.hypot(one.x_mm - other.x_mm, one.y_mm - other.y_mm))
    return closest if math.isfinite(closest) else 0.0
