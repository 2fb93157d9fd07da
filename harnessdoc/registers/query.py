"""The search's language: phrases between commas, as in `switched 12 V, at least 1.5 mm2, in X4`; all must hold.

Each phrase becomes a test of a piece and its evidence that says yes, no, or might with what to measure. A new phrase
is a function in `PHRASES` with its examples."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

from harnessdoc.model.colours import ColourError, parse_colour
from harnessdoc.model.harness import Harness
from harnessdoc.model.quantities import (
    QuantityError,
    Unit,
    format_area,
    format_length,
    format_volts,
    parse_quantity,
    parse_size,
)
from harnessdoc.registers.evidence import Evidence
from harnessdoc.registers.pieces import Piece
from harnessdoc.tables.auto_cable import auto_mm2

LONGEST, MOST_PHRASES = 300, 20
LEAST_SHARE, MOST_SHARE = 0.85, 1.25
"""`12 V` is 10.2 to 15 V on a vehicle, engine off to charging. Common practice, no source."""
SAME_SIZE: Final = 0.01
"""Sizes within one per cent are one size, by own choice: rounding of printed areas."""


class QueryError(ValueError):
    """A query that can't be read; the text says which phrase, and what can be asked."""


class Says(NamedTuple):
    """What a phrase says of a piece. `yes` None: it might; then `measure` is what would tell. `why`: in words.

    `unlikely`: what is known rather speaks against it."""

    yes: bool | None
    why: str = ""
    measure: str = ""
    unlikely: bool = False


Test = Callable[[Piece, Evidence], Says]


class Phrase(NamedTuple):
    """A phrase as understood, and its test."""

    text: str
    test: Test


Reader = Callable[[str, Harness], Phrase | None]


def read_query(text: str, harness: Harness, known_words: Sequence[str] = ()) -> tuple[Phrase, ...]:
    """Read all phrases. `known_words`: the words of all pieces; a phrase that is nothing else may be among them.

    Raises QueryError for an empty query, one that is too long, and one with a phrase that says nothing here."""
    parts = [" ".join(part.split()) for part in re.split(r"[,;\n]", text) if part.strip()]
    if not parts:
        raise QueryError(f"nothing is asked; {can_be_asked()}")
    if len(text) > LONGEST or len(parts) > MOST_PHRASES:
        raise QueryError(f"ask with {LONGEST} letters and {MOST_PHRASES} phrases at most")
    return tuple(phrase for part in parts for phrase in _read(part, harness, known_words))


def can_be_asked() -> str:
    """What can be asked, with an example each."""
    return f"ask with phrases between commas, such as {', '.join(example for _, example in PHRASES)}"


def _read(part: str, harness: Harness, known_words: Sequence[str]) -> list[Phrase]:
    """One part; where it is no phrase as a whole, several without commas, as in `yellow 1 mm2 in X4`."""
    found = _several(part.split(" "), harness)
    if found is not None:
        return found
    whole = part.casefold()
    if any(whole in words for words in known_words):
        return [_text(part)]
    raise QueryError(f"{part!r:.80} says nothing of a stub, a tail or a splice here; {can_be_asked()}")


def _several(words: list[str], harness: Harness) -> list[Phrase] | None:
    while words and words[0].casefold() in _FILLERS:
        words = words[1:]
    for count in range(len(words), 0, -1):
        phrase = _one(" ".join(words[:count]), harness)
        if phrase is not None:
            rest = _several(words[count:], harness) if count < len(words) else []
            if rest is not None:
                return [phrase, *rest]
    return None


_FILLERS: Final = frozenset({"a", "an", "and", "is", "of", "that", "the", "which", "wire", "with"})


def _one(text: str, harness: Harness) -> Phrase | None:
    found = next((phrase for read, _ in PHRASES if (phrase := read(text, harness)) is not None), None)
    if found is None and text.casefold().startswith("not "):
        phrase = _one(text[4:].strip(), harness)
        found = None if phrase is None else Phrase(f"not {phrase.text}", _inverted(phrase.test))
    return found


