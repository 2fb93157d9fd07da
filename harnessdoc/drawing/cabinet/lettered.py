"""Parts of a cabinet sheet in any of the heights of ISO 3098: headings, paragraphs, rows of cells, fuse bodies.

Measures and draws; knows no harness."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from harnessdoc.drawing.flow import Block, Part
from harnessdoc.sheet import lettering
from harnessdoc.sheet.inks import contrast, ink
from harnessdoc.sheet.page import BLACK, WHITE, Page

HEIGHTS_MM: Final = tuple(height for height in reversed(lettering.HEIGHTS_MM) if height >= lettering.SMALLEST_MM)
"""The heights that are tried, the largest first: 10, 7, 5, 3.5, 2.5 mm (ISO 3098)."""
MOST_LINES: Final = 12
BREAKS: Final = "-._:/"
"""A designation that is too long goes on in the next line after one of these, where it has one."""
_DROP: Final = 0.36  # of a text under its base line, in heights: 483 of 2048 em in the carried font, and a little
_PAD: Final = 0.35  # in heights, over and under a row
_RULE_MM: Final = 0.18
_HEAD_RULE_MM: Final = 0.7
_BODY: Final = (4.2, 1.9)  # a fuse's body, in heights
_LEG: Final = 0.5
CODES: Final = {
    "black": "BK",
    "brown": "BN",
    "red": "RD",
    "orange": "OG",
    "yellow": "YE",
    "green": "GN",
    "blue": "BU",
    "violet": "VT",
    "grey": "GY",
    "clear": "WH",
    "pink": "PK",
    "tan": "TAN",
    "blue-green": "TQ",
}
"""Words for the colours of fuse bodies to IEC 60757 codes, as far as it has them; for drawing only."""


def larger(height_mm: float, steps: int) -> float:
    """The height so many steps up the series, the largest at most."""
    index = HEIGHTS_MM.index(height_mm)
    return HEIGHTS_MM[max(0, index - steps)]


@dataclass(frozen=True, slots=True)
class Piece:
    """What stands in a cell: text, perhaps bold; or a drawing so wide and high."""

    text: str = ""
    bold: bool = False
    draw: Callable[[Page, float, float], None] | None = None
    size: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Lettered:
    """Makes parts of one width in one height of text. `whole_mm`: a block no taller than that is never parted.

    `cut`: words that were too wide for their cell and had to be cut; then the height is too large."""

    height_mm: float
    width_mm: float
    whole_mm: float = 0.0
    cut: list[str] = field(default_factory=list)

    @property
    def step_mm(self) -> float:
        """From base line to base line."""
        return self.height_mm * lettering.LINE_SPACING

    def head(self, text: str) -> Part:
        """A heading over a rule, that stays with what follows."""
        lines = self._wrapped(text, self.width_mm, True)[:3]
        tall = self.height_mm * (0.6 + _DROP) + self.step_mm * (len(lines) - 1) + self.height_mm + 1.2

        def draw(page: Page, x: float, y: float) -> None:
            page.line(x, y + _HEAD_RULE_MM / 2, x + self.width_mm, y + _HEAD_RULE_MM / 2, stroke_mm=_HEAD_RULE_MM)
            page.lines(x, y + 1.2 + self.height_mm * 1.3, lines, self.height_mm, bold=True)

        return Part(tall, draw, glued=True)

    def words(self, text: str, height_mm: float | None = None, bold: bool = False) -> Part:
        """A paragraph, in a height of its own if asked."""
        tall = height_mm or self.height_mm
        lines = lettering.wrap(text, self.width_mm, tall, bold, BREAKS)[:MOST_LINES]
        self._note_cut(text, self.width_mm, tall, bold)
        height = tall * (1.2 + _DROP) + tall * lettering.LINE_SPACING * (len(lines) - 1) + tall * 0.1

        def draw(page: Page, x: float, y: float) -> None:
            page.lines(x, y + tall * 1.2, lines, tall, bold=bold)

        return Part(height, draw)

    def row(self, pieces: Sequence[Piece], widths: Sequence[float], rule: bool = True) -> Part:
        """Cells beside each other over a thin rule."""
        made = [self._wrapped(p.text, w, p.bold) if p.draw is None else [] for p, w in zip(pieces, widths, strict=True)]
        inner = max(
            self._lines_mm(len(lines)) if piece.draw is None else piece.size[1]
            for piece, lines in zip(pieces, made, strict=True)
        )
        pad = _PAD * self.height_mm
        height = inner + 2 * pad

        def draw(page: Page, x: float, y: float) -> None:
            if rule:
                page.line(x, y + height, x + self.width_mm, y + height, stroke_mm=_RULE_MM)
            for piece, lines, width in zip(pieces, made, widths, strict=True):
                if piece.draw is not None:
                    piece.draw(page, x, y + pad)
                else:
                    page.lines(x, y + pad + self.height_mm, lines, self.height_mm, bold=piece.bold)
                x += width

        return Part(height, draw)

    def block(self, title: str, parts: Sequence[Part]) -> Block:
        """Parts under a heading, which comes again where they go on."""
        if sum(part.height_mm for part in parts) <= self.whole_mm:
            parts = [*(replace(part, glued=True) for part in parts[:-1]), *parts[-1:]]
        return Block(self.head(title), self.head(f"{title} (goes on)"), tuple(parts))

    def width_of(self, text: str, bold: bool = False) -> float:
        """How wide a text comes out."""
        return lettering.text_width_mm(text, self.height_mm, bold)

    def _note_cut(self, text: str, room: float, tall: float, bold: bool) -> None:
        if lettering.text_width_mm(text, tall, bold) > room:
            words = text.replace("\n", " ").split(" ")
            self.cut.extend(word for word in words if lettering.text_width_mm(word, tall, bold) > room)

    def _lines_mm(self, count: int) -> float:
        return self.height_mm * (1 + _DROP) + self.step_mm * (max(count, 1) - 1)

    def _wrapped(self, text: str, width: float, bold: bool) -> list[str]:
        room = max(width - 0.6 * self.height_mm, self.height_mm)
        lines = lettering.wrap(text, room, self.height_mm, bold, BREAKS)
        self._note_cut(text, room, self.height_mm, bold)
        if len(lines) <= MOST_LINES:
            return lines
        return [*lines[: MOST_LINES - 1], lettering.fit(lines[MOST_LINES - 1] + "…", room, self.height_mm, bold)]


def fuse_piece(height_mm: float, rating: str, words: Sequence[str]) -> Piece:
    """A blade fuse's body in its colour with its rating on it; two halves where pages differ on the colour."""
    return Piece(draw=lambda page, x, y: _blade(page, x, y, height_mm, rating, words), size=body_mm(height_mm))


