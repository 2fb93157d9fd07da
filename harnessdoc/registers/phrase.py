"""What a phrase of a search is: a test that says yes, no, or might, with what to measure. Knows no words of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from harnessdoc.model.harness import Harness
from harnessdoc.registers.evidence import Evidence
from harnessdoc.registers.pieces import Piece


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
