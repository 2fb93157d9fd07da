"""Wire rows as printed: each wire's number with all that stands in its row, found by text and place on the page."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from harnessdoc.model.harness import Harness
from harnessdoc.model.points import Point
from tests.drawing.paper import Drawn
from tests.sheet.measure import TextBox

_SAME_MM = 0.3  # base lines or edges nearer than this are one
_BESIDE_MM = 3.0  # a designation whose base line is nearer than this to the number's stands beside it
_STEP_MM = (2.9, 4.1)  # from line to line within one text of several lines
_COLUMN_MM = 20.0  # columns of rows are at least so wide; a number further right begins another
_LENGTH = re.compile(r"(~?)(\d+(?:\.\d+)?) (mm|m)")


@dataclass(frozen=True)
class Words:
    """A text of one or more lines, as one."""

    text: str  # without blanks: a broken word and a broken line read alike
    lines: tuple[TextBox, ...]

    def is_(self, wanted: str) -> bool:
        """Whether it says this, perhaps cut short with an ellipsis."""
        bare = _bare(wanted)
        return self.text == bare or (self.text.endswith("…") and len(self.text) > 1 and bare.startswith(self.text[:-1]))


@dataclass(frozen=True)
class WireRow:
    """One printed row: the number, what stands on its base line, and what stands beside it within 3 mm."""

    sheet: int
    number: Words
    words: tuple[Words, ...]
    beside: tuple[TextBox, ...]

    def names(self, point: Point) -> bool:
        """Whether the point's designation, or its terminal's, stands beside the number."""
        bare = {_bare(str(point)), _bare(point.terminal) or _bare(point.owner)}
        return any(_bare(box.text) in bare for box in self.beside) or any(word.is_(str(point)) for word in self.words)

    def goes_to(self, text: str) -> bool:
        """Whether it says that the wire goes there."""
        ways = (f"to {text}", f"to {text}, not landed")
        if not any(word.lines[0].text.split()[0] == "to" for word in self.words):
            ways = (text, f"{text}, not landed")  # a list with a column for it
        return any(word.is_(way) for word in self.words for way in ways)

    @property
    def lengths(self) -> list[str]:
        """The lengths in the row, as printed; "?" for one that is not known."""
        said = (" ".join(line.text for line in word.lines) for word in self.words)
        return [text for text in said if text == "?" or _LENGTH.fullmatch(text)]


def wire_rows(sheets: Sequence[Drawn], wires: Collection[str]) -> dict[str, list[WireRow]]:
    """Return the rows of each wire, in the order of the sheets."""
    bare = {_bare(name): name for name in wires}
    rows: dict[str, list[WireRow]] = {name: [] for name in wires}
    for sheet, drawn in enumerate(sheets, 1):
        for name, row in _on_sheet(sheet, drawn, bare):
            rows[name].append(row)
    return rows


def ends_not_shown(
    harness: Harness,
    rows: Mapping[str, list[WireRow]],
    stands_for: Callable[[WireRow, Point], bool] = WireRow.names,
) -> list[str]:
    """Ends that are known, yet have no row of their own with the wire's number, their point and where it goes.

    `stands_for`: whether a row is at a point, by what stands beside it or by where its line ends."""
    found = []
    for wire in harness.wires.values():
        shown = []
        for here, there in ((wire.a, wire.b), (wire.b, wire.a)):
            if here.point is None:
                continue
            its = rows[wire.name]
            shown.append({at for at, row in enumerate(its) if stands_for(row, here.point) and row.goes_to(there.text)})
            if not shown[-1]:
                found.append(f"{wire.name} at {here.text}")
        if len(shown) == 2 and all(shown) and len(shown[0] | shown[1]) < 2:
            found.append(f"{wire.name} is shown once for both ends")
    return found


def wrong_lengths(lengths_mm: Mapping[str, float | None], rows: Mapping[str, list[WireRow]]) -> list[str]:
    """Rows that print another length than the model's, or none; "?" stands for one that nobody knows."""
    found = []
    for name, its in rows.items():
        for row in its:
            printed = [text for text in row.lengths if text != "?"]
            known = lengths_mm[name] is not None
            right = len(printed) == known and (known or "?" in row.lengths)
            if not right or not all(length_equals(text, lengths_mm[name]) for text in printed):
                found.append(f"{name}: {row.lengths} for {lengths_mm[name]} mm, sheet {row.sheet}")
    return found


