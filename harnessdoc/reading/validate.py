"""Hold entries against their shapes; every fault becomes a problem with its place in the file."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable, Iterable
from functools import cache
from typing import Any

from pydantic_core import SchemaValidator, ValidationError, core_schema

from harnessdoc.model.kinds import KINDS, Kind
from harnessdoc.reading.document import key_node, locate
from harnessdoc.reading.face_shape import FaceShape
from harnessdoc.reading.gather import Entry
from harnessdoc.reading.problems import Problem, meant
from harnessdoc.reading.schema import REST, group, keyed, keys_at
from harnessdoc.reading.shapes import GROUP, TEXT, EndShape, ItemShape, WireShape

_AFTER_COMMA = re.compile(r"\d+\s*[^\W\d]*\d?")
"""What is left of `2,5 mm2` in a group in braces, where the comma parts two keys."""
Path = tuple[int | str, ...]
COMMON = tuple(name for _, name in keyed(ItemShape))


@cache
def _section_of(shape: Any) -> SchemaValidator:
    """Validates a whole section, name to entity, in one call."""
    return SchemaValidator(core_schema.dict_schema(core_schema.str_schema(), group(shape)))


@cache
def _kind(kind: str) -> SchemaValidator:
    """Validates an item's own keys into its kind."""
    return SchemaValidator(group(KINDS[kind]))


def validate_all(shape: Any, entries: dict[str, Entry], problems: list[Problem]) -> dict[str, Any]:
    """The valid ones among the entries, as instances of the shape; all faults of the others go to `problems`."""
    values = {name: {} if entry.value is None else entry.value for name, entry in entries.items()}
    validator: SchemaValidator = _section_of(shape)
    try:
        found: dict[str, Any] = validator.validate_python(values)
    except ValidationError as error:
        bad = set()
        for fault in error.errors(include_url=False):
            name, *path = fault["loc"]
            bad.add(str(name))
            problems.append(_problem_of(entries[str(name)], tuple(path), fault, lambda at: _keys_of(shape, at)))
        found = validator.validate_python({name: value for name, value in values.items() if name not in bad})
    return found


def validate_item(entry: Entry, kind: str, problems: list[Problem]) -> tuple[ItemShape, Kind] | None:
    """An item's common keys and its kind's own; None if either has a fault. The entry's value is a group."""
    value: Any = entry.value
    before = len(problems)
    common = dataclasses.replace(entry, value={key: part for key, part in value.items() if key in COMMON})
    shape = validate_all(ItemShape, {entry.name: common}, problems).get(entry.name)
    made: Any = None
    try:
        made = _kind(kind).validate_python({key: part for key, part in value.items() if key not in COMMON})
    except ValidationError as error:
        for fault in error.errors(include_url=False):
            problems.append(_problem_of(entry, tuple(fault["loc"]), fault, lambda at: _item_keys(kind, at)))
    return (shape, made) if shape is not None and len(problems) == before else None


def _item_keys(kind: str, path: Path) -> list[str]:
    return [*keys_at(KINDS[kind], path), *(() if path else COMMON)]


def _keys_of(shape: Any, path: Path) -> list[str]:
    """Known keys at a path; faces, cores and ends are groups that no annotation tells of."""
    if path[:1] == ("cores",) and len(path) > 1:
        return _keys_of(WireShape, path[2:])
    if path[:1] == ("ends",):
        return keys_at(EndShape)
    return keys_at(FaceShape) if path == ("face",) else keys_at(shape, path)


def _problem_of(entry: Entry, path: Path, fault: Any, keys: Callable[[Path], list[str]]) -> Problem:
    """One fault in our own words, at its node."""
    path = tuple(step for step in path if step not in (REST, TEXT, GROUP))
    kind = fault["type"]
    if kind == "unexpected_keyword_argument":
        *parents, name = path
        parent, _ = locate(entry.node, tuple(parents))
        node = key_node(parent, str(name)) or parent
        hint = meant(str(name), keys(tuple(parents)))
        if _AFTER_COMMA.fullmatch(str(name)) and fault.get("input") is None:
            hint = "; if it follows a decimal comma: the decimal mark is a point, as in 2.5 mm2"
        return entry.document.problem(node, f"{_trail(entry, parents)}{_short(repr(name))} is no key here{hint}")
    if kind == "missing":
        *parents, name = path
        parent, _ = locate(entry.node, tuple(parents))
        node = parent if parents else entry.key
        return entry.document.problem(node, f"{_trail(entry, parents)}the key {name!r} is missing")
    node, _ = locate(entry.node, path)
    return entry.document.problem(node, f"{_trail(entry, path)}{_words(fault)}")


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
    shown = f", found {_short(repr(found))}" if isinstance(found, str) else ", found nothing" if found is None else ""
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
        "int_parsing_size": "expected a whole number",
        "float_parsing": "expected a number",
        "float_type": "expected a number",
        "string_type": "expected a text",
        "list_type": "expected a list",
        "dict_type": "expected a group of keys",
        "model_type": "expected a group of keys",
        "dataclass_type": "expected a group of keys",
        "greater_than": f"expected more than {context.get('gt')}",
        "too_short": f"expected {context.get('min_length')} entries; write unknown for one that is not known",
        "too_long": f"expected at most {context.get('max_length')} entries",
        "greater_than_equal": f"expected {context.get('ge')} or more",
        "less_than_equal": f"expected {context.get('le')} or less",
        "string_pattern_mismatch": "expected 3 to 12 capital letters and digits",
    }.get(kind, str(fault["msg"]).lower())
    return expected + shown
