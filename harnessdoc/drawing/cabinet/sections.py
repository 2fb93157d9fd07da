"""The sections of a cabinet sheet as blocks in one height and width: isolation, fuses, relays, plugs, live when.

Turns facts into parts; places nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from harnessdoc.drawing.cabinet.facts import CavityFacts, Facts, FuseFacts, LiveFacts, PlugFacts, listed
from harnessdoc.drawing.cabinet.lettered import (
    HEIGHTS_MM,
    Lettered,
    Piece,
    body_mm,
    fuse_piece,
    larger,
    plain_fuse_piece,
)
from harnessdoc.drawing.face_picture import EMPTY_DASH, KEY_MM, STUB_GREY, Picture, outline_mm, smallest_pitch_mm
from harnessdoc.drawing.flow import Block, Part
from harnessdoc.sheet import lettering
from harnessdoc.sheet.page import WHITE, Page

EMERGENCY: Final = "Emergency: switch\N{NO-BREAK SPACE}off"
NO_ISOLATOR: Final = "Emergency: no\N{NO-BREAK SPACE}switch isolates this\N{NO-BREAK SPACE}machine"
_TALL_LINES: Final = 3
_MOST_FED: Final = 20
_CAVITY_EDGE_MM: Final = 0.6
_CAVITY_GAP_MM: Final = 0.7
_TALLEST_FACE_MM: Final = 90.0
_CAUTIONS: Final = (
    "Measure before you touch a wire: this is computed from what was described.",
    "Mains, gas, refrigerant, airbags and brakes are work for licensed trades.",
    "A blown fuse is replaced by one of the same rating and style, once the cause is found.",
)


def isolation_block(facts: Facts, kit: Lettered) -> Block:
    """What to switch off, in the largest text; where it is; what stays live even then."""
    middle = larger(kit.height_mm, 1)
    device, position, where = facts.switch_off()
    parts = []
    if device:
        turn = f"{device}: to {position}"
        parts.append(kit.words(turn, _largest(turn, kit, larger(kit.height_mm, 2)), True))
        parts.append(kit.words(f"Where: {where}", middle))
        parts += [kit.words(f"Then take the negative off {source}", kit.height_mm) for source in facts.sources()]
    else:
        sources = facts.sources() or ["the battery (none is described)"]
        off = [f"Take the negative off {source}." for source in sources]
        parts += [kit.words(text, _tall(text, kit), True) for text in off]
        parts += [kit.words(text) for text in (facts.falls_short(),) if text]
    parts += [kit.words(text) for text in (*facts.stays_live(), *_CAUTIONS)]
    head = EMERGENCY if device else NO_ISOLATOR
    return Block(kit.words(head, HEIGHTS_MM[0], True), kit.head(f"{head} (goes on)"), tuple(parts))


def _tall(text: str, kit: Lettered) -> float:
    """The largest height in which a text takes three lines at most and no word is cut."""
    for height in HEIGHTS_MM:
        words = max(lettering.text_width_mm(word, height, True) for word in text.split())
        if words <= kit.width_mm and len(lettering.wrap(text, kit.width_mm, height, True)) <= _TALL_LINES:
            return height
    return kit.height_mm


def _largest(text: str, kit: Lettered, most_mm: float) -> float:
    """The largest height in which a text stays on one line; the sheet's own where it never does."""
    for height in HEIGHTS_MM:
        if height <= most_mm and lettering.text_width_mm(text, height, True) <= kit.width_mm:
            return height
    return kit.height_mm


def fuse_block(facts: Facts, kit: Lettered) -> Block | None:
    """The fuses: drawn in their colour, the colour written, what each feeds; what spares to carry."""
    if not facts.fuses:
        return None
    picture = body_mm(kit.height_mm)[0] + kit.height_mm
    name = _column(kit, [fuse.name for fuse in facts.fuses], picture)
    marked = max(kit.width_of(_marked(fuse)) for fuse in facts.fuses) + kit.height_mm
    marked = min(marked, (kit.width_mm - picture - name) * 0.4)
    widths = (picture, name, marked, kit.width_mm - picture - name - marked)
    rows = [
        kit.row((_body(kit, fuse), Piece(fuse.name, bold=True), Piece(_marked(fuse)), Piece(_feeds(fuse))), widths)
        for fuse in facts.fuses
    ]
    said = [f"Spares: {'; '.join(facts.spares())}."] if facts.spares() else []
    if facts.no_colour():
        said.append(f"Drawn white: {facts.no_colour()}.")
    return kit.block(f"Fuses at {facts.place}", [*rows, *(kit.words(text) for text in said)])


def _body(kit: Lettered, fuse: FuseFacts) -> Piece:
    if fuse.colour:
        return fuse_piece(kit.height_mm, fuse.rating, fuse.colour.split(" or "))
    return plain_fuse_piece(kit.height_mm, fuse.rating)


def _marked(fuse: FuseFacts) -> str:
    what = " breaker" if fuse.breaker else ""
    known = f"{fuse.marked or 'rating not known'}{what}"
    return f"{known}, {fuse.colour}" if fuse.colour else known


