"""Blocks of the harness drawing: what stands at a station, and its wire list. Measures and draws; places nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from harnessdoc.drawing import marks, symbols
from harnessdoc.drawing.face_picture import EMPTY_DASH, KEY_MM, STUB_GREY, Picture, smallest_pitch_mm
from harnessdoc.drawing.flow import Block, Part
from harnessdoc.drawing.stations import EndRow, Plan, Station
from harnessdoc.model.harness import End, Harness, Item, Plug, Splice, Wire
from harnessdoc.model.quantities import format_length
from harnessdoc.routing import Routing
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, Cell, Column, Grid, Row, shortened
from harnessdoc.sheet.page import Page

WIDTH_MM: Final = 123.0
UNKNOWN: Final = "?"
WIRE_GRID: Final = Grid(
    (
        Column("wire", 22.2),
        Column("colour", 25.3),
        Column("size", 19.0),
        Column("from", 16.1),
        Column("to", 16.1),
        Column("at", 6.8),
        Column("length", 17.5),
    )
)
_HEAD_MM: Final = 10.0
_ITEM_MM: Final = (WIDTH_MM / 2, 14.5)
_CAVITY_EDGE_MM: Final = 0.7
_CAVITY_GAP_MM: Final = 0.8


def station_block(harness: Harness, routing: Routing, station: Station) -> Block:
    """Return a station's block: faces of its plugs, its items and splices as symbols, its wire list."""
    parts = [*_plug_parts(harness, station), *_item_parts(harness, station), *_list_parts(routing, station.rows)]
    head = _head(station.number, station.name, station.about)
    return Block(head, _head(station.number, f"{station.name}, continued", ""), tuple(parts))


def loose_block(routing: Routing, plan: Plan) -> Block | None:
    """Return the list of wires with an end that nobody knows or that is not landed; None if there are none."""
    once: dict[str, EndRow] = {}
    for row in plan.loose:
        once.setdefault(row.wire.name, EndRow(row.wire, row.there, row.here, None))
    if not once:
        return None
    head, again = (
        _head(None, text, "")
        for text in ("Not landed, or where to is unknown", "Not landed, or where to is unknown, continued")
    )
    return Block(head, again, tuple(_list_parts(routing, tuple(once.values()))))


def length_text(routing: Routing, wire: Wire) -> str:
    """Return a wire's length as listed: stated, by the runs with a ~ before it, or ? for unknown."""
    route = routing.routes[wire.name]
    if route.length_mm is None:
        return UNKNOWN
    return ("~" if route.origin == "by runs" else "") + format_length(route.length_mm)


def end_text(end: End) -> str:
    """Return where an end is, as listed."""
    return "tail, not landed" if end.tail else end.text


def titled(text: str, about: str = "") -> Part:
    """Return a block's heading without a number."""
    return _head(None, text, about)


# --- parts


def _head(number: int | None, name: str, about: str) -> Part:
    left = 0.0 if number is None else 2 * marks.BALLOON_MM + 2
    height = 3.5 if lettering.text_width_mm(name, 3.5, True) <= WIDTH_MM - left else TEXT_MM
    shown = lettering.fit(name, WIDTH_MM - left, height, True)
    rest = WIDTH_MM - left - lettering.text_width_mm(shown, height, True) - 4
    beside = lettering.text_width_mm(about, TEXT_MM) <= rest
    below = [] if beside or not about else shortened(about, WIDTH_MM - left, most=2)

    def draw(page: Page, x: float, y: float) -> None:
        page.line(x, y, x + WIDTH_MM, y, stroke_mm=0.7)
        if number is not None:
            marks.balloon(page, x + marks.BALLOON_MM, y + 5.2, number)
        width = page.text(x + left, y + 6.9, shown, height, bold=True)
        if beside:
            page.text(x + left + width + 4, y + 6.9, about)
        page.lines(x + left, y + 11.4, below)

    return Part(_HEAD_MM + len(below) * STEP_MM, draw, glued=True)


def _plug_parts(harness: Harness, station: Station) -> Iterator[Part]:
    for name in station.plugs:
        yield _plug_part(harness, harness.plugs[name])


def _plug_part(harness: Harness, plug: Plug) -> Part:
    cuts = len(plug.cut)
    facts = [f"seen from the {plug.view.value}"]
    if cuts:
        facts.append(f"{cuts} of {len(plug.terminals)} cavities cut")
    if plug.mates_with:
        facts.append(f"mates with {plug.mates_with}")
    words = ", ".join(filter(None, (plug.title, *facts)))
    room = WIDTH_MM - lettering.text_width_mm(plug.name, 3.5, True) - 4
    caption = shortened(words, room, most=3)
    name = lettering.fit(plug.name, WIDTH_MM / 2, 3.5, True)
    picture = _small_picture(plug)
    height = picture.height_mm if picture else STEP_MM
    text_mm = 2 + STEP_MM * max(len(caption), 1) + 1.5

    def draw(page: Page, x: float, y: float) -> None:
        with page.group(f"plug-{plug.name}", f"{plug.name} {plug.title}"):
            width = page.text(x, y + 5.0, name, 3.5, bold=True)
            page.lines(x + width + 4, y + 5.0, caption)
            if picture:
                middle = x + WIDTH_MM / 2
                picture.draw(page, middle, y + text_mm + height / 2, _small_cavity(harness, plug, picture))
            else:
                page.text(x, y + text_mm + TEXT_MM, "Its face is on its own pin-out sheet.")

    return Part(text_mm + height + 3, draw)


