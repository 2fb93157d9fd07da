"""Where the words and the symbol of one label go inside it: pure millimetres from its own top left corner, y down.

The number is the largest and the last to be shortened; no text is made smaller than `SMALLEST_BODY_MM`, and the
symbol's modules never smaller than `dots` allows. Knows nothing of sheets, wires or what the words mean.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from harnessdoc.labels.dots import dot_mm, least_dots, module_dots
from harnessdoc.sheet import lettering

# Heights of number and body text tried in turn, mm: the largest that suits the label. ISO 3098
# steps but for 4.5, which is what the common small label holds above four lines of 2.5.
SIZES_MM: Final = ((10.0, 5.0), (7.0, 3.5), (5.0, 3.5), (4.5, 2.5), (3.5, 2.5))
SMALLEST_NUMBER_MM: Final = 3.5
SMALLEST_BODY_MM: Final = 2.5

# Of the carried typeface, in heights of its capitals: ascenders reach 1.04, descenders 0.32, capitals with accents
# 1.3. Characters outside ASCII count as accented, save for a few that lie low.
_RISE: Final = 1.045
_RISE_ACCENTED: Final = 1.35
_DROP: Final = 0.325
_DROP_PLAIN: Final = 0.1  # round letters reach 0.02; the rest is white
_LOW: Final = frozenset("→²³·…°×–")
_LOOSE: Final = 0.55  # own choice: lines are never spread further apart than this much more
_COLUMN_SHARE: Final = 0.45  # own choice: least share of the label's width that words keep beside a symbol


@dataclass(frozen=True, slots=True)
class Field:
    """One text that a label should say. `tight`: the same, closer set; `less`: what may stand for it, shortened.

    `vital`: better no symbol than to shorten it. `weight`: how bad it is to shorten it.
    """

    full: str
    tight: str = ""
    less: str = ""
    vital: bool = False
    weight: int = 1


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text: where its base line starts, mm; capitals `height_mm` tall."""

    x: float
    y: float
    text: str
    height_mm: float
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """The square kept for a symbol and its quiet zone: top left corner and side in mm, dots a module."""

    x: float
    y: float
    side_mm: float
    dots: int


@dataclass(frozen=True, slots=True)
class Arrangement:
    """What is drawn. `shortened`: the texts that lost letters; `left_out`: those that found no line."""

    lines: tuple[Line, ...]
    place: Place | None
    shortened: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    number_cut: bool = False
    vital_cut: int = 0
    weight_cut: int = 0

    def badness(self, wants_symbol: bool) -> tuple[int, int, int, int, int]:
        """Worst things first: number cut, vital texts cut, symbol missing, lines missing, texts shortened by weight."""
        missing = int(wants_symbol and self.place is None)
        return int(self.number_cut), self.vital_cut, missing, len(self.left_out), self.weight_cut


@dataclass(frozen=True, slots=True)
class _Words:
    number: str
    body: tuple[Field, ...]
    number_mm: float
    body_mm: float

    def lines(self) -> list[tuple[str, float]]:
        """Every text in full, with its height."""
        return [(self.number, self.number_mm), *((field.full, self.body_mm) for field in self.body)]


def arrange(
    number: str, body: Sequence[Field], width_mm: float, height_mm: float, modules: int | None, dpi: int
) -> Arrangement:
    """Return the best arrangement in a label of this inner size.

    `number` and fields are clean texts (`sheet.lettering.clean`), none empty. `body`: lines, most wanted first.
    `modules`: a symbol's modules along a side with its quiet zone, None for no symbol.
    The symbol's place leaves room for moving it by less than one dot right or down.
    """
    fields = tuple(body)
    best: Arrangement | None = None
    for found in _candidates(number, fields, width_mm, height_mm, modules, dpi):
        badness = found.badness(modules is not None)
        if not any(badness):
            return found
        if best is None or badness < best.badness(modules is not None):
            best = found
    assert best is not None  # the arrangement without a symbol is always among the candidates
    return best


def _candidates(
    number: str, fields: tuple[Field, ...], width: float, height: float, modules: int | None, dpi: int
) -> Iterator[Arrangement]:
    """Every arrangement that is tried, the nicest first."""
    tried = [_Words(number, fields, number_mm, body_mm) for number_mm, body_mm in SIZES_MM]
    fitting = [words for words in tried if sum(_gaps(words.lines())) <= height + 1e-9] or tried[-1:]
    if modules is not None:
        for words in fitting:
            yield from _with_symbol(words, width, height, modules, dpi)
    for words in fitting:
        yield _without(words, width, height)


def _with_symbol(words: _Words, width: float, height: float, modules: int, dpi: int) -> Iterator[Arrangement]:
    """The symbol stands right: over one or two lines of full width, under a number of full width, or alone."""
    slack, lines = dot_mm(dpi), 1 + len(words.body)
    widest = width * (1 - _COLUMN_SHARE)
    for said, head, foot in _shapes(words):
        wide = [_height(field.full, words.body_mm) for field in said.body[len(said.body) - foot :]]
        wide += [_height(words.number, words.number_mm)] * head
        for dots in _choices(modules, min(height - sum(wide), widest) - slack, dpi):
            side = modules * dots * dot_mm(dpi)
            column = width - side - slack
            widths = [width if at < head or at >= lines - foot else column for at in range(lines)]
            y = height - side - slack if head else 0.0
            found = _set(said, widths, height, Place(width - side - slack, y, side, dots), foot)
            if not (foot and found.left_out):  # else lines of full width would stand beside the symbol
                yield found


