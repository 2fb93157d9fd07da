"""Lettering: how wide a text comes out on paper, and how to make it fit. Millimetres in, millimetres out.

Heights are those of ISO 3098: the height of the printed capitals. Widths come from the carried font's own
metrics, so they hold on a machine without fonts. Knows nothing of sheets.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final

from harnessdoc.sheet import typeface

# ISO 3098-0 series of lettering heights (reference: extracts in French and German tables, two pages agree).
HEIGHTS_MM: Final = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0)
SMALLEST_MM: Final = 2.5  # own choice: read by torch light; ISO 3098 would allow 1.8
LINE_SPACING: Final = 1.5  # baseline spacing / height, ISO 3098-0 type B without accents (French extract, one page)
ELLIPSIS: Final = "…"

# Controls, lone surrogates and non-characters (XML 1.0 refuses them); marks that change reading order (UAX #9
# embeddings, overrides, isolates, and the implicit marks) would let a name show as another.
_UNSAFE: Final = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\u061c\u200b\u200e\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb"
    "\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]"
)
_BLANKS: Final = re.compile("[ \t\n\r\x85\u2028\u2029]+")
_PLAIN: Final = re.compile(r"[!-~]+(?: [!-~]+)*")


def clean(text: str) -> str:
    """Return the text as it is drawn: one line, single spaces, no controls, no marks of reading order."""
    if _PLAIN.fullmatch(text):
        return text
    return _BLANKS.sub(" ", _UNSAFE.sub("", text)).strip(" ")


def font_size_mm(height_mm: float, bold: bool = False) -> float:
    """Return the font size (em) in mm that prints capitals `height_mm` tall."""
    measures = typeface.metrics(bold)
    return height_mm * measures.units / measures.cap_height


@lru_cache(maxsize=65536)
def _width_em(text: str, bold: bool) -> float:
    """Return the advance width of a clean text in ems, no kerning; unknown characters count as a box."""
    measures = typeface.metrics(bold)
    return sum(measures.advances.get(character, measures.unknown) for character in text) / measures.units


def text_width_mm(text: str, height_mm: float, bold: bool = False) -> float:
    """Return the printed advance width in mm of a text with capitals `height_mm` tall."""
    return _width_em(clean(text), bold) * font_size_mm(height_mm, bold)


def fit(text: str, width_mm: float, height_mm: float, bold: bool = False) -> str:
    """Return the text, shortened with … until it is no wider than `width_mm`; "" if not even … has room."""
    text = clean(text)
    if text_width_mm(text, height_mm, bold) <= width_mm + 1e-9:
        return text
    low, high = 0, len(text)
    while low < high:  # the longest prefix that fits with its ellipsis
        middle = (low + high + 1) // 2
        if text_width_mm(text[:middle].rstrip() + ELLIPSIS, height_mm, bold) <= width_mm + 1e-9:
            low = middle
        else:
            high = middle - 1
    if low == 0 and text_width_mm(ELLIPSIS, height_mm, bold) > width_mm:
        return ""
    return text[:low].rstrip() + ELLIPSIS


def wrap(text: str, width_mm: float, height_mm: float, bold: bool = False, after: str = "") -> list[str]:
    """Return the text broken into lines no wider than `width_mm`; a word too long for a line is cut.

    A word that does not fit may also go on in the next line after one of the characters `after`.
    Line breaks in the text stay. Always gives at least one line (perhaps empty).
    """
    lines: list[str] = []
    for paragraph in re.split("\r\n|[\n\r\x85\u2028\u2029]", text):
        line = ""
        for word in clean(paragraph).split(" "):
            candidate = f"{line} {word}" if line else word
            if text_width_mm(candidate, height_mm, bold) <= width_mm:
                line = candidate
                continue
            if line:
                lines.append(line)
            *full, line = _cut(word, width_mm, height_mm, bold, after)
            lines.extend(full)
        lines.append(line)
    return lines


def _cut(word: str, width_mm: float, height_mm: float, bold: bool, after: str) -> list[str]:
    """Cut one word into pieces that fit, after one of the characters `after` where there is one in a piece.

    A piece has at least one character.
    """
    pieces, piece = [], ""
    for character in word:
        if piece and text_width_mm(piece + character, height_mm, bold) > width_mm:
            end = max(map(piece.rfind, after), default=-1) + 1 or len(piece)
            pieces.append(piece[:end])
            piece = piece[end:]
        piece += character
    return [*pieces, piece]