def _feeds(fuse: FuseFacts) -> str:
    fed = listed(fuse.feeds, _MOST_FED, _MOST_FED - 4) or "not known"
    return f"{fuse.title}: {fed}" if fuse.title else fed


def relay_block(facts: Facts, kit: Lettered) -> Block | None:
    """The relays: figures, and what each contact serves."""
    if not facts.relays:
        return None
    name = _column(kit, [relay.name for relay in facts.relays], 0)
    rest = kit.width_mm - name
    widths = (name, rest * 0.38, rest * 0.62)
    rows = []
    for relay in facts.relays:
        about = ", ".join(filter(None, (relay.title, relay.marked)))
        contacts = "\n".join(relay.contacts) or "no contact is described"
        rows.append(kit.row((Piece(relay.name, bold=True), Piece(about), Piece(contacts)), widths))
    return kit.block(f"Relays at {facts.place}", rows)


def _column(kit: Lettered, names: Sequence[str], used: float) -> float:
    """A column for names: as wide as the longest, but a third of what is left at most."""
    widest = max(kit.width_of(name, True) for name in names) + 1.2 * kit.height_mm
    return min(widest, (kit.width_mm - used) / 3)


def plug_blocks(facts: Facts, kit: Lettered) -> Iterator[Block]:
    """Each plug: its face small, and what each cavity serves."""
    for plug in facts.plugs:
        title = f"{plug.plug.name} {plug.plug.title}".strip()
        yield kit.block(f"{title}, seen from the {plug.plug.view.value}", [*_face(plug, kit), *_cavities(plug, kit)])


def _face(plug: PlugFacts, kit: Lettered) -> Iterator[Part]:
    """The face, just large enough for its numbers, where it fits."""
    tall = min(kit.height_mm, 3.5)
    widest = max(lettering.text_width_mm(one.name, tall) for one in plug.cavities)
    across = max(widest, tall) + 2 * _CAVITY_EDGE_MM
    factor = (across + _CAVITY_GAP_MM) / smallest_pitch_mm(plug.plug.face)
    picture = Picture(plug.plug.face, plug.plug.view, factor)
    out = 2 * KEY_MM
    width, height = (side * factor + 2 * out for side in outline_mm(plug.plug.face))
    if width > kit.width_mm or height > _TALLEST_FACE_MM:
        yield kit.words("Its face is on its own pin-out sheet.")
        return
    by_name = {one.name: one for one in plug.cavities}

    def cavity(page: Page, name: str, shape: str, x: float, y: float) -> None:
        _draw_cavity(page, by_name[name], shape, x, y, across / 2, tall)

    yield Part(
        height + 2.0,
        lambda page, x, y: picture.draw(page, x + kit.width_mm / 2, y + 1.0 + height / 2, cavity),
        glued=True,
    )


def _draw_cavity(page: Page, one: CavityFacts, shape: str, x: float, y: float, half: float, tall: float) -> None:
    """Its number; grey where a stub is left in it, dashed where it is empty, as on the pin-out sheets."""
    fill, dash = (STUB_GREY if one.stub else WHITE), (EMPTY_DASH if one.empty else ())
    if shape == "round":
        page.circle(x, y, half, fill=fill, stroke_mm=0.25, dash=dash)
    else:
        page.rect(x - half, y - half, 2 * half, 2 * half, radius=0.6, fill=fill, stroke_mm=0.25, dash=dash)
    page.text(x, y + tall / 2, one.name, tall, anchor="middle")


def _cavities(plug: PlugFacts, kit: Lettered) -> Iterator[Part]:
    """Cavities and what they serve, as many beside each other as the widest allows."""
    name = max(kit.width_of(one.name, True) for one in plug.cavities) + 1.2 * kit.height_mm
    name = min(name, kit.width_mm / 3)
    widest = name + max(kit.width_of(one.text) for one in plug.cavities) + 1.5 * kit.height_mm
    count = max(1, int(kit.width_mm // min(widest, kit.width_mm)))
    each = kit.width_mm / count
    for start in range(0, len(plug.cavities), count):
        row = plug.cavities[start : start + count]
        pieces = [piece for one in row for piece in (Piece(one.name, bold=True), Piece(one.text))]
        pieces += [Piece()] * (2 * count - len(pieces))
        yield kit.row(pieces, [name, each - name] * count)


def live_block(facts: Facts, kit: Lettered) -> Block | None:
    """What is live when, circuit by circuit."""
    if not facts.live:
        return None
    rows: list[Part] = []
    names = [f"{one.name} {one.title}".strip() for found in facts.live.values() for one in found]
    first = min(max(map(kit.width_of, names)) + 1.2 * kit.height_mm, kit.width_mm * 0.45)
    widths = (first, kit.width_mm - first)
    for found in facts.live.values():
        rows += [kit.row((Piece(f"{one.name} {one.title}".strip()), Piece(_whens(one))), widths) for one in found]
    return kit.block("Live when", rows)


def _whens(one: LiveFacts) -> str:
    return "\nor ".join(one.whens)
