"""Phrases about what can be seen or measured on the bench: colour, size, length, with their bounds."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

from harnessdoc.model.colours import ColourError, parse_colour
from harnessdoc.model.harness import Harness
from harnessdoc.model.quantities import QuantityError, Unit, format_area, format_length, parse_quantity, parse_size
from harnessdoc.registers.evidence import Evidence
from harnessdoc.registers.phrase import Phrase, Says
from harnessdoc.registers.pieces import Piece
from harnessdoc.tables.auto_cable import auto_mm2

SAME_SIZE: Final = 0.01
"""Sizes within one per cent are one size, by own choice: rounding of printed areas."""


def colour(text: str, harness: Harness) -> Phrase | None:
    try:
        wanted = parse_colour(text)
    except ColourError:
        return None

    def test(piece: Piece, _: Evidence) -> Says:
        known = [colour for colour in piece.colours if colour is not None]
        if any(one.base == wanted.base and set(wanted.tracers) <= set(one.tracers) for one in known):
            return Says(True)
        if len(known) == len(piece.colours):
            return Says(False)
        return Says(None, "its colour is not known", f"look at the colour of {piece.name}")

    return Phrase(f"{wanted.words}, whatever else is on it" if not wanted.tracers else wanted.words, test)


_BOUNDS: Final = (
    (("at least", "from", "min", "minimum", ">=", "≥"), "at least"),
    (("at most", "up to", "max", "maximum", "<=", "≤"), "at most"),
    (("more than", "over", "above", "thicker than", "longer than", ">"), "more than"),
    (("less than", "under", "below", "thinner than", "shorter than", "<"), "less than"),
)


def _bounded(text: str) -> tuple[str, str]:
    """The bound and what it bounds: `at least`, `1.5 mm2`; "" where there is none."""
    lower = text.casefold()
    for words, bound in _BOUNDS:
        for word in words:
            if lower.startswith(word) and (not word[-1].isalpha() or lower[len(word) :][:1] == " "):
                return bound, text[len(word) :].strip()
    return "", text


def _within(bound: str, value: float, limit: float, same: float) -> bool:
    margin = abs(limit) * same
    return {
        "at least": value >= limit - margin,
        "at most": value <= limit + margin,
        "more than": value > limit + margin,
        "less than": value < limit - margin,
        "": abs(value - limit) <= margin,
    }[bound]


def size(text: str, harness: Harness) -> Phrase | None:
    """`at least 1.5 mm2`, `14 AWG`, `1 to 2.5 mm2`."""
    bounds = _span(text, _area_mm2)
    if bounds is None:
        return None

    def test(piece: Piece, _: Evidence) -> Says:
        if piece.area_mm2 is None:
            what = "the room in" if piece.sort == "splice" else "the size of"
            return Says(None, piece.size_text, f"find out {what} {piece.name}")
        good = all(_within(bound, piece.area_mm2, limit, SAME_SIZE) for bound, limit in bounds)
        return Says(good, piece.size_text)

    return Phrase(" and ".join(f"{bound} {format_area(limit)}".strip() for bound, limit in bounds), test)


def length(text: str, harness: Harness) -> Phrase | None:
    """`at least 60 mm long`."""
    bounds = _span(re.sub(r" long$", "", text, flags=re.IGNORECASE), _length_mm)
    if bounds is None:
        return None

    def test(piece: Piece, _: Evidence) -> Says:
        if piece.sort == "splice":
            return Says(False)
        if piece.length_mm is None:
            return Says(None, "its length is not known", f"measure how long {piece.name} is")
        return Says(
            all(_within(b, piece.length_mm, limit, 0.001) for b, limit in bounds), format_length(piece.length_mm)
        )

    return Phrase(" and ".join(f"{bound} {format_length(limit)} long".strip() for bound, limit in bounds), test)


def _span(text: str, read: Callable[[str], float | None]) -> list[tuple[str, float]] | None:
    """One bound, or two from `1 to 2.5 mm2`; None where the text is no such quantity."""
    low, _, high = (part.strip() for part in re.sub(r"\s+to\s+|\.\.", "\0", text, count=1).partition("\0"))
    if high:
        top = read(high)
        bottom = read(low)
        if bottom is None:
            bottom = read(f"{low} {high.lstrip('0123456789. ')}")
        return None if top is None or bottom is None else [("at least", bottom), ("at most", top)]
    bound, rest = _bounded(text)
    value = read(rest)
    return None if value is None else [(bound, value)]


def _area_mm2(text: str) -> float | None:
    """A size; a bare number is one in mm², which the answer says."""
    try:
        if re.fullmatch(r"\d{1,3}(\.\d{1,3})?", text):
            text = f"{text} mm2"
        return parse_size(text, auto_mm2()).area_mm2
    except QuantityError:
        return None


def _length_mm(text: str) -> float | None:
    try:
        return parse_quantity(text, Unit.MM)
    except QuantityError:
        return None
