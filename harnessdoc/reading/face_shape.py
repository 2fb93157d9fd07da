"""The keys of a plug's face, in `layouts/plugs/NAME.yaml` or behind `face:`. Keys only; `faces` makes it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from pydantic_core import core_schema

from harnessdoc.model.face import SHAPES, Rib
from harnessdoc.model.quantities import Unit, parse_quantity
from harnessdoc.reading import texts
from harnessdoc.reading.schema import at_key, two
from harnessdoc.reading.schema import texts as of_texts

_ANGLE: Final = re.compile(r"(-?\d{1,3}(?:\.\d{1,6})?)\s*(?:deg|°)")
_SHAPE: Final = re.compile(r"(?P<shape>[a-z ]*[a-z])(?:\s+(?P<size>\d.*))?")
SIDES: Final = ("top", "right", "bottom", "left")


def _angle(value: Any) -> float:
    """Degrees clockwise from the top."""
    text = texts.text_of(value, "an angle with its unit, as in 30 deg")
    found = _ANGLE.fullmatch(text.strip())
    if not found:
        raise ValueError(f"expected an angle with its unit, as in 30 deg, found {text!r:.60}")
    return float(found[1])


def _angles(value: Any) -> Any:
    """One angle for all rings, or one a ring."""
    return tuple(map(_angle, value)) if isinstance(value, list) else _angle(value)


def _radius(value: Any) -> float:
    text = texts.text_of(value, "a radius with its unit, as in 7 mm")
    return parse_quantity(text, Unit.MM, allow_zero=True)


def parse_shape(text: str) -> tuple[str, float | None]:
    """Read `round`, `lying blade 6.3 mm`: the shape of a cavity and its size in mm. Raises ValueError."""
    found = _SHAPE.fullmatch(" ".join(text.split()))
    shape = {"blade": "upright blade"}.get(found["shape"], found["shape"]) if found else ""
    if found is None or shape not in SHAPES:
        raise ValueError(f"{text!r:.60} is no shape of a cavity: {', '.join(SHAPES)}; a size may follow, as in 6.3 mm")
    return shape, parse_quantity(found["size"], Unit.MM) if found["size"] else None


def _shape(value: Any) -> tuple[str, float | None]:
    return parse_shape(texts.text_of(value, f"a shape: {', '.join(SHAPES)}"))


def _shapes(value: Any) -> dict[str, tuple[tuple[str, float | None], tuple[str, ...]]]:
    """Shape as written, to what it means and the cavities that have it."""
    if not isinstance(value, dict):
        raise ValueError("expected shapes with their cavities, as in {lying blade 6.3 mm: [1, 2]}")
    return {text: (parse_shape(text), texts.words(names)) for text, names in value.items()}


def _ribs(value: Any) -> tuple[Rib, ...]:
    """Sides, each with a distance from its middle if wanted."""
    return tuple(map(_rib, texts.words(value)))


def _rib(text: str) -> Rib:
    side, _, along = text.strip().partition(" ")
    if side not in SIDES:
        raise ValueError(f"{text!r:.60} is no rib: a side ({', '.join(SIDES)}), then if wanted mm from its middle")
    return Rib(side, parse_quantity(along, Unit.MM, allow_zero=True, allow_negative=True) if along.strip() else 0.0)


def _per_row(value: Any) -> Any:
    """How many rows there are, or how many cavities each row has."""
    counts = [_whole(part) for part in value] if isinstance(value, list) else _whole(value)
    if isinstance(counts, list):
        if not 1 <= len(counts) <= 40 or any(not 1 <= count <= 60 for count in counts):
            raise ValueError("expected 1 to 40 rows of 1 to 60 cavities each")
        return tuple(counts)
    if not 1 <= counts <= 40:
        raise ValueError(f"expected {'1 or more' if counts < 1 else '40 or less'}, found {str(counts)!r}")
    return counts


def _whole(value: Any) -> int:
    text = texts.text_of(value, "a whole number").strip()
    if not re.fullmatch(r"\d{1,4}", text):
        raise ValueError(f"expected a whole number, found {text!r:.60}")
    return int(text)


def _gaps() -> core_schema.CoreSchema:
    return core_schema.list_schema(two(core_schema.int_schema(ge=1, le=60)))


@dataclass(eq=False, repr=False)
class FaceShape:
    """A plug's face by one of three rules: `rows` and `columns` (or `rows: [4, 3, 4]`); `rings` (cavities in each, from
    the middle out); `cavities` (name: [x, y] in mm).

    Positions and numbers are as seen on the mating face, numbered from top left, row by row; rings from the top,
    clockwise. They are those of the half with sockets; a half with pins is drawn as its mirror image."""

    rows: Any = at_key("rows", _per_row)
    columns: int | None = at_key("columns", schema=lambda: core_schema.int_schema(ge=1, le=60))
    rings: Any = at_key(
        "rings", schema=lambda: core_schema.list_schema(core_schema.int_schema(ge=0, le=60), min_length=1, max_length=8)
    )
    cavities: Any = at_key(
        "cavities",
        schema=lambda: core_schema.dict_schema(core_schema.str_schema(), two(core_schema.float_schema())),
    )
    pitch_mm: float | None = at_key("pitch", texts.length)
    row_pitch_mm: float | None = at_key("row pitch", texts.length)
    offset_mm: float | None = at_key(
        "offset", texts.reader(lambda text: parse_quantity(text, Unit.MM, allow_negative=True), "a length")
    )
    gaps: Any = at_key("gaps", schema=_gaps, default=())
    first: Literal["top left", "top right", "bottom left", "bottom right"] = at_key("first", default="top left")
    order: Literal["rows", "columns", "rows to and fro", "columns to and fro"] = at_key("order", default="rows")
    radii_mm: Any = at_key("radii", schema=lambda: core_schema.list_schema(of_texts(_radius), max_length=8))
    start_deg: Any = at_key("start", _angles, default=0.0)
    turn: Literal["clockwise", "anticlockwise"] = at_key("turn", default="clockwise")
    numbering: Literal["1", "A", "A1"] = at_key("numbering", default="1")
    names: tuple[str, ...] = at_key("names", default=())
    count: int | None = at_key("count", schema=lambda: core_schema.int_schema(ge=1, le=2400))
    shape: Any = at_key("shape", _shape, default=("round", None))
    other_shapes: Mapping[str, Any] = at_key("other shapes", _shapes, default={})
    outline: Literal["rect", "round"] | None = at_key("outline")
    width_mm: float | None = at_key("width", texts.length)
    height_mm: float | None = at_key("height", texts.length)
    key: Literal["top", "right", "bottom", "left", "none"] = at_key("key", default="top")
    key_is: Literal["latch", "index", "key", "rib"] = at_key("key is", default="latch")
    ribs: Any = at_key("ribs", _ribs, default=())
    source: str = at_key("source", default="")
