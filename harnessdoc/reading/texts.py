"""Field types of the file: each reads a text into a value of the model, or says what was expected."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema

from harnessdoc.model.colours import parse_colour
from harnessdoc.model.hardware import parse_hardware
from harnessdoc.model.points import Point, parse_point
from harnessdoc.model.quantities import Unit, parse_quantity, parse_range, parse_size
from harnessdoc.tables.auto_cable import auto_mm2

UNKNOWN = frozenset({"unknown", "?"})
NAME_LIMIT = 300
_DATE = re.compile(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])")


def text_of(value: Any, wanted: str) -> str:
    """The value if it is a text; else ValueError saying what was wanted."""
    if isinstance(value, str):
        return value
    found = "a group of keys" if isinstance(value, dict) else "a list" if isinstance(value, list) else "nothing"
    raise ValueError(f"expected {wanted}, found {found}")


def _reader(read: Callable[[str], Any], wanted: str, *, unknown: bool = True) -> Callable[[Any], Any]:
    def validate(value: Any) -> Any:
        text = text_of(value, wanted)
        if unknown and text.strip().lower() in UNKNOWN:
            return None
        return read(text)

    return validate


def _field(read: Callable[[str], Any], wanted: str, *, unknown: bool = True) -> Any:
    validate = _reader(read, wanted, unknown=unknown)
    return Annotated[Any, PlainValidator(validate), WithJsonSchema({"type": "string", "description": wanted})]


def _wanted(unit: Unit) -> str:
    return f"{unit.noun} with its unit, as in {unit.sample}"


def quantity_reader(
    unit: Unit, *, allow_zero: bool = False, allow_negative: bool = False
) -> Callable[[Any], float | None]:
    """Reads a figure with its unit; None for `unknown`."""

    def read(text: str) -> float:
        return parse_quantity(text, unit, allow_zero=allow_zero, allow_negative=allow_negative)

    return _reader(read, _wanted(unit))


def span_reader(unit: Unit) -> Callable[[Any], tuple[float, float] | None]:
    """Reads a range of figures with their unit; None for `unknown`."""
    return _reader(lambda text: parse_range(text, unit), f"{unit.noun} or a range, as in 3.5..4 {unit.base}")


def quantity(unit: Unit, *, allow_zero: bool = False, allow_negative: bool = False) -> Any:
    """The field type of a figure with its unit, `unknown` allowed."""
    read = quantity_reader(unit, allow_zero=allow_zero, allow_negative=allow_negative)
    return Annotated[Any, PlainValidator(read), WithJsonSchema({"type": "string", "description": _wanted(unit)})]


def _date(text: str) -> str:
    if not _DATE.fullmatch(text.strip()):
        raise ValueError(f"{text!r} is no date; write it as 2026-10-11")
    return text.strip()


def _name(text: str) -> str:
    if not text.strip():
        raise ValueError("a name must not be empty")
    return text


def _landing(text: str) -> Point | str | None:
    return "tail" if text.strip().lower() == "tail" else parse_point(text)


def _list(value: Any) -> Any:
    return value if isinstance(value, list) else [text_of(value, "a text or a list of texts")]


def words(value: Any) -> tuple[str, ...]:
    """Reads one text or a list of texts."""
    return tuple(text_of(part, "a text") for part in _list(value))


SizeText = _field(lambda text: parse_size(text, auto_mm2()), "a size, as in 2.5 mm2, 14 AWG or 6 mm auto")
ColourText = _field(parse_colour, "a colour, as in red, red/black, RD/BK or rt/sw")
PointText = _field(parse_point, "a point, as in X4:3, or a splice's name", unknown=False)
LandingText = _field(_landing, "a point (X4:3), a splice's name, tail or unknown")
HardwareText = _field(parse_hardware, "end hardware, as in tab 6.3, ring M6, ferrule or cap")
DateText = _field(_date, "a date, as in 2026-10-11", unknown=False)
NameText = _field(_name, "a text", unknown=False)
KnownText = _field(lambda text: text, "a text")
Words = Annotated[
    Any,
    PlainValidator(words),
    WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}),
]
Length = quantity(Unit.MM)
Area = _field(lambda text: parse_size(text, auto_mm2()).area_mm2, "an area, as in 6 mm2")
