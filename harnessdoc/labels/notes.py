"""The pages after the labels, on plain paper: on what they are printed, which carry no QR, where each one goes.

Knows remarks, not labels.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.model.harness import Title
from harnessdoc.sheet import lettering
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titleblock import TitleBlock

TEXT_MM: Final = 2.5
_HEAD_MM: Final = 3.5
_STEP_MM: Final = TEXT_MM * lettering.LINE_SPACING
_PADDING_MM: Final = 7.0  # own choice, clear of the centring marks
_INDENT_MM: Final = 5.0

# FAA AC 43.13-1B section 16, paragraphs 11-205 to 11-209 (public domain): both ends, 3 in wires, 3 to 7 in wires,
# readable without removing ties and reading direction on two pages; 3 in from the end (figure 11-23) on one page.
PLACEMENT: Final = (
    "Each wire is marked at both ends, the label no further than 76 mm (3 in) from the end.",
    "A wire of 76 to 178 mm (3 to 7 in) is marked once, near its middle; a shorter one needs no label.",
    "A label can be read without undoing ties or clamps; its text runs left to right or top to bottom.",
    "Source: FAA AC 43.13-1B section 16, paragraphs 11-205 to 11-209. Written for aircraft; taken here as good habit.",
)
PRINTING: Final = (
    "Print at 100 %. Measure one label of the first print: a printer that fits pages spoils every place after it.",
    "Modules of the symbols are whole dots of the printer, at least 4 dots (DENSO WAVE, two editions) and at least"
    " 0.33 mm (from memory, a working minimum for phones).",
    "No camera has seen these symbols: scan one of the first sheet with your own phone before you print the rest.",
    "A number with a bar under it could be taken for another upside down: the bar is at its foot.",
)
CAUTIONS: Final = (
    "A label says what the description says. Prove a wire with the meter before you cut, join or feed it.",
    "Isolate the battery before you touch copper. Local codes and licensed trades come first.",
)
ORDER: Final = (
    "Order: plugs first, by plug and cavity, as they are worked before the cut, both sides of a cut together; "
    "then by place and item.",
)


@dataclass(frozen=True, slots=True)
class Remark:
    """One label and what is to be said of it."""

    subject: str
    text: str


@dataclass(frozen=True, slots=True)
class Chapter:
    """A part of the notes. `remarks`: told once for all labels that they hold for; `none`: what stands where none is.

    `lines`: plain sentences before them. A chapter with nothing to say and no `none` is left out.
    """

    head: str
    lines: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    none: str = ""
    counted: bool = True


@dataclass(frozen=True, slots=True)
class _Line:
    text: str
    indent_mm: float = 0.0
    head: bool = False


def note_pages(title: Title, mark: str, chapters: Sequence[Chapter]) -> list[Page]:
    """Return the notes on framed A4 sheets, one at least; how to place and print labels comes last."""
    habits = (Chapter("Where a label goes", PLACEMENT), Chapter("Printing", PRINTING))
    first = _open(title, mark, 1, 1)
    width = first.area.width - 2 * _PADDING_MM
    lines = _wrapped((line for chapter in (*chapters, *habits) for line in _text(chapter)), width)
    room = int((first.area.height - 2 * _PADDING_MM - _HEAD_MM) / _STEP_MM)
    chunks = _chunks(lines, max(1, room))
    sheets = [_open(title, mark, number, len(chunks)) for number in range(1, len(chunks) + 1)]
    for sheet, chunk in zip(sheets, chunks, strict=True):
        _draw(sheet, chunk)
    return [sheet.page for sheet in sheets]


def _open(title: Title, mark: str, sheet: int, sheets: int) -> Sheet:
    block = TitleBlock(
        title=title.title,
        number=title.number,
        document_type="Label notes",
        legal_owner=title.owner,
        revision=title.revision,
        date=title.date,
        sheet=sheet,
        sheets=sheets,
        creator=title.drawn_by,
        approved=title.approved_by,
        content_mark=mark,
    )
    return open_sheet("A4", "portrait", block, CAUTIONS)


def _text(chapter: Chapter) -> Iterator[_Line]:
    """Remarks under their text, so that one reason stands once."""
    if not (chapter.lines or chapter.remarks or chapter.none):
        return
    count = len({one.subject for one in chapter.remarks}) if chapter.counted else 0
    yield _Line(f"{chapter.head}: {count}" if count else chapter.head, head=True)
    yield from map(_Line, chapter.lines)
    by_text: dict[str, list[str]] = {}
    for one in chapter.remarks:
        by_text.setdefault(one.text, []).append(one.subject)
    for text, subjects in by_text.items():
        yield _Line(f"{text}:")
        yield _Line(", ".join(subjects), indent_mm=_INDENT_MM)
    if not chapter.remarks and chapter.none:
        yield _Line(chapter.none)
    yield _Line("")


def _wrapped(lines: Iterable[_Line], width_mm: float) -> list[_Line]:
    return [
        _Line(piece, line.indent_mm, line.head)
        for line in lines
        for piece in lettering.wrap(line.text, width_mm - line.indent_mm, _size(line), line.head)
    ]


def _chunks(lines: Sequence[_Line], room: int) -> list[Sequence[_Line]]:
    """Cut into pages of `room` lines; a heading does not stand last on a page."""
    chunks, at = [], 0
    while at < len(lines):
        end = min(at + room, len(lines))
        while end < len(lines) and end - at > 1 and lines[end - 1].head:
            end -= 1
        chunks.append(lines[at:end])
        at = end
    return chunks


def _draw(sheet: Sheet, lines: Sequence[_Line]) -> None:
    x, y = sheet.area.x + _PADDING_MM, sheet.area.y + _PADDING_MM + _HEAD_MM
    for line in lines:
        sheet.page.text(x + line.indent_mm, y, line.text, _size(line), bold=line.head)
        y += _STEP_MM


def _size(line: _Line) -> float:
    return _HEAD_MM if line.head else TEXT_MM
