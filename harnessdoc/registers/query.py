"""The search's language: phrases between commas, as in `switched 12 V, at least 1.5 mm2, in X4`; all must hold.

Each phrase becomes a test of a piece and its evidence that says yes, no, or might with what to measure. A new phrase
is a function in `PHRASES` with its examples."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from harnessdoc.model.harness import Harness
from harnessdoc.registers.evidence import Evidence
from harnessdoc.registers.measures import colour, length, size
from harnessdoc.registers.offers import drive, nature, volts
from harnessdoc.registers.phrase import Phrase, Reader, Says, Test
from harnessdoc.registers.pieces import Piece

LONGEST, MOST_PHRASES = 300, 20


class QueryError(ValueError):
    """A query that can't be read; the text says which phrase, and what can be asked."""


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
    (nature, "`switched`, `constant`, `live`, `ground`, `dead`"),
    (volts, "`12 V`"),
    (size, "`at least 1.5 mm2`, `1 to 2.5 mm2`"),
    (length, "`at least 60 mm long`"),
    (_place, "`in X4` (a plug, cavity or place)"),
    (drive, "`high side`"),
    (colour, "`yellow`"),
    (_did, "`did pump relay`"),
)
"""How each phrase is read, and how to ask for it. The order matters: what is read first is taken."""