def _small_picture(plug: Plug) -> Picture | None:
    """The face just large enough for its numbers; None if that is wider than a column or very tall."""
    widest = max(lettering.text_width_mm(name, TEXT_MM) for name in plug.terminals)
    across = max(widest, TEXT_MM) + 2 * _CAVITY_EDGE_MM + 1.2
    picture = Picture(plug.face, plug.view, (across + _CAVITY_GAP_MM) / smallest_pitch_mm(plug.face))
    fits = picture.width_mm <= WIDTH_MM - 2 * KEY_MM and picture.height_mm <= 90
    return picture if fits else None


class _SmallCavity:
    """Draws one cavity: its number, grey where a stub is left in it, dashed where it is empty."""

    def __init__(self, harness: Harness, plug: Plug, across: float) -> None:
        self._stubs = {point.terminal for point in harness.stubs if point.owner == plug.name}
        self._empty = set(plug.empty)
        self._half = across / 2

    def __call__(self, page: Page, name: str, shape: str, x: float, y: float) -> None:
        half = self._half
        fill = STUB_GREY if name in self._stubs else "none"
        dash = EMPTY_DASH if name in self._empty else ()
        if shape == "round":
            page.circle(x, y, half, fill=fill, stroke_mm=0.25, dash=dash)
        else:
            page.rect(x - half, y - half, 2 * half, 2 * half, radius=0.6, fill=fill, stroke_mm=0.25, dash=dash)
        page.text(x, y + TEXT_MM / 2, name, TEXT_MM, anchor="middle")


def _small_cavity(harness: Harness, plug: Plug, picture: Picture) -> _SmallCavity:
    return _SmallCavity(harness, plug, picture.pitch_mm - _CAVITY_GAP_MM)


def _item_parts(harness: Harness, station: Station) -> Iterator[Part]:
    """Two items or splices a row."""
    things: list[Item | Splice] = [harness.items[name] for name in station.items]
    things += [harness.splices[name] for name in station.splices]
    for index in range(0, len(things), 2):
        yield _item_row(things[index : index + 2], last=index + 2 >= len(things))


def _item_row(things: Sequence[Item | Splice], last: bool) -> Part:
    def draw(page: Page, x: float, y: float) -> None:
        for index, thing in enumerate(things):
            _draw_thing(page, x + index * _ITEM_MM[0], y, thing)

    return Part(_ITEM_MM[1] + (1.5 if last else 0), draw)


def _draw_thing(page: Page, x: float, y: float, thing: Item | Splice) -> None:
    middle = x + symbols.WIDTH_MM / 2, y + _ITEM_MM[1] / 2
    with page.group(f"item-{thing.name}", thing.name):
        if isinstance(thing, Splice):
            symbols.splice_symbol(page, *middle)
            facts, words = thing.method or "method unknown", thing.cover or "cover unknown"
        else:
            symbols.draw_symbol(page, symbols.symbol_name(thing.kind), *middle)
            facts, words = thing.kind.marked(), thing.title or thing.kind.name
        left, room = x + symbols.WIDTH_MM + 2.5, _ITEM_MM[0] - symbols.WIDTH_MM - 4.5
        name = lettering.fit(thing.name, room * 0.6, TEXT_MM, True)
        width = page.text(left, y + 4.4, name, TEXT_MM, bold=True)
        page.text(left + width + 2, y + 4.4, facts, TEXT_MM, box_mm=room - width - 2)
        page.lines(left, y + 4.4 + STEP_MM, shortened(words, room, most=2), TEXT_MM)


def _list_parts(routing: Routing, rows: Sequence[EndRow]) -> Iterator[Part]:
    if not rows:
        yield note_part("No wire is known to end here.")
        return
    heading = Part(WIRE_GRID.head_mm, lambda page, x, y: _drawn(WIRE_GRID.draw_head(page, x, y)), glued=True)
    yield heading
    for index, row in enumerate(rows):
        yield _row_part(_cells(routing, row), None if index == 0 else heading)


def _row_part(cells: Row, under: Part | None) -> Part:
    return Part(
        WIRE_GRID.row_mm(cells),
        lambda page, x, y: _drawn(WIRE_GRID.draw_row(page, x, y, cells)),
        under=under,
    )


def _cells(routing: Routing, row: EndRow) -> Row:
    wire = row.wire
    return (
        Cell(wire.name, bold=True),
        Cell(sleeves=(wire.colour,)),
        Cell(wire.size.written if wire.size else "unknown"),
        Cell(end_text(row.here)),
        Cell(end_text(row.there)),
        Cell(str(row.there_station) if row.there_station else "–"),
        Cell(length_text(routing, wire)),
    )


def note_part(text: str, most: int = 12) -> Part:
    """Return a paragraph as wide as a block."""
    lines = shortened(text, WIDTH_MM, most=most)
    return Part(len(lines) * STEP_MM + 2, lambda page, x, y: _drawn(page.lines(x, y + 1 + TEXT_MM, lines)))


def _drawn(_: float) -> None:
    """Drop the y that a drawing function returns."""
