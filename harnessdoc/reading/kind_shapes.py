"""The shape of each kind's own keys, derived from the kind's dataclass: a kind is described once, in the model.

The shapes are pydantic's core schemas, made by hand from the fields' metadata: they validate straight into the frozen
dataclass, and fifteen kinds cost a millisecond, where fifteen classes of models cost a tenth of a second."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Mapping
from functools import lru_cache
from types import NoneType, UnionType
from typing import Any, Literal, get_args, get_origin

from pydantic_core import CoreSchema, SchemaValidator, core_schema

from harnessdoc.model.kinds import KINDS
from harnessdoc.model.kinds.base import pair
from harnessdoc.reading.texts import quantity_reader, span_reader, words

REST = "*"
"""The key of a field that takes all keys not named by others."""


@lru_cache(maxsize=None)
def kind_validator(kind: str) -> SchemaValidator:
    """Validates a group of texts into the kind's dataclass."""
    return SchemaValidator(_group(KINDS[kind]))


def kind_keys(kind: str, path: tuple[int | str, ...] = ()) -> list[str]:
    """The keys that a kind knows, at a path inside it."""
    target: Any = KINDS[kind]
    for step in path:
        inner = {key: _dataclass_in(hint) for _, key, hint in _keyed(target)}
        target = inner.get(str(step)) or target
    return [key for _, key, _ in _keyed(target) if key != REST]


@lru_cache(maxsize=None)
def _keyed(target: Any) -> tuple[tuple[dataclasses.Field[Any], str, Any], ...]:
    """Fields of a dataclass with their keys and types."""
    hints = typing.get_type_hints(target)
    return tuple((field, field.metadata["key"], hints[field.name]) for field in dataclasses.fields(target))


def _dataclass_in(hint: Any) -> Any:
    if dataclasses.is_dataclass(hint):
        return hint
    return next(filter(None, map(_dataclass_in, get_args(hint))), None)


def _group(target: Any) -> CoreSchema:
    """A group of keys that makes a dataclass; no other keys, unless one field takes the rest."""
    fields = []
    for field, key, hint in _keyed(target):
        inner = _schema(hint, field.metadata["unit"], field.metadata["span"])
        if key == "contacts":
            inner = core_schema.no_info_before_validator_function(_contacts, inner)
        made = (
            core_schema.with_default_schema(inner, default_factory=dict)
            if field.default is dataclasses.MISSING
            else core_schema.with_default_schema(inner, default=field.default)
        )
        fields.append(core_schema.dataclass_field(field.name, made, validation_alias=key))
    arguments = core_schema.dataclass_args_schema(target.__name__, fields, extra_behavior="forbid")
    schema: CoreSchema = core_schema.dataclass_schema(target, arguments, [field.name for field, *_ in _keyed(target)])
    keys = {key for _, key, _ in _keyed(target)}
    if REST not in keys:
        return schema

    def gather(value: Any) -> Any:
        if not isinstance(value, dict):
            return value
        rest = {key: part for key, part in value.items() if key not in keys}
        return {**{key: part for key, part in value.items() if key in keys}, REST: rest}

    return core_schema.no_info_before_validator_function(gather, schema)


def _schema(hint: Any, unit: Any, ranged: bool) -> CoreSchema:
    """The core schema for a field of a kind, by its annotation and unit."""
    bare = _without_none(hint)
    if get_origin(bare) is Mapping:
        return core_schema.dict_schema(core_schema.str_schema(), _schema(get_args(bare)[1], unit, ranged))
    if unit is not None:
        return core_schema.no_info_plain_validator_function(span_reader(unit) if ranged else quantity_reader(unit))
    if dataclasses.is_dataclass(bare):
        return _group(bare)
    if get_origin(bare) is tuple:
        return core_schema.no_info_plain_validator_function(words)
    if get_origin(bare) is Literal:
        return core_schema.literal_schema(list(get_args(bare)))
    simple = {
        bool: core_schema.bool_schema(),
        int: core_schema.int_schema(ge=1, le=200),
        float: core_schema.float_schema(gt=0, allow_inf_nan=False),
        str: core_schema.str_schema(),
    }
    return simple[bare]


def _without_none(hint: Any) -> Any:
    if get_origin(hint) in (UnionType, typing.Union):
        parts = [part for part in get_args(hint) if part is not NoneType]
        return parts[0] if len(parts) == 1 else hint
    return hint


def _contacts(value: Any) -> Any:
    """Contacts are named by two terminals; a name of another form is said here, where its key is known."""
    if isinstance(value, dict):
        for name in value:
            pair(name)
    return value
