"""From a frozen dataclass to the schema that validates a group of keys straight into it.

Shapes of the file and kinds of items are both dataclasses whose fields name their keys; the schemas are pydantic's own
core schemas, made from the fields. So each key is described once, and a command that only checks starts fast (fifteen
classes of pydantic models cost it a tenth of a second more). Knows no section and no kind."""

from __future__ import annotations

import dataclasses
import sys
import typing
from collections.abc import Callable, Mapping
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, get_args, get_origin

from pydantic_core import CoreSchema, core_schema

from harnessdoc.model.kinds.base import pair
from harnessdoc.reading.texts import Reader, nothing_if_unknown, quantity, some_words, span, words

REST = "*"
"""The key of a field that takes all keys not named by others."""


def at_key(
    name: str,
    read: Reader | None = None,
    *,
    default: Any = None,
    required: bool = False,
    schema: Callable[[], CoreSchema] | None = None,
    about: str = "",
) -> Any:
    """A field of a shape: its key in the file, and a reader or schema where its type alone does not tell."""
    metadata = {"key": name, "unit": None, "span": False, "read": read, "schema": schema, "about": about}
    if required:
        return dataclasses.field(kw_only=True, metadata=metadata)
    if isinstance(default, dict):
        return dataclasses.field(default_factory=dict, kw_only=True, metadata=metadata)
    return dataclasses.field(default=default, kw_only=True, metadata=metadata)


@cache
def keyed(target: Any) -> tuple[tuple[dataclasses.Field[Any], str], ...]:
    """Fields of a dataclass with their keys."""
    return tuple((field, field.metadata["key"]) for field in dataclasses.fields(target))


def _hint(target: Any, field: dataclasses.Field[Any]) -> Any:
    """The type that a field is annotated with. Only asked for where no reader is named: reading all the annotations
    of all shapes costs every start more than reading a small harness."""
    return _evaluated(field.type, target.__module__) if isinstance(field.type, str) else field.type


@cache
def _evaluated(annotation: str, module: str) -> Any:
    return eval(annotation, vars(sys.modules[module]))


def group(target: Any) -> CoreSchema:
    """A group of keys that makes the dataclass; no other keys, unless one field takes the rest."""
    fields = []
    for field, name in keyed(target):
        inner = _of_field(target, field, name)
        if field.default is not dataclasses.MISSING:
            inner = core_schema.with_default_schema(inner, default=field.default)
        elif field.default_factory is not dataclasses.MISSING:
            inner = core_schema.with_default_schema(inner, default_factory=field.default_factory)
        fields.append(core_schema.dataclass_field(field.name, inner, validation_alias=name))
    arguments = core_schema.dataclass_args_schema(target.__name__, fields, extra_behavior="forbid")
    schema: CoreSchema = core_schema.dataclass_schema(target, arguments, [field.name for field, _ in keyed(target)])
    keys = {name for _, name in keyed(target)}
    if REST not in keys:
        return schema

    def gather(value: Any) -> Any:
        if not isinstance(value, dict):
            return value
        rest = {name: part for name, part in value.items() if name not in keys}
        return {**{name: part for name, part in value.items() if name in keys}, REST: rest}

    return core_schema.no_info_before_validator_function(gather, schema)


def keys_at(target: Any, path: tuple[int | str, ...] = ()) -> list[str]:
    """The keys that a dataclass's group knows, at a path of keys inside it."""
    for step in path:
        if not isinstance(step, int):
            inner = {
                name: field.metadata.get("group") or _dataclass_in(_hint(target, field))
                for field, name in keyed(target)
            }
            target = inner.get(step) or target
    return [name for _, name in keyed(target) if name != REST]


def _of_field(target: Any, field: dataclasses.Field[Any], name: str) -> CoreSchema:
    if field.metadata.get("schema") is not None:
        made: CoreSchema = field.metadata["schema"]()
        return made
    if field.metadata.get("read") is not None:
        return core_schema.no_info_plain_validator_function(field.metadata["read"])
    if field.metadata.get("count") is not None:
        return core_schema.no_info_plain_validator_function(some_words(field.metadata["count"]))
    if field.metadata.get("bounds") is not None:
        least, most = field.metadata["bounds"]
        return core_schema.int_schema(ge=least, le=most)
    schema = of_type(_hint(target, field), field.metadata["unit"], field.metadata["span"])
    return core_schema.no_info_before_validator_function(_contacts, schema) if name == "contacts" else schema


def of_type(hint: Any, unit: Any = None, ranged: bool = False) -> CoreSchema:
    """The schema for an annotation; `unit` makes it a quantity, `ranged` a range of them.

    What may be None may be `unknown` in the file."""
    bare = _without_none(hint)
    schema = _of_bare(bare, unit, ranged)
    if bare is hint or unit is not None or "unknown" in get_args(bare):
        return schema
    return core_schema.no_info_before_validator_function(nothing_if_unknown, core_schema.nullable_schema(schema))


def _of_bare(bare: Any, unit: Any, ranged: bool) -> CoreSchema:
    if get_origin(bare) is Mapping:
        return core_schema.dict_schema(core_schema.str_schema(), of_type(get_args(bare)[1], unit, ranged))
    if unit is not None:
        return core_schema.no_info_plain_validator_function(span(unit) if ranged else quantity(unit))
    if dataclasses.is_dataclass(bare):
        return group(bare)
    if get_origin(bare) is tuple:
        return core_schema.no_info_plain_validator_function(words)
    if get_origin(bare) is Literal:
        return core_schema.literal_schema(list(get_args(bare)))
    simple: dict[Any, CoreSchema] = {
        bool: core_schema.bool_schema(),
        int: core_schema.int_schema(ge=1, le=200),
        float: core_schema.float_schema(gt=0, allow_inf_nan=False),
        str: core_schema.str_schema(),
    }
    return simple[bare]


def two(schema: CoreSchema) -> CoreSchema:
    """A list of exactly two."""
    return core_schema.list_schema(schema, min_length=2, max_length=2)


def texts(read: Reader) -> CoreSchema:
    """A schema for one value that a reader reads."""
    return core_schema.no_info_plain_validator_function(read)


def _without_none(hint: Any) -> Any:
    if get_origin(hint) in (UnionType, typing.Union):
        parts = [part for part in get_args(hint) if part is not NoneType]
        return parts[0] if len(parts) == 1 else hint
    return hint


def _dataclass_in(hint: Any) -> Any:
    if dataclasses.is_dataclass(hint):
        return hint
    return next(filter(None, map(_dataclass_in, get_args(hint))), None)


def _contacts(value: Any) -> Any:
    """Contacts are named by two terminals; a name of another form is said here, where its key is known."""
    if isinstance(value, dict):
        for name in value:
            pair(name)
    return value
