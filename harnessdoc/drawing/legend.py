"""The legend of the harness drawing: colours used, symbols, end hardware, what the figures mean: what is drawn only."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from harnessdoc.drawing import symbols
from harnessdoc.drawing.breakouts.end_marks import END_MARKS, draw_end_mark
from harnessdoc.drawing.breakouts.headings import Heading, titled
from harnessdoc.drawing.breakouts.ruler import WIRE_MM
from harnessdoc.drawing.flow import Block, Part
from harnessdoc.model.colours import COLOUR_WORDS, NOTATION_NOTE, Colour
from harnessdoc.model.harness import Harness
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.routing import Routing
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import PAD_MM, SLEEVE_MM, STEP_MM, TEXT_MM, draw_sleeve, shortened
from harnessdoc.sheet.page import Page

_CELL_MM: Final = 40.0  # least width of an entry
_ASIDE_MM: Final = 1.5  # from a symbol to its word
_ROW_MM: Final = 5.2
_MARK_ROW_MM: Final = 4.6
_SYMBOL: Final = 1.0  # of its size: its letters stay 2.5 mm

_Entry = Callable[[Page, float, float], None]


def legend_block(harness: Harness, routing: Routing, width_mm: float) -> Block:
    """Return the legend as a block as wide as asked."""
    parts = [*_colour_parts(harness, width_mm), note_part(NOTATION_NOTE, width_mm)]
    parts += [note_part(text, width_mm) for text in _notes(harness, routing)]
    parts += [*_mark_parts(harness, width_mm), *_symbol_parts(harness, width_mm)]
    head, again = (titled(width_mm, Heading("", text, "", "")) for text in ("Legend", "Legend, continued"))
    return Block(head, again, tuple(parts))


def codes_used(harness: Harness) -> list[str]:
    """Return the single colour codes of all wires and stubs, in the order of IEC 60757."""
    colours = [wire.colour for wire in harness.wires.values()] + [stub.colour for stub in harness.stubs.values()]
    used = {code for colour in colours if colour for code in (colour.base, *colour.tracers)}
    return [code for code in COLOUR_WORDS if code in used]


def note_part(text: str, width_mm: float, most: int = 12) -> Part:
    """Return a paragraph."""
    lines = shortened(text, width_mm, most=most)
    return Part(len(lines) * STEP_MM + 2, lambda page, x, y: _drawn(page.lines(x, y + 1 + TEXT_MM, lines)))


def _rows(entries: Sequence[_Entry], width_mm: float, height_mm: float, cell_mm: float = _CELL_MM) -> Iterator[Part]:
    """Entries side by side, as many as have room."""
    count = max(1, int(width_mm // cell_mm))

    def row(first: int) -> Part:
        def draw(page: Page, x: float, y: float) -> None:
            for index, entry in enumerate(entries[first : first + count]):
                entry(page, x + index * width_mm / count, y)

        return Part(height_mm, draw)

    yield from (row(first) for first in range(0, len(entries), count))


def _colour_parts(harness: Harness, width_mm: float) -> Iterator[Part]:
    def entry(code: str) -> _Entry:
        def draw(page: Page, x: float, y: float) -> None:
            base = y + 1 + TEXT_MM
            draw_sleeve(page, x + SLEEVE_MM[0] / 2, base - TEXT_MM / 2, Colour(code), *SLEEVE_MM)
            width = page.text(x + SLEEVE_MM[0] + PAD_MM, base, code, TEXT_MM, bold=True)
            page.text(x + SLEEVE_MM[0] + 2 * PAD_MM + width, base, COLOUR_WORDS[code], TEXT_MM)

        return draw

    yield from _rows([entry(code) for code in codes_used(harness)], width_mm, _ROW_MM)


def _notes(harness: Harness, routing: Routing) -> Iterator[str]:
    yield (
        "A number in black is a place; behind “to” it is the place of the wire's other end, none where that is here "
        "too. Wires stand in working order: by plug and cavity, then by item and terminal. Contacts are drawn at rest."
    )
    yield (
        "Lengths as stated; with ~ by the runs, nothing added for ends and slack; ? is not known yet. "
        "Drawn not to scale."
    )
    if harness.runs:
        yield (
            "Ø is the bundle's diameter without its covering: 1.2 × the root of the sum of d², exact up to three "
            "wires. Ticks across a bundle: covered. > : wires of unknown diameter come on top. The covering's inside "
            "is at least Ø; no allowance for filling is added (common practice, no source)."
        )
    if any(splice.between for splice in harness.splices.values()):
        yield (
            "A dot on a bundle is a splice, dimensioned from the place its distance is stated from. "
            "A wire that ends there counts in the whole run's bundle."
        )
    if harness.runs and routing.unrouted:
        yield (f"The way of {len(routing.unrouted)} of {len(harness.wires)} wires is not known: no bundle counts them.")
    if harness.plugs:
        yield ("A grey cavity holds a stub, a dashed one is empty. The latch or index stands on the face's outline.")
    yield from _relay_notes(harness)


def _relay_notes(harness: Harness) -> Iterator[str]:
    said = {
        "ISO 7588": "30 common, 87 make, 87a break, 85 and 86 coil, as on today's plug-in relays (ISO 7588 habit); "
        "DIN 72552 gives 87 another meaning",
        "DIN 72552": "87 common, 87a break, 87b make, 85 and 86 coil, by DIN 72552's own list",
    }
    for marking, words in said.items():
        names = [
            name
            for name, item in harness.items.items()
            if isinstance(item.kind, Relay) and item.kind.marking == marking
        ]
        if names:
            yield f"Relay terminals of {', '.join(names)}: {words}."


def _mark_parts(harness: Harness, width_mm: float) -> Iterator[Part]:
    def entry(form: str) -> _Entry:
        def draw(page: Page, x: float, y: float) -> None:
            page.line(x, y + 2.2, x + 7.0, y + 2.2, stroke_mm=WIRE_MM)
            draw_end_mark(page, x + 7.0, y + 2.2, form)
            page.text(x + 9.0, y + 2.2 + TEXT_MM / 2, form, TEXT_MM)

        return draw

    used = {end.hardware.form for wire in harness.wires.values() for end in wire.ends if end.hardware}
    yield from _rows([entry(form) for form in END_MARKS if form in used], width_mm, _MARK_ROW_MM)


def _symbol_parts(harness: Harness, width_mm: float) -> Iterator[Part]:
    kinds = list(dict.fromkeys(symbols.symbol_name(item.kind) for item in harness.items.values()))
    named = [*kinds, *(["splice"] if harness.splices else [])]
    aside = symbols.WIDTH_MM * _SYMBOL + _ASIDE_MM + 0.3
    widest = max((lettering.text_width_mm(word, TEXT_MM) for kind in named for word in kind.split()), default=0.0)
    cell = max(_CELL_MM, widest + aside + 0.1)  # no word is broken
    room = width_mm / max(1, int(width_mm // cell)) - aside

    def entry(kind: str) -> _Entry:
        words = shortened(kind, room, most=2)

        def draw(page: Page, x: float, y: float) -> None:
            middle = x + symbols.WIDTH_MM * _SYMBOL / 2, y + symbols.HEIGHT_MM * _SYMBOL / 2 + 0.5
            with page.group(x=middle[0], y=middle[1], scale=_SYMBOL):
                if kind == "splice":
                    symbols.splice_symbol(page, 0, 0)
                else:
                    symbols.draw_symbol(page, kind, 0, 0)
            first = middle[1] + (TEXT_MM - STEP_MM * (len(words) - 1)) / 2
            page.lines(x + symbols.WIDTH_MM * _SYMBOL + _ASIDE_MM, first, words, TEXT_MM)

        return draw

    yield from _rows([entry(kind) for kind in named], width_mm, symbols.HEIGHT_MM * _SYMBOL + 1, cell)


def _drawn(_: float) -> None:
    """Drop the y that a drawing function returns."""
