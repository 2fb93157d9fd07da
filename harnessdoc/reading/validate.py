"""Hold entries against their shapes; every fault becomes a problem with its place in the file."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any, TypeVar

from pydantic import BaseModel, TypeAdapter, ValidationError

from harnessdoc.reading.document import key_node, locate
from harnessdoc.reading.gather import Entry
from harnessdoc.reading.problems import Problem, meant

S = TypeVar("S", bound=BaseModel)


@cache
def _adapter(shape: type[BaseModel]) -> TypeAdapter[dict[str, Any]]:
    return TypeAdapter(dict[str, shape])  # type: ignore[valid-type]


def validate_all(shape: type[S], entries: dict[str, Entry], problems: list[Problem]) -> dict[str, S]:
    """The valid ones among the entries; the faults of the others go to `problems`, all of them."""
    values = {name: {} if entry.value is None else entry.value for name, entry in entries.items()}
    try:
        return _adapter(shape).validate_python(values)
    except ValidationError as error:
        bad = set()
        for fault in error.errors(include_url=False):
            name, *path = fault["loc"]
            bad.add(str(name))
            problems.append(problem_of(entries[str(name)], tuple(path), fault, shape))
        good = {name: value for name, value in values.items() if name not in bad}
        return _adapter(shape).validate_python(good)


def problem_of(entry: Entry, path: tuple[int | str, ...], fault: Any, shape: type[BaseModel]) -> Problem:
    """One fault in our own words, at its node."""
    path = tuple(step for step in path if step != "*" and not (isinstance(step, str) and _machinery(step)))
    kind = fault["type"]
    if kind == "extra_forbidden":
        *parents, name = path
        parent, _ = locate(entry.node, tuple(parents))
        node = key_node(parent, str(name)) or parent
        return entry.document.problem(
            node,
            f"{_trail(entry, parents)}{name!r} is no key here{meant(str(name), keys_at(shape, parents))}",
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
