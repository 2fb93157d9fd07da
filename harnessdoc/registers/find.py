"""The search: which stub, tail or splice can serve, and which might, with what to measure first."""

from __future__ import annotations

from collections.abc import Sequence

from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness
from harnessdoc.model.record import record
from harnessdoc.registers.evidence import Evidence, Witness
from harnessdoc.registers.phrase import Phrase
from harnessdoc.registers.pieces import Piece, pieces
from harnessdoc.registers.query import read_query


@record(frozen=True)
class Found:
    """A piece that can serve, or might. `why`: what speaks for it; `open`: what is not known; `measure`: what to do.

    `unlikely`: how many of the phrases what is known rather speaks against."""

    piece: Piece
    sure: bool
    why: tuple[str, ...]
    open: tuple[str, ...]
    measure: tuple[str, ...]
    unlikely: int = 0


@record(frozen=True)
class Answer:
    """What was understood, what can serve, and what might. Free ones come first, then the likely, then those of
    which more is known."""

    understood: tuple[str, ...]
    can: tuple[Found, ...]
    might: tuple[Found, ...]


def find(harness: Harness, study: Study, text: str) -> Answer:
    """Answer a query such as `switched 12 V, at least 1.5 mm2, in X4`.

    Splices are looked through only where the query names a splice. Raises query.QueryError for what can't be read."""
    every = tuple(pieces(harness))
    phrases = read_query(text, harness, [piece.words for piece in every])
    if not any("splice" in phrase.text or phrase.text.removeprefix("in ") in harness.splices for phrase in phrases):
        every = tuple(piece for piece in every if piece.sort != "splice")
    witness = Witness(study)
    found = [one for piece in every if (one := _judge(piece, phrases, witness)) is not None]
    found.sort(key=lambda one: (not one.piece.free, one.unlikely, len(one.open) - len(one.why)))
    return Answer(
        tuple(phrase.text for phrase in phrases),
        tuple(one for one in found if one.sure),
        tuple(one for one in found if not one.sure),
    )


def _judge(piece: Piece, phrases: Sequence[Phrase], witness: Witness) -> Found | None:
    """None where a phrase says no. Evidence is gathered only for what no other phrase rules out."""
    if any(phrase.test(piece, _NONE).yes is False for phrase in phrases):
        return None
    evidence = witness.of(piece.point, piece.was_at)
    said = [phrase.test(piece, evidence) for phrase in phrases]
    if any(says.yes is False for says in said):
        return None
    return Found(
        piece,
        all(says.yes for says in said),
        tuple(dict.fromkeys(says.why for says in said if says.yes and says.why)),
        tuple(dict.fromkeys(says.why for says in said if says.yes is None)),
        tuple(dict.fromkeys(says.measure for says in said if says.measure)),
        sum(says.unlikely for says in said),
    )


_NONE = Evidence()
"""With it each phrase about electrics says `might`."""
