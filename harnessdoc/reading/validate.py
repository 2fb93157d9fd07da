"""Hold entries against their shapes; every fault becomes a problem with its place in the file."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import cache, partial
from typing import Any, TypeVar, cast

from pydantic import BaseModel
from pydantic_core import SchemaValidator, ValidationError, core_schema

from harnessdoc.model.kinds import Kind
from harnessdoc.reading.document import key_node, locate
from harnessdoc.reading.gather import Entry
from harnessdoc.reading.kind_shapes import kind_keys, kind_validator
from harnessdoc.reading.problems import Problem, meant
from harnessdoc.reading.shapes import ItemShape

S = TypeVar("S", bound=BaseModel)


@cache
def _named(shape: type[BaseModel]) -> SchemaValidator:
    """Validates a whole section, name to entity, in one call."""
    shape.model_rebuild()
    return SchemaValidator(core_schema.dict_schema(core_schema.str_schema(), shape.__pydantic_core_schema__))


def validate_all(shape: type[S], entries: dict[str, Entry], problems: list[Problem]) -> dict[str, S]:
    """The valid ones among the entries; the faults of the others go to `problems`, all of them."""
    values = {name: {} if entry.value is None else entry.value for name, entry in entries.items()}
    try:
        return cast("dict[str, S]", _named(shape).validate_python(values))
    except ValidationError as error:
        bad = set()
        for fault in error.errors(include_url=False):
            name, *path = fault["loc"]
            bad.add(str(name))
            problems.append(problem_of(entries[str(name)], tuple(path), fault, partial(keys_at, shape)))
        good = {name: value for name, value in values.items() if name not in bad}
        return cast("dict[str, S]", _named(shape).validate_python(good))


def validate_item(entry: Entry, kind: str, problems: list[Problem]) -> tuple[ItemShape, Kind] | None:
    """An item's common keys and its kind's own; None if either has a fault."""
    value = cast("dict[str, Any]", entry.value)
    before = len(problems)
    common = {key: part for key, part in value.items() if key in COMMON}
    shape = validate_all(ItemShape, {entry.name: replace(entry, value=common)}, problems).get(entry.name)
    own = {key: part for key, part in value.items() if key not in COMMON}
    made: Any = None
    try:
        made = kind_validator(kind).validate_python(own)
    except ValidationError as error:

        def keys(path: Iterable[int | str]) -> list[str]:
            inside = tuple(path)
            return [*kind_keys(kind, inside), *(() if inside else COMMON)]

        problems += [problem_of(entry, tuple(f["loc"]), f, keys) for f in error.errors(include_url=False)]
    return (shape, made) if shape is not None and len(problems) == before else None


COMMON = tuple(field.alias or name for name, field in ItemShape.model_fields.items())


def problem_of(
    entry: Entry, path: tuple[int | str, ...], fault: Any, keys: Callable[[Iterable[int | str]], list[str]]
) -> Problem:
    """One fault in our own words, at its node."""
    path = tuple(step for step in path if step != "*" and not (isinstance(step, str) and _machinery(step)))
    kind = fault["type"]
    if kind in ("extra_forbidden", "unexpected_keyword_argument"):
        *parents, name = path
        parent, _ = locate(entry.node, tuple(parents))
        node = key_node(parent, str(name)) or parent
        return entry.document.problem(
            node,
            f"{_trail(entry, parents)}{name!r} is no key here{meant(str(name), keys(parents))}",
        )
    if kind == "missing":
        *parents, name = path
        parent, _ = locate(entry.node, tuple(parents))
        node = parent if parents else entry.key
        return entry.document.problem(node, f"{_trail(entry, parents)}the key {name!r} is missing")
    node, whole = locate(entry.node, path)
    if not path:
        node = entry.node
    return entry.document.problem(node, f"{_trail(entry, path if whole or path else ())}{_words(fault)}")


def _machinery(step: str) -> bool:
    """Parts of a path that pydantic adds for unions and validators."""
    return step == "str" or (step.endswith(("Shape", "]")) and ("[" in step or step[:1].isupper()))


def _trail(entry: Entry, path: Iterable[int | str]) -> str:
    steps = [entry.name, *(f"entry {step + 1}" if isinstance(step, int) else step for step in path)]
    return ": ".join(_short(step) for step in steps) + ": "


def _short(text: str) -> str:
    clean = "".join(c if c.isprintable() else "?" for c in text)
    return clean if len(clean) <= 60 else clean[:57] + "..."


def _words(fault: Any) -> str:
    """What was expected, for the kinds of fault that our shapes can have."""
    context = fault.get("ctx", {})
    found = fault.get("input")
    shown = f", found {_short(repr(found))}" if isinstance(found, str) else ""
    kind = fault["type"]
    if "error" in context:
        return str(context["error"])
    if kind == "literal_error":
        wanted = str(context["expected"])
        words = [word.strip("'") for word in wanted.replace(" or ", ", ").split(", ") if word.strip("'")]
        hint = meant(found, words) if isinstance(found, str) else ""
        return f"expected {wanted}{shown}{hint if 'did you mean' in hint else ''}"
    expected = {
        "bool_parsing": "expected yes or no",
        "bool_type": "expected yes or no",
        "int_parsing": "expected a whole number",
        "int_type": "expected a whole number",
        "float_parsing": "expected a number",
        "float_type": "expected a number",
        "string_type": "expected a text",
        "list_type": "expected a list",
        "dict_type": "expected a group of keys",
        "model_type": "expected a group of keys",
        "dataclass_type": "expected a group of keys",
        "greater_than": f"expected more than {context.get('gt')}",
        "too_short": f"expected {context.get('min_length')} entries",
        "too_long": f"expected at most {context.get('max_length')} entries",
        "greater_than_equal": f"expected {context.get('ge')} or more",
        "less_than_equal": f"expected {context.get('le')} or less",
        "string_pattern_mismatch": "expected 3 to 12 capital letters and digits",
    }.get(kind, str(fault["msg"]).lower())
    return expected + shown


def keys_at(shape: type[BaseModel], path: Iterable[int | str]) -> list[str]:
    """The keys that a shape knows at a path inside it, as they are written in the file."""
    current: Any = shape
    for step in path:
        if isinstance(step, int):
            continue
        model = _model_in(current)
        if model is None:
            return []
        field = next((f for n, f in model.model_fields.items() if (f.alias or n) == step), None)
        current = field.annotation if field else current
    model = _model_in(current)
    return [f.alias or n for n, f in model.model_fields.items()] if model else []


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """The first model found in an annotation."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for part in getattr(annotation, "__args__", ()):
        found = _model_in(part)
        if found is not None:
            return found
    return None
