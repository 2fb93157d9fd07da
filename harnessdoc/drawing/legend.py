"""The legend of the harness drawing: colours used, marks, what the figures mean. Written from what is drawn."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from harnessdoc.drawing import symbols
from harnessdoc.drawing.flow import Block, Part
from harnessdoc.drawing.wire_lists import WIDTH_MM, note_part, titled
from harnessdoc.model.colours import COLOUR_WORDS, NOTATION_NOTE, Colour
from harnessdoc.model.harness import Harness
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.routing import Routing
from harnessdoc.sheet.grid import PAD_MM, SLEEVE_MM, STEP_MM, TEXT_MM, draw_sleeve, shortened
from harnessdoc.sheet.page import Page

_PER_ROW: Final = 3
_ROW_MM: Final = 5.2


def legend_block(harness: Harness, routing: Routing) -> Block:
    """Return the legend as a block for the flow."""
    parts = [*_colour_parts(harness), note_part(NOTATION_NOTE)]
    parts += [note_part(text) for text in _notes(harness, routing)]
    parts += list(_symbol_parts(harness))
    return Block(titled("Legend"), titled("Legend, continued"), tuple(parts))


def codes_used(harness: Harness) -> list[str]:
    """Return the single colour codes of all wires and stubs, in the order of IEC 60757."""
    colours = [wire.colour for wire in harness.wires.values()] + [stub.colour for stub in harness.stubs.values()]
    used = {code for colour in colours if colour for code in (colour.base, *colour.tracers)}
    return [code for code in COLOUR_WORDS if code in used]


def _colour_parts(harness: Harness) -> Iterator[Part]:
    codes = codes_used(harness)
    for index in range(0, len(codes), _PER_ROW):
        yield _colour_row(codes[index : index + _PER_ROW])


def _colour_row(codes: list[str]) -> Part:
    def draw(page: Page, x: float, y: float) -> None:
        for index, code in enumerate(codes):
            left, base = x + index * WIDTH_MM / _PER_ROW, y + 1 + TEXT_MM
            draw_sleeve(page, left + SLEEVE_MM[0] / 2, base - TEXT_MM / 2, Colour(code), *SLEEVE_MM)
            width = page.text(left + SLEEVE_MM[0] + PAD_MM, base, code, TEXT_MM, bold=True)
            page.text(left + SLEEVE_MM[0] + 2 * PAD_MM + width, base, COLOUR_WORDS[code], TEXT_MM)

    return Part(_ROW_MM, draw)


def _notes(harness: Harness, routing: Routing) -> Iterator[str]:
    yield (
        "A number in a black disc is a place; the column “at” gives the place of the other end. Lists are in "
        "working order: by plug and cavity, then by item and terminal."
    )
    yield (
        "Lengths as stated; with ~ the sum of the runs, nothing added for ends and slack; ? is not known yet. "
        "Drawn not to scale."
    )
    if harness.runs:
        yield (
            "Ø is the bundle's diameter without its covering: 1.2 × the root of the sum of d², exact up to three "
            "wires. Ticks across a bundle: covered. > : wires of unknown diameter come on top."
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


def _symbol_parts(harness: Harness) -> Iterator[Part]:
    kinds = list(dict.fromkeys(symbols.symbol_name(item.kind) for item in harness.items.values()))
    named = [*kinds, *(["splice"] if harness.splices else [])]
    for index in range(0, len(named), _PER_ROW):
        yield _symbol_row(named[index : index + _PER_ROW])


def _symbol_row(kinds: list[str]) -> Part:
    def draw(page: Page, x: float, y: float) -> None:
        for index, kind in enumerate(kinds):
            left = x + index * WIDTH_MM / _PER_ROW
            middle = left + symbols.WIDTH_MM / 2, y + symbols.HEIGHT_MM / 2 + 1
            if kind == "splice":
                symbols.splice_symbol(page, *middle)
            else:
                symbols.draw_symbol(page, kind, *middle)
            words = shortened(kind, WIDTH_MM / _PER_ROW - symbols.WIDTH_MM - 2.5)
            first = middle[1] + (TEXT_MM - STEP_MM * (len(words) - 1)) / 2
            page.lines(left + symbols.WIDTH_MM + 2, first, words, TEXT_MM)

    return Part(symbols.HEIGHT_MM + 2, draw)