def _inverted(test: Test) -> Test:
    def inverse(piece: Piece, evidence: Evidence) -> Says:
        says = test(piece, evidence)
        return says if says.yes is None else Says(not says.yes, says.why)

    return inverse


# --- what it is, where it is


def _sort(text: str, harness: Harness) -> Phrase | None:
    sort = {"joint": "splice"}.get(word := text.casefold().removesuffix("s"), word)
    if sort not in ("stub", "tail", "splice"):
        return None
    return Phrase(f"a {sort}", lambda piece, _: Says(piece.sort == sort))


def _place(text: str, harness: Harness) -> Phrase | None:
    """`in X4`, `at cab`, `X4:3`: a plug, a cavity, a place or a splice by its name."""
    wanted = re.sub(r"^(in|at|on|from) ", "", text, flags=re.IGNORECASE).strip().casefold()
    for name in (*harness.plugs, *(str(point) for point in harness.stubs), *harness.splices, *harness.places):
        if name.casefold() == wanted:
            return Phrase(f"in {name}", _is_at(name))
    return None


def _is_at(name: str) -> Test:
    def test(piece: Piece, _: Evidence) -> Says:
        names = (piece.plug, piece.place, piece.name, str(piece.was_at or ""), str(piece.point or ""))
        return Says(name in names, "")

    return test


# --- colour, size, length


def _colour(text: str, harness: Harness) -> Phrase | None:
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


def _size(text: str, harness: Harness) -> Phrase | None:
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


def _length(text: str, harness: Harness) -> Phrase | None:
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


# --- whether it can be had


def _state(text: str, harness: Harness) -> Phrase | None:
    """`free`, `capped`, `not capped`, `reused`."""
    word = text.casefold()
    if word in ("free", "unused", "spare", "available"):
        return Phrase("free", lambda piece, _: Says(piece.free))
    if word in ("reused", "used", "in use", "joined"):
        return Phrase("reused", lambda piece, _: Says(not piece.free if piece.sort != "splice" else True))
    if word in ("capped", "not capped", "uncapped", "bare"):
        return Phrase("capped" if word == "capped" else "not capped", _capped(word == "capped"))
    return None


def _capped(wanted: bool) -> Test:
    def test(piece: Piece, _: Evidence) -> Says:
        if not piece.loose:
            return Says(False, "it is joined")
        if piece.capped is None:
            return Says(None, "whether it is capped nobody says", f"look whether {piece.name} is capped")
        return Says(piece.capped is wanted)

    return test


# --- what it offers


_NATURES: Final = {
    "ground": "ground", "earth": "ground", "return": "ground", "negative": "ground", "chassis": "ground",
    "minus": "ground", "grounded": "ground", "constant": "constant", "always live": "constant",
    "permanent": "constant", "unswitched": "constant", "constant live": "constant", "switched": "switched",
    "switched live": "switched", "live": "live", "supply": "live", "fed": "live", "feed": "live", "dead": "dead",
}  # fmt: skip
_MEASURE: Final = {
    "ground": "with the supply off, read ohms from {at} to the chassis: under 1 ohm, leads deducted",
    "constant": "read volts from {at} to the chassis, a 21 W lamp across, with every switch on and with every switch "
    "but the isolator off",
    "switched": "read volts from {at} to the chassis, a 21 W lamp across, with each switch on and with it off",
    "live": "read volts from {at} to the chassis, a 21 W lamp across, with each switch on and with it off",
    "dead": "read volts from {at} to the chassis with each switch on",
}
_FITS: Final = {
    "ground": {"ground"},
    "constant": {"constant"},
    "switched": {"switched"},
    "live": {"constant", "switched", "live"},
    "dead": {"dead"},
}


