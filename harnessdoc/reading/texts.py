"""Readers of single values: each takes what stands in the file and gives a value of the model, or says what was wanted.

A reader raises ValueError (or a subclass with its own words); None stands for `unknown`."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from typing import Any

from harnessdoc.model.colours import parse_colour
from harnessdoc.model.hardware import parse_hardware
from harnessdoc.model.points import Point, parse_point
from harnessdoc.model.quantities import Unit, parse_quantity, parse_range, parse_size
from harnessdoc.tables.auto_cable import auto_mm2

UNKNOWN = frozenset({"unknown", "?"})
MAYBE_UNKNOWN = frozenset("uU? \t")
"""First letters that a word of ignorance can have: most texts are told from it by one look."""
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")

KEPT = 10_000
"""Texts of one sort whose values are kept: a harness says `2.5 mm2` a thousand times."""

Reader = Callable[[Any], Any]


def text_of(value: Any, wanted: str) -> str:
    """The value if it is a text; else ValueError saying what was wanted."""
    if isinstance(value, str):
        return value
    found = "a group of keys" if isinstance(value, dict) else "a list" if isinstance(value, list) else "nothing"
    raise ValueError(f"expected {wanted}, found {found}")


def nothing_if_unknown(value: Any) -> Any:
    """None for the word of ignorance, else the value."""
    if isinstance(value, str) and value[:1] in MAYBE_UNKNOWN and value.strip().lower() in UNKNOWN:
        return None
    return value


def reader(read: Callable[[str], Any], wanted: str, *, unknown: bool = True) -> Reader:
    """A reader of texts. `wanted` completes "expected ..."; with `unknown` the word for ignorance gives None."""

    read_before: dict[str, Any] = {}

    def validate(value: Any) -> Any:
        text = text_of(value, wanted)
        if text in read_before:
            return read_before[text]
        found = None if unknown and nothing_if_unknown(text) is None else read(text)
        if len(read_before) < KEPT:
            read_before[text] = found
        return found

    validate.__doc__ = wanted
    return validate


def quantity(unit: Unit, *, allow_zero: bool = False, allow_negative: bool = False) -> Reader:
    """Reads a figure with its unit, into the base unit."""

    def read(text: str) -> float:
        return parse_quantity(text, unit, allow_zero=allow_zero, allow_negative=allow_negative)

    return reader(read, f"{unit.noun} with its unit, as in {unit.sample}")


def span(unit: Unit) -> Reader:
    """Reads a range of figures with their unit."""
    return reader(lambda text: parse_range(text, unit), f"{unit.noun} or a range, as in 3.5..4 {unit.base}")


def words(value: Any) -> tuple[str, ...]:
    """Reads one text or a list of texts."""
    parts = value if isinstance(value, list) else [text_of(value, "a text or a list of texts")]
    return tuple(text_of(part, "a text") for part in parts)


def some_words(count: int) -> Reader:
    """Reads a list of just so many texts, no two the same."""

    def read(value: Any) -> tuple[str, ...]:
        found = words(value)
        if len(set(found)) != count or len(found) != count:
            raise ValueError(f"expected {count} different texts, found {', '.join(map(repr, found)) or 'none'}")
        return found

    return read


def known_words(value: Any) -> tuple[str, ...]:
    """Reads one text or a list of texts; `unknown` names nothing."""
    return tuple(word for word in words(value) if nothing_if_unknown(word) is not None)


def _date(text: str) -> str:
    """A day of the calendar, written as ISO 8601 writes it."""
    written = text.strip()
    try:
        there = bool(_DATE.fullmatch(written)) and datetime.date.fromisoformat(written) is not None
    except ValueError:
        there = False
    if not there:
        raise ValueError(f"{text!r} is no date; write it as 2026-10-11")
    return written


def _not_empty(text: str) -> str:
    if not text.strip():
        raise ValueError("expected a text, found nothing")
    return text


def _landing(text: str) -> Point | str:
    return "tail" if text.strip().lower() == "tail" else parse_point(text)


def _address(text: str) -> str:
    if not re.match(r"https?://[^/\s]", text, re.IGNORECASE):
        raise ValueError(f"{text!r} is no address; write it as https://records.example/os-01")
    return text


address = reader(_address, "an address, as in https://records.example/os-01")
size = reader(lambda text: parse_size(text, auto_mm2()), "a size, as in 2.5 mm2, 14 AWG or 6 mm auto")
area = reader(lambda text: parse_size(text, auto_mm2()).area_mm2, "an area, as in 6 mm2")
length = quantity(Unit.MM)
colour = reader(parse_colour, "a colour, as in red, red/black, RD/BK or rt/sw")
point = reader(parse_point, "a point, as in X4:3, or a splice's name", unknown=False)
landing = reader(_landing, "a point (X4:3), a splice's name, tail or unknown")
hardware = reader(parse_hardware, "end hardware, as in tab 6.3, ring M6, ferrule or cap")
date = reader(_date, "a date, as in 2026-10-11", unknown=False)
name = reader(_not_empty, "a text", unknown=False)
known = reader(lambda text: text, "a text")