def length_equals(text: str, length_mm: float | None) -> bool:
    """Whether a printed length is the model's, to half its last digit (metres are printed to the millimetre)."""
    found = _LENGTH.fullmatch(text)
    if found is None or length_mm is None:
        return length_mm is None and found is None
    printed_mm = float(found[2]) * (1000 if found[3] == "m" else 1)
    return abs(printed_mm - length_mm) <= (0.5 if found[3] == "m" else 0.005) + 1e-9


def words_of(texts: Sequence[TextBox]) -> list[Words]:
    """Return the level texts, those set line under line as one."""
    level = sorted((box for box in texts if abs(box.angle) < 1), key=_base)
    made: list[list[TextBox]] = []
    open_at: dict[int, list[list[TextBox]]] = {}
    for box in level:
        near = (lines for key in _keys(box.x0) for lines in open_at.get(key, ()))
        over = next((lines for lines in near if _follows(lines[-1], box)), None)
        if over is None:
            over = []
            made.append(over)
            open_at.setdefault(round(box.x0), []).append(over)
        over.append(box)
    return [Words(_bare("".join(box.text for box in lines)), tuple(lines)) for lines in made]


def _on_sheet(sheet: int, drawn: Drawn, bare: Mapping[str, str]) -> Iterator[tuple[str, WireRow]]:
    words = words_of(drawn.texts)
    by_base: dict[int, list[Words]] = {}
    for word in words:
        for base in {round(_base(line)) for line in word.lines}:
            by_base.setdefault(base, []).append(word)
    level = [box for box in drawn.texts if abs(box.angle) < 1]
    numbers = [(word, name) for word in words if (name := _name(word, bare)) is not None]
    lefts = sorted({word.lines[0].x0 for word, _ in numbers})
    for number, name in numbers:
        first, last = number.lines[0], number.lines[-1]
        right = next((left for left in lefts if left > first.x0 + _COLUMN_MM), drawn.width_mm)
        around = {id(word): word for base in _keys(_base(first)) + _keys(_base(last)) for word in by_base.get(base, ())}
        in_row = tuple(
            word
            for word in around.values()
            if word is not number and _level(word, number) and first.x0 < word.lines[0].x0 < right
        )
        beside = tuple(
            box
            for box in level
            if first.x0 < box.x0 < right and _base(first) - _BESIDE_MM <= _base(box) <= _base(last) + _BESIDE_MM
        )
        yield name, WireRow(sheet, number, in_row, beside)


def _name(word: Words, bare: Mapping[str, str]) -> str | None:
    """The wire whose number this is, perhaps cut short; None for any other text."""
    if word.text in bare:
        return bare[word.text]
    if len(word.text) > 3 and word.text.endswith("…"):
        return next((name for text, name in bare.items() if text.startswith(word.text[:-1])), None)
    return None


def _level(a: Words, b: Words) -> bool:
    """Whether they share a base line."""
    return any(abs(_base(one) - _base(other)) < _SAME_MM for one in a.lines for other in b.lines)


def _follows(above: TextBox, below: TextBox) -> bool:
    return (
        abs(above.x0 - below.x0) < _SAME_MM
        and above.bold == below.bold
        and _STEP_MM[0] < _base(below) - _base(above) < _STEP_MM[1]
    )


def _base(box: TextBox) -> float:
    return box.y0 + box.cap_mm


def _keys(value: float) -> tuple[int, ...]:
    return (round(value) - 1, round(value), round(value) + 1)


def _bare(text: str) -> str:
    return re.sub(r"[\s\u200b]", "", text)