def _nature(text: str, harness: Harness) -> Phrase | None:
    wanted = _NATURES.get(text.casefold())
    if wanted is None:
        return None

    def test(piece: Piece, evidence: Evidence) -> Says:
        measure = _MEASURE[wanted].format(at=_lead(piece))
        if evidence.nature in _FITS[wanted]:
            return Says(True, evidence.why)
        if evidence.nature == "live" and wanted in ("constant", "switched"):
            return Says(None, f"{evidence.why}; whether that is switched nobody has measured", measure)
        if evidence.nature is not None:
            return Says(False, evidence.why)
        return _before(evidence, _FITS[wanted] | ({"live"} if wanted in ("constant", "switched") else set()), measure)

    return Phrase(wanted, test)


def _volts(text: str, harness: Harness) -> Phrase | None:
    """`12 V`: within LEAST_SHARE and MOST_SHARE of it."""
    try:
        asked = parse_quantity(text, Unit.VOLT)
    except QuantityError:
        return None
    if asked <= 0:
        return None

    def fits(volts: float | None) -> bool:
        return volts is not None and LEAST_SHARE * asked <= volts <= MOST_SHARE * asked

    def test(piece: Piece, evidence: Evidence) -> Says:
        if evidence.nature is not None:
            return Says(fits(evidence.volts), evidence.why)
        if evidence.before in _FITS["live"] and not fits(evidence.volts_before):
            return Says(False, f"before the cut: {evidence.why_before}")
        return _before(evidence, _FITS["live"], _MEASURE["live"].format(at=_lead(piece)))

    return Phrase(f"{format_volts(LEAST_SHARE * asked, 3)} to {format_volts(MOST_SHARE * asked, 3)}", test)


def _before(evidence: Evidence, fitting: set[str], measure: str) -> Says:
    """What was measured before the cut makes it likely or unlikely, no more: the halves are apart now, a low resistance
    may have been a load's, and no voltage may have been for want of the right position."""
    if evidence.before is None:
        return Says(None, evidence.silent or "nothing is known of it", measure)
    why = f"before the cut it was {evidence.why_before}"
    if evidence.before in fitting:
        return Says(None, f"{why}; which half that came from must be seen", measure)
    return Says(None, f"{why}, which speaks against it", measure, unlikely=True)


def _lead(piece: Piece) -> str:
    return f"the end of {piece.name.split(',')[0]}" if piece.sort == "tail" else piece.name


def _drive(text: str, harness: Harness) -> Phrase | None:
    """`high side`, `low side`: which side was driven."""
    side = text.casefold().replace("-", " ").removesuffix(" drive").removesuffix(" driver")
    if side not in ("high side", "low side"):
        return None

    def test(piece: Piece, _: Evidence) -> Says:
        if piece.sort == "splice":
            return Says(False)
        if piece.drive is None:
            return Says(None, "which side was driven nobody says", f"find out which side {piece.name} drove")
        return Says(piece.drive == side, f"{piece.drive} was driven")

    return Phrase(side, test)


def _did(text: str, harness: Harness) -> Phrase | None:
    """`did pump`: the words stand in what it did, its legend, its circuits, its wires or remarks."""
    match = re.fullmatch(r"(?:did|was|for|about) (.+)", text, re.IGNORECASE)
    return _text(match[1]) if match else None


def _text(text: str) -> Phrase:
    wanted = text.casefold().split()

    def test(piece: Piece, _: Evidence) -> Says:
        return Says(all(word in piece.words for word in wanted))

    return Phrase(f"about {text!r}", test)


PHRASES: Final[tuple[tuple[Reader, str], ...]] = (
    (_sort, "`stub`, `tail` or `splice`"),
    (_state, "`free`, `reused`, `capped`, `not capped`"),
    (_nature, "`switched`, `constant`, `live`, `ground`, `dead`"),
    (_volts, "`12 V`"),
    (_size, "`at least 1.5 mm2`, `1 to 2.5 mm2`"),
    (_length, "`at least 60 mm long`"),
    (_place, "`in X4` (a plug, cavity or place)"),
    (_drive, "`high side`"),
    (_colour, "`yellow`"),
    (_did, "`did pump relay`"),
)
"""How each phrase is read, and how to ask for it. The order matters: what is read first is taken."""