def plain_fuse_piece(height_mm: float, rating: str) -> Piece:
    """A fuse without a colour of its own: the symbol's box (IEC 60617), its rating in it."""
    return Piece(draw=lambda page, x, y: _plain(page, x, y, height_mm, rating), size=body_mm(height_mm))


def body_mm(height_mm: float) -> tuple[float, float]:
    """Width and height of a drawn fuse."""
    return _BODY[0] * height_mm, (_BODY[1] + _LEG) * height_mm


def _blade(page: Page, x: float, y: float, tall: float, rating: str, words: Sequence[str]) -> None:
    width, body = _BODY[0] * tall, _BODY[1] * tall
    fills = [ink(CODES.get(word, "")) or WHITE for word in words]
    with page.group("fuse", f"fuse {rating}, {' or '.join(words)}"):
        for left in (0.12, 0.68):
            page.rect(x + left * width, y + body, 0.2 * width, _LEG * tall, fill=WHITE, stroke_mm=0.25)
        page.rect(x, y, width, body, radius=0.4 * tall, fill=fills[0], stroke_mm=0.35)
        if len(fills) > 1:
            page.rect(x + width * 0.8, y, width * 0.2, body, fill=fills[1], stroke_mm=0.35)
        page.text(
            x + width * (0.4 if len(fills) > 1 else 0.5), y + (body + tall) / 2, _number(rating), tall, bold=True,
            anchor="middle", fill=contrast(fills[0]),
        )  # fmt: skip


def _plain(page: Page, x: float, y: float, tall: float, rating: str) -> None:
    width, body = _BODY[0] * tall, _BODY[1] * tall
    with page.group("fuse", f"fuse {rating}"):
        for start, end in ((x, x + 0.25 * tall), (x + width - 0.25 * tall, x + width)):
            page.line(start, y + body / 2, end, y + body / 2, stroke_mm=0.35)
        page.rect(x + 0.25 * tall, y, width - 0.5 * tall, body, fill=WHITE, stroke_mm=0.35)
        page.text(x + width / 2, y + (body + tall) / 2, _number(rating), tall, bold=True, anchor="middle", fill=BLACK)


def _number(rating: str) -> str:
    """The rating as on a fuse's body, without its unit."""
    return lettering.fit(rating.removesuffix(" A") or "?", 1e3, 2.5)
