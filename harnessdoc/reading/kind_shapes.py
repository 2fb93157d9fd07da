"""The shape of an item, derived from its kind's dataclass: a kind is described once, in the model."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Mapping
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, get_args, get_origin

from pydantic import BeforeValidator, Field, create_model

from harnessdoc.model.kinds import KINDS
from harnessdoc.model.kinds.base import Kind, pair
from harnessdoc.reading.shapes import ItemShape, Shape
from harnessdoc.reading.texts import Words, quantity, span

REST = "*"
"""The key of a field that takes all keys not named by others."""


@cache
def shape_of(kind: str) -> type[ItemShape]:
    """The shape of items whose `is` is that kind."""
    fields = _fields(KINDS[kind])
    return create_model(f"{kind.title().replace(' ', '')}Shape", __base__=ItemShape, **fields)


def made(kind: str, shape: ItemShape) -> Kind:
    """The model's dataclass from a validated shape."""
    made_kind: Kind = _made(KINDS[kind], shape)
    return made_kind


def _made(target: type[Any], shape: Any) -> Any:
    values = {field.name: _value(getattr(shape, field.name)) for field in dataclasses.fields(target)}
    return target(**values)


def _value(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _value(part) for key, part in value.items()}
    target = getattr(type(value), "makes", None)
    return _made(target, value) if target is not None else value


def _fields(target: type[Any]) -> dict[str, Any]:
    hints = typing.get_type_hints(target)
    fields: dict[str, Any] = {}
    for field in dataclasses.fields(target):
        meta = field.metadata
        fields[field.name] = (
            _type(hints[field.name], meta["unit"], meta["span"], meta["key"]),
            Field(
                {} if field.default is dataclasses.MISSING else field.default,
                alias=meta["key"],
                description=meta["about"] or None,
            ),
        )
    return fields


def _type(hint: Any, unit: Any, ranged: bool, key: str) -> Any:
    """The pydantic type for a field of a kind, by its annotation and unit."""
    bare = _without_none(hint)
    if get_origin(bare) is Mapping or get_origin(bare) is dict:
        inner: Any = _type(get_args(bare)[1], unit, ranged, key)
        return Annotated[dict[str, inner], BeforeValidator(_contacts)] if key == "contacts" else dict[str, inner]
    if unit is not None:
        return span(unit) if ranged else quantity(unit)
    if dataclasses.is_dataclass(bare):
        return (
            _nested(typing.cast("type[Any]", bare)) if bare is hint else _nested(typing.cast("type[Any]", bare)) | None
        )
    if get_origin(bare) is tuple:
        return Words
    if get_origin(bare) is Literal or bare in (bool, int, str, float):
        return hint
    raise TypeError(f"no file type for {hint!r}")


def _without_none(hint: Any) -> Any:
    if get_origin(hint) in (UnionType, typing.Union):
        parts = [part for part in get_args(hint) if part is not NoneType]
        return parts[0] if len(parts) == 1 else hint
    return hint


@cache
def _nested(target: type[Any]) -> Any:
    fields = _fields(target)
    shape = create_model(f"{target.__name__}Shape", __base__=Shape, **fields)
    shape.makes = target  # type: ignore[attr-defined]
    keys = {meta.alias for _, meta in fields.values()}
    if REST not in keys:
        return shape

    def gather(value: Any) -> Any:
        if not isinstance(value, dict):
            return value
        rest = {key: part for key, part in value.items() if key not in keys}
        return {**{key: part for key, part in value.items() if key in keys}, REST: rest}

    return Annotated[shape, BeforeValidator(gather)]


def _contacts(value: Any) -> Any:
    """Contacts are named by two terminals; a name of another form is said here, where its key is known."""
    if isinstance(value, dict):
        for name in value:
            pair(name)
    return value
