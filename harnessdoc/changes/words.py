"""Values of the model as the words of a change, and which values of two parts differ. Knows no section."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping
from enum import Enum
from typing import Any, Final, Literal

from harnessdoc.model import quantities
from harnessdoc.model.colours import Colour
from harnessdoc.model.face import Face
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.harness import End
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size, Unit, plain_number

UNKNOWN: Final = "unknown"
UNSTATED: Final = "not stated"
NOTHING: Final = "none"
Difference = tuple[str, str, str]
"""A key, and both values in words."""
Measured = Unit | Literal["mm²"]
"""What a number is of; areas have no unit of their own in the file."""

_FORMATS: Final[Mapping[Measured, Callable[[float], str]]] = {
    "mm²": quantities.format_area,
    Unit.MM: quantities.format_length,
    Unit.AMP: quantities.format_amps,
    Unit.VOLT: quantities.format_volts,
    Unit.WATT: quantities.format_watts,
    Unit.OHM: quantities.format_ohms,
    Unit.CELSIUS: quantities.format_celsius,
    Unit.PERCENT: quantities.format_percent,
    Unit.AMP_HOUR: quantities.format_amp_hours,
    Unit.SECOND: quantities.format_seconds,
}


def said(value: Any, unit: Measured | None = None, none: str = UNSTATED) -> str:
    """A value as a line prints it; `none`: what stands for a value that is not there."""
    if value is None:
        return none
    if isinstance(value, str):
        return value or NOTHING
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return _FORMATS[unit](value) if unit is not None else plain_number(value)
    if isinstance(value, (Point, Size, Colour)):
        return str(value)
    if isinstance(value, (Hardware, End)):
        return value.text
    if isinstance(value, Face):
        return value.name
    return _gathered(value, unit)


def _gathered(value: Any, unit: Measured | None) -> str:
    """Groups, lists and parts of parts."""
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {said(part, unit)}" for key, part in value.items()) or NOTHING
    if _is_span(value, unit):
        return f"{said(value[0], unit)} to {said(value[1], unit)}"
    if isinstance(value, tuple):
        return ", ".join(said(part, unit) for part in value) or NOTHING
    stated = ((_key(field), getattr(value, field.name), field) for field in dataclasses.fields(value))
    parts = (f"{key} {said(part, _unit(field))}" for key, part, field in stated if part is not None)
    return ", ".join(parts) or NOTHING


def _is_span(value: Any, unit: Measured | None) -> bool:
    numbers = isinstance(value, tuple) and len(value) == 2 and all(isinstance(part, float) for part in value)
    return numbers and unit is not None


def differences(old: Any, new: Any) -> Iterator[Difference]:
    """The values that differ between two parts of one class whose fields name their keys in the file."""
    for field in dataclasses.fields(old):
        if field.compare:
            before, after = getattr(old, field.name), getattr(new, field.name)
            yield from _difference(_key(field), before, after, _unit(field))


def _difference(key: str, old: Any, new: Any, unit: Measured | None) -> Iterator[Difference]:
    """One line a value: groups and parts of parts are gone through."""
    if old == new:
        return
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        for name in dict.fromkeys((*old, *new)):
            inner = name if key == "*" else f"{key}: {name}"
            yield from _difference(inner, old.get(name), new.get(name), unit)
    elif old.__class__ is new.__class__ and dataclasses.is_dataclass(old) and not isinstance(old, (Size, Colour)):
        for inner, before, after in differences(old, new):
            yield f"{key}: {inner}", before, after
    else:
        yield key, said(old, unit), said(new, unit)


def _key(field: dataclasses.Field[Any]) -> str:
    return str(field.metadata.get("key", field.name.replace("_", " ")))


def _unit(field: dataclasses.Field[Any]) -> Measured | None:
    unit: Measured | None = field.metadata.get("unit")
    return unit
