"""Texts put into rows of given widths, so that as little as possible is lost: wrapped, set closer, two on a row.

Measures in heights of capitals. Knows no label, no symbol and no millimetres.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Final, NamedTuple

from harnessdoc.labels.label import Field
from harnessdoc.sheet import lettering

# Own choice, what each costs. Below LOST nothing is missing on the label.
LOST: Final = 100
_PLAIN, _TIGHT, _WRAPPED, _JOINED = 1, 2, 4, 8
_CUT, _LESS, _OMITTED = 2 * LOST, 3 * LOST, 3 * LOST  # times a field's weight
_LESS_VITAL, _CUT_VITAL, _OMITTED_VITAL = 20 * LOST, 50 * LOST, 80 * LOST
_MOST_ROWS: Final = 3  # own choice: a text is broken into no more
_GAP: Final = 0.9  # own choice: between two texts on a row
_LEAST_CUT: Final = 4.0  # own choice: what has less room is left out, not shortened
_TO_CUT: Final = -1.0
_SLACK: Final = 1e-9
# No break between a figure and its unit, nor after an arrow, nor in "plug side".
_BREAK: Final = re.compile(r"(?<=[^→]) (?!(?:mm²|mm|AWG|A|V|W|m|side)(?![A-Za-z]))")


class Piece(NamedTuple):
    """A text on a row. `x`: where it starts, in heights; `bold`: how it is set."""

    row: int
    x: float
    text: str
    bold: bool = False


class Flow(NamedTuple):
    """How texts went into rows. `cost`: what was lost and how; `shortened`, `left_out`: full texts."""

    pieces: tuple[Piece, ...]
    cost: int
    shortened: tuple[str, ...]
    left_out: tuple[str, ...]


class _Way(NamedTuple):
    """One way of setting a field: what it costs, its pieces, and where the next one may start."""

    cost: int
    pieces: tuple[Piece, ...]
    row: int
    used: float
    lost: int = 0


_Answer = tuple[int, tuple[_Way, ...]]
_KEPT, _SHORTENED, _LEFT_OUT = 0, 1, 2


def flow(fields: Sequence[Field], widths: Sequence[float], whole: bool = False) -> Flow:
    """Put fields, most wanted first, into rows of these widths (heights of capitals), at the least cost.

    The first field is set bold where it has room. Rows may stay empty at the end. `whole`: a text that goes in
    neither in full nor as its `less` is left out, never cut.
    """
    if plain := _one_a_row(fields, widths):
        return plain
    known: dict[tuple[int, int, float], _Answer] = {}

    def best(at: int, row: int, used: float) -> _Answer:
        if at == len(fields):
            return 0, ()
        key = (at, row, used)
        if key not in known:
            known[key] = _best_of(at, row, used)
        return known[key]

    def _best_of(at: int, row: int, used: float) -> _Answer:
        found: _Answer | None = None
        for way in _ways(fields[at], at == 0, row, used, widths):
            if whole and way.pieces and way.pieces[0].x == _TO_CUT:
                continue
            if found is not None and way.cost >= found[0]:
                continue
            rest, ways = best(at + 1, way.row, way.used)
            if found is None or way.cost + rest < found[0]:
                found = way.cost + rest, (way, *ways)
                if rest == 0 and way.cost == 0:
                    break
        assert found is not None  # a field can always be left out
        return found

    cost, ways = best(0, 0, 0.0)
    pieces = tuple(_shortened(piece, widths) for way in ways for piece in way.pieces)
    lost = list(zip(fields, ways, strict=True))
    shortened = tuple(field.full for field, way in lost if way.lost == _SHORTENED)
    return Flow(pieces, cost, shortened, tuple(field.full for field, way in lost if way.lost == _LEFT_OUT))


def lost_for_certain(fields: Sequence[Field], widths: Sequence[float]) -> bool:
    """Whether these rows can't hold all texts in full, told at a glance; False where only `flow` can tell."""
    return sum(min(wide(one.full, False), wide(one.tight or one.full, False)) for one in fields) > sum(widths)