def _shapes(words: _Words) -> Iterator[tuple[_Words, int, int]]:
    """Yield (words, lines of full width above the symbol, and below it), the nicest first."""
    count = len(words.body)
    if count > 2:
        yield words, 0, 2
    if count > 1:
        yield words, 0, 1
    if count > 2:
        yield _last_two_swapped(words), 0, 1
    if count:
        yield words, 1, 0
    yield words, 0, 0


def _last_two_swapped(words: _Words) -> _Words:
    """The same words, so that the last but one gets the line of full width."""
    *before, one, last = words.body
    return replace(words, body=(*before, last, one))


def _choices(modules: int, room: float, dpi: int) -> list[int]:
    """Dots a module to try: the most that the room holds, then the fewest allowed."""
    most = module_dots(modules, room, dpi)
    return [] if most is None else list(dict.fromkeys((most, least_dots(dpi))))


def _without(words: _Words, width: float, height: float) -> Arrangement:
    return _set(words, [width] * (1 + len(words.body)), height, None)


def _set(words: _Words, widths: Sequence[float], height: float, place: Place | None, foot: int = 0) -> Arrangement:
    """Set the lines under each other; the least wanted are left out where the height does not hold them.

    `foot`: how many of the last lines stand on the label's lower edge.
    """
    fields = (Field(words.number, vital=True), *words.body)
    sizes = [words.number_mm, *[words.body_mm] * len(words.body)]
    texts = [field.full for field in fields]
    kept = _that_fit(texts, sizes, height)
    foot = foot if kept == len(fields) else 0
    symbol_ends = place.y + place.side_mm if place else 0.0
    gaps = _spread([(texts[at], sizes[at]) for at in range(kept)], height, foot, symbol_ends)
    lines, shortened, vital_cut, weight_cut, y = [], [], 0, 0, 0.0
    for at, (gap, field) in enumerate(zip(gaps, fields, strict=False)):
        y += gap
        text, bold = _fit(field, widths[at], sizes[at], at < 2, must_be_bold=at == 0)
        if text not in (field.full, field.tight):
            shortened.append(field.full)
            vital_cut += field.vital
            weight_cut += field.weight
        lines.append(Line(0.0, y, text, sizes[at], bold))
    left_out = fields[kept:]
    vital_cut += sum(field.vital for field in left_out)
    return Arrangement(
        tuple(lines),
        place,
        tuple(shortened),
        tuple(field.full for field in left_out),
        lines[0].text != words.number,
        vital_cut,
        weight_cut,
    )


def _fit(field: Field, width: float, size: float, bold: bool, must_be_bold: bool) -> tuple[str, bool]:
    """Return what is written of a field, and whether in bold: plain letters rather than fewer."""
    weights = (True,) if must_be_bold else (True, False) if bold else (False,)
    for text in (field.full, field.tight, field.less):
        for weight in weights:
            if text and lettering.text_width_mm(text, size, weight) <= width + 1e-9:
                return text, weight
    return lettering.fit(field.less or field.full, width, size, weights[-1]), weights[-1]


def _that_fit(texts: Sequence[str], sizes: Sequence[float], height: float) -> int:
    """Return how many lines, from the first on, the height holds; at least one."""
    count = len(texts)
    while count > 1 and sum(_gaps(list(zip(texts[:count], sizes[:count], strict=True)))) > height + 1e-9:
        count -= 1
    return count


def _spread(lines: Sequence[tuple[str, float]], height: float, foot: int, below: float) -> list[float]:
    """Return the steps from base line to base line: spread over the height, but not torn apart.

    The last `foot` lines stand on the lower edge and keep under `below`, where the symbol ends.
    """
    *gaps, depth = _gaps(lines)
    loose = len(gaps) - foot if foot else len(gaps)
    if foot > 1:
        spare = max(0.0, height - below - sum(_height(*line) for line in lines[loose:]))
        for at in range(loose + 1, len(gaps)):
            gaps[at] += min(spare / foot, _LOOSE * lines[at][1])
    spare = max(0.0, height - sum(gaps) - depth)
    open_gaps = range(1, loose + bool(foot))
    for at in open_gaps:
        gaps[at] += min(spare / len(open_gaps), _LOOSE * lines[at][1])
    if foot:
        gaps[loose] += height - sum(gaps) - depth
    return gaps


def _gaps(lines: Sequence[tuple[str, float]]) -> list[float]:
    """Return the least step to each base line, from the top on, and the depth under the last."""
    gaps, below = [], 0.0
    for index, (text, size) in enumerate(lines):
        gaps.append(below + rise(text) * size)
        below = (_DROP if index else drop(text)) * size
    return [*gaps, below]


def _height(text: str, size_mm: float) -> float:
    return (rise(text) + _DROP) * size_mm


@lru_cache(maxsize=16384)
def rise(text: str) -> float:
    """Return how far a text reaches over its base line, in heights of capitals."""
    return _RISE if all(character < "\x7f" or character in _LOW for character in text) else _RISE_ACCENTED


@lru_cache(maxsize=16384)
def drop(text: str) -> float:
    """Return how far a text reaches under its base line, in heights of capitals: next to nothing for W12."""
    plain = all(character.isascii() and (character.isalnum() or character in ".:-+ ") for character in text)
    return _DROP_PLAIN if plain and not set(text) & set("gjpqyQ") else _DROP
