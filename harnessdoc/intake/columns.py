"""Columns told by their headings, in English or German words, with a unit in the heading where there is one.

Only what is known is matched; the rest is listed, never guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.intake.problems import IntakeError, told
from harnessdoc.intake.table import Row, Sheet

UNITS: Final = {
    "mm2": "mm2", "qmm": "mm2", "sqmm": "mm2", "mm^2": "mm2", "awg": "AWG", "mm": "mm", "cm": "cm", "m": "m",
    "in": "in", "inch": "in", "ft": "ft", "v": "V", "volt": "V", "ohm": "ohm", "ω": "ohm", "kohm": "kohm", "kω": "kohm",
}  # fmt: skip
_BRACKETS: Final = re.compile(r"[\[(]\s*([^\])]*?)\s*[\])]")
_NUMBER: Final = re.compile(r"[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)")
_COMMA: Final = re.compile(r"(?<=\d),(?=\d)|^,(?=\d)")


@dataclass(frozen=True)
class Column:
    """A column that is known: its key, its headings, and the unit of bare numbers in it."""

    key: str
    headings: tuple[str, ...]
    unit: str = ""
    number: bool = False


@dataclass(frozen=True)
class Matched:
    """Which column of a sheet is what. `units`: by key, "" where none is stated."""

    at: dict[str, int]
    units: dict[str, str]
    unmatched: tuple[tuple[int, str], ...]
    numbers: frozenset[str]

    def cell(self, row: Row, key: str) -> str:
        """What stands in a row under a key, with the heading's unit where it is a bare number; "" if nothing."""
        place = self.at.get(key)
        text = row.cells[place] if place is not None and place < len(row.cells) else ""
        if key not in self.numbers or not text:
            return text
        text = _COMMA.sub(".", text) if _NUMBER.match(text) and not re.search(r",\d{3}(?!\d)", text) else text
        return f"{text} {self.units[key]}" if self.units[key] and _NUMBER.fullmatch(text) else text

    def preview(self, sheet: Sheet) -> list[str]:
        """One line for each column: its heading, and what it was taken for."""
        by_place = {place: key for key, place in self.at.items()}
        lines = []
        for place, heading in enumerate(sheet.headings):
            key = by_place.get(place)
            unit = f", bare numbers in {self.units[key]}" if key and self.units[key] else ""
            taken = (
                f"{key}{unit}" if key else "not taken: no heading that is known" if heading else "not taken: no heading"
            )
            lines.append(f"  {told(heading)} -> {taken}")
        return lines


def normal(heading: str) -> tuple[str, str]:
    """A heading as words in small letters, and the unit it states: `Länge [mm]` gives ("länge", "mm")."""
    text, unit = heading.casefold().replace("²", "2").replace("\u2126", "ω"), ""
    for inside in _BRACKETS.findall(text):
        unit = unit or UNITS.get(inside.removeprefix("in "), "")
    words = re.findall(r"[\w^+]+", _BRACKETS.sub(" ", text))
    if len(words) > 1 and words[-1] in UNITS:
        unit = unit or UNITS[words.pop()]
        if words[-1:] == ["in"]:
            words.pop()
    return " ".join(words), unit


def match(sheet: Sheet, columns: Sequence[Column], needed: Iterable[str]) -> Matched:
    """Match a sheet's headings. Raises IntakeError where two say the same or a needed one is missing."""
    known = {normal(heading)[0]: column for column in columns for heading in (column.key, *column.headings)}
    at: dict[str, int] = {}
    units: dict[str, str] = {}
    unmatched, faults = [], []
    for place, heading in enumerate(sheet.headings):
        words, unit = normal(heading)
        column = known.get(words)
        if column is None:
            unmatched.append((place, heading))
        elif column.key in at:
            first = sheet.headings[at[column.key]]
            faults.append(f"{sheet.name}: two columns are {column.key}: {told(first)} and {told(heading)}")
        else:
            at[column.key], units[column.key] = place, unit or column.unit
    missing = [key for key in needed if key not in at]
    by_key = {column.key: column for column in columns}
    faults += [
        f"{sheet.name}: no column is {key}; known headings: {', '.join(by_key[key].headings[:4])}" for key in missing
    ]
    if faults:
        raise IntakeError([*faults, f"headings: {', '.join(map(told, sheet.headings))}"])
    numbers = frozenset(column.key for column in columns if column.number)
    return Matched(at, units, tuple(unmatched), numbers)