def _one_a_row(fields: Sequence[Field], widths: Sequence[float]) -> Flow | None:
    """All in full on rows of their own, None where one does not go there."""
    if len(fields) > len(widths):
        return None
    for field, width in zip(fields, widths, strict=False):
        if wide(field.full, field is fields[0]) > width + _SLACK:
            return None
    pieces = tuple(Piece(row, 0.0, field.full, row == 0) for row, field in enumerate(fields))
    return Flow(pieces, 0, (), ())


def _ways(field: Field, first: bool, row: int, used: float, widths: Sequence[float]) -> list[_Way]:
    """Every way of setting a field from here on, the nicest first."""
    new = row if used == 0 else row + 1
    room = widths[new] if new < len(widths) else 0.0
    ways: list[_Way] = []
    for text, cost in ((field.full, 0), (field.tight, _TIGHT)):
        if text:
            ways += _whole(text, first, cost, row, used, new, room, widths)
    wrapped = _wrapped(field.full, new, widths)
    if wrapped is not None:
        last = wrapped[-1].row
        ways.append(_Way(_WRAPPED * (last - new), wrapped, last + 1, 0.0))
    if field.less:
        cost = _LESS_VITAL if field.vital else _LESS * field.weight
        ways += [way._replace(lost=_SHORTENED) for way in _whole(field.less, first, cost, row, used, new, room, widths)]
    if room >= _LEAST_CUT:
        cost = _CUT_VITAL if field.vital else _CUT * field.weight
        ways.append(_Way(cost, (Piece(new, _TO_CUT, field.less or field.full),), new + 1, 0.0, _SHORTENED))
    ways.append(_Way(_OMITTED_VITAL if field.vital else _OMITTED * field.weight, (), row, used, _LEFT_OUT))
    return ways


def _whole(
    text: str, first: bool, cost: int, row: int, used: float, new: int, room: float, widths: Sequence[float]
) -> list[_Way]:
    """A text on a row of its own, or behind what stands on the row already."""
    ways = []
    plain = wide(text, False)
    if plain <= room + _SLACK:
        bold = first and wide(text, True) <= room + _SLACK
        ways.append(_Way(cost + (_PLAIN if first and not bold else 0), (Piece(new, 0.0, text, bold),), new, plain))
        if bold:
            ways[-1] = ways[-1]._replace(used=wide(text, True))
    if used and used + _GAP + plain <= widths[row] + _SLACK:
        piece = Piece(row, used + _GAP, text)
        ways.append(_Way(cost + _JOINED + row, (piece,), row, used + _GAP + plain))
    return ways


def _wrapped(text: str, row: int, widths: Sequence[float]) -> tuple[Piece, ...] | None:
    """A text broken at its spaces into two rows or more, None where that does not hold it."""
    words = _words(text)
    if len(words) < 2:
        return None
    pieces: list[Piece] = []
    line = ""
    for word in words:
        longer = f"{line} {word}" if line else word
        at = row + len(pieces)
        if at >= len(widths) or len(pieces) >= _MOST_ROWS:
            return None
        if wide(longer, False) <= widths[at] + _SLACK:
            line = longer
            continue
        if not line:
            return None
        pieces.append(Piece(at, 0.0, line))
        line = word
        if at + 1 >= len(widths) or wide(word, False) > widths[at + 1] + _SLACK:
            return None
    pieces.append(Piece(row + len(pieces), 0.0, line))
    return tuple(pieces) if 1 < len(pieces) <= _MOST_ROWS else None


@lru_cache(maxsize=16384)
def _words(text: str) -> tuple[str, ...]:
    return tuple(_BREAK.split(text))


def _shortened(piece: Piece, widths: Sequence[float]) -> Piece:
    """The same, its text cut to its row where that was so decided."""
    if piece.x != _TO_CUT:
        return piece
    return Piece(piece.row, 0.0, lettering.fit(piece.text, widths[piece.row], 1.0))


@lru_cache(maxsize=65536)
def wide(text: str, bold: bool) -> float:
    """Return a text's width in heights of its capitals."""
    return lettering.text_width_mm(text, 1.0, bold)
