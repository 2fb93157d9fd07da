"""What the lines, frames and marks on a strip mean, as samples with words; the colours and markings used."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from harnessdoc.drawing.legend import codes_used
from harnessdoc.drawing.strips import bodies
from harnessdoc.drawing.strips.sizes import STEP_MM, TEXT_MM
from harnessdoc.model.colours import COLOUR_WORDS
from harnessdoc.model.harness import Harness
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.sheet import lettering
from harnessdoc.sheet.page import BLACK, WHITE, Page

LEGEND_WIDTH_MM: Final = 120.0
_SAMPLE_MM: Final = 16.0
Sample = Callable[[Page], None]


def _live(page: Page) -> None:
    page.line(0, 0, 12, 0, stroke_mm=0.7)


def _dead(page: Page) -> None:
    page.line(0, 0, 12, 0, stroke_mm=0.25)


def _amps(page: Page) -> None:
    page.polyline([(0, -2), (9.2, -2), (11, 0), (9.2, 2), (0, 2)], closed=True, fill=WHITE)
    page.text(4.6, TEXT_MM / 2, "3 A", TEXT_MM, anchor="middle")


def _volts(page: Page) -> None:
    page.rect(0, -1.85, 11, 3.7, radius=1.2, fill=WHITE, stroke_mm=0.18)
    page.text(5.5, TEXT_MM / 2, "12 V", TEXT_MM, anchor="middle")


def _meet(page: Page) -> None:
    page.line(0, 0, 12, 0)
    page.line(4, -2, 4, 0)
    page.circle(4, 0, 0.85, fill=BLACK, stroke="none")
    page.line(9, -2, 9, 2)


def _splice(page: Page) -> None:
    page.line(0, 0, 12, 0)
    with page.group(x=6):
        bodies.splice(page)


def _link(page: Page) -> None:
    page.line(0, 0, 12, 0, dash=bodies.LINK_DASH)


def _mark(page: Page) -> None:
    page.line(0, 0, 7, 0)
    page.circle(9.5, 0, 2.5, fill=WHITE, stroke_mm=0.35)
    page.text(9.5, TEXT_MM / 2, "A", TEXT_MM, bold=True, anchor="middle")


def _tag(page: Page) -> None:
    page.polyline([(0, -2), (9, -2), (12, 0), (9, 2), (0, 2)], closed=True, fill=WHITE, stroke_mm=0.35)


_ROWS: Final[tuple[tuple[Sample, str], ...]] = (
    (_live, "live: 1 V or more over the return, or 1 mA or more"),
    (_dead, "dead in the state that is drawn, or not known"),
    (_amps, "current, and the way it flows; no frame: none flows"),
    (_volts, "volts over the source's return; no frame: floats or not verified"),
    (_meet, "a dot where lines meet at a terminal, none where they cross"),
    (_splice, "splice, with its name over it"),
    (_link, "moves together: a coil and its contact, contacts of one switch"),
    (_mark, "the line goes on at the mark of the same letter"),
    (_tag, "goes on in another circuit; the flag points from source to return"),
)
TEXT: Final = (
    "Contacts stand as at rest: relays without current, switches untouched. Thick lines, currents and volts are those "
    "of the state written under each heading. ~ before a length: the sum of the runs; ? is not known yet. Not to scale."
)
_MARKINGS: Final = {
    "ISO 7588": "30 common, 87 make, 87a break, 85 and 86 coil (ISO 7588 habit); DIN 72552 gives 87 another meaning",
    "DIN 72552": "87 common, 87a break, 87b make, 85 and 86 coil, by DIN 72552's own list",
}
_GUTTER_MM: Final = 6.0


def _columns(width_mm: float) -> int:
    return max(1, int((width_mm + _GUTTER_MM) // (LEGEND_WIDTH_MM + _GUTTER_MM)))


def legend_texts(harness: Harness) -> list[str]:
    """What the legend says in words: how to read it, the colours' codes, how relays' terminals are marked."""
    colours = ", ".join(f"{code} {COLOUR_WORDS[code]}" for code in codes_used(harness))
    texts = [TEXT, f"Colours by IEC 60757: {colours}." if colours else ""]
    for marking, words in _MARKINGS.items():
        kinds = ((name, item.kind) for name, item in harness.items.items())
        names = [name for name, kind in kinds if isinstance(kind, Relay) and kind.marking == marking]
        texts.append(f"Terminals of {', '.join(names)}: {words}." if names else "")
    return [text for text in texts if text]


def _lines(texts: Sequence[str], width_mm: float) -> list[str]:
    return [line for text in texts for line in lettering.wrap(text, width_mm, TEXT_MM)]


def legend_height_mm(texts: Sequence[str], width_mm: float) -> float:
    """Height of the legend in that width, mm."""
    rows = -(-len(_ROWS) // _columns(width_mm))
    return STEP_MM * len(_lines(texts, width_mm)) + 3.0 + rows * 5.5


def draw_legend(page: Page, x: float, y: float, texts: Sequence[str], width_mm: float) -> None:
    """Draw the legend with its top left at (x, y)."""
    columns = _columns(width_mm)
    with page.group("legend", "legend of the strips"):
        base = page.lines(x, y + TEXT_MM, _lines(texts, width_mm), TEXT_MM)
        for number, (sample, words) in enumerate(_ROWS):
            left = x + (number % columns) * (LEGEND_WIDTH_MM + _GUTTER_MM)
            middle = base - 0.5 + (number // columns) * 5.5 + 2.0
            with page.group(x=left, y=middle):
                sample(page)
            page.text(left + _SAMPLE_MM, middle + TEXT_MM / 2, words, TEXT_MM, box_mm=LEGEND_WIDTH_MM - _SAMPLE_MM)
