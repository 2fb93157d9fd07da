"""Blocks of items' parts: which symbol, which pins, what is written over them. Places nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from harnessdoc.drawing.strips.graph import PITCH, Block, Pin
from harnessdoc.drawing.strips.homes import Part
from harnessdoc.model.kinds.base import InnerPath, Nature
from harnessdoc.model.kinds.loads import Diode, Lamp, Load, Motor, Resistor
from harnessdoc.model.kinds.protection import Breaker, Fuse
from harnessdoc.model.kinds.relays import AT_REST
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point

_MOST_THROWS: Final = 6
_TWO: Final = (
    (Breaker, "breaker"),
    (Fuse, "fuse"),
    (Motor, "motor"),
    (Lamp, "lamp"),
    (Resistor, "resistor"),
    (Load, "load"),
    (Diode, "diode"),
)


def block_of(part: Part, points: Sequence[Point], index: int, count: int) -> Block:
    """The block of a part with the given points; `index` of `count` pieces."""
    item = part.item
    pins = [Pin(point.terminal, point) for point in points]
    head = " ".join(filter(None, (item.name, item.kind.marked())))
    lines = [f"{item.name} ({index + 1} of {count})" if count > 1 else head, item.title]
    match part.shape:
        case "two":
            symbol = next((name for kind, name in _TWO if isinstance(item.kind, kind)), "load")
            return Block("two", symbol, item.name, pins, lines)
        case "coil":
            return Block("two", "coil", item.name, pins, lines)
        case "pole":
            sign = part.terminals[0]
            lines = lines if sign == "+" else [f"{item.name}:{sign}", item.title]
            return Block("joint", f"pole {sign}", item.name, pins, lines)
        case "bar":
            for row, pin in enumerate(pins):
                pin.row = PITCH * row
            if len(part.terminals) == 1 or len(pins) == 1:
                return Block("joint", "way", item.name, pins, [str(points[0]), item.title])
            return Block("bar", "bar", item.name, pins, lines)
        case _:
            return Block("box", item.kind.name, item.name, pins, lines)


def contact_blocks(part: Part, used: set[str]) -> list[Block]:
    """The contacts of a part that wires land on; a contact in the middle of others as a box that lists them."""
    paths = [p for p in part.item.kind.paths() if p.nature is Nature.CONTACT and p.a in part.terminals]
    chosen = [path for path in paths if path.a in used and path.b in used]
    for terminal in part.terminals:
        touching = [path for path in paths if terminal in (path.a, path.b)]
        if terminal in used and not any(terminal in (path.a, path.b) for path in chosen):
            chosen += touching[:1]
    chosen = chosen or paths[:1]
    item = part.item
    head = " ".join(filter(None, (item.name, item.kind.marked())))
    if len(chosen) == 1:
        path = chosen[0]
        symbol = "break" if _closed_at_rest(part, path) else "make"
        pins = [Pin(t, Point(item.name, t)) for t in (path.a, path.b)]
        return [Block("two", symbol, item.name, pins, [head, item.title, _closed_when(part, chosen)])]
    common = set.intersection(*({path.a, path.b} for path in chosen))
    resting = sum(_closed_at_rest(part, path) for path in chosen)
    if len(common) != 1 or len(chosen) > _MOST_THROWS or resting > 1:
        terminals = list(dict.fromkeys(t for path in chosen for t in (path.a, path.b)))
        told = [f"{path.a}-{path.b}: {' or '.join(path.closed) or 'never'}" for path in chosen]
        pins = [Pin(t, Point(item.name, t)) for t in terminals]
        return [Block("box", "contacts", item.name, pins, [head, item.title, "; ".join(told)])]
    middle = common.pop()
    throws = sorted(chosen, key=lambda path: not _closed_at_rest(part, path))
    pins = [Pin(middle, Point(item.name, middle))]
    for row, path in enumerate(throws):
        terminal = path.b if path.a == middle else path.a
        pins.append(Pin(terminal, Point(item.name, terminal), row=PITCH * row))
    symbol = "change" if len(throws) == 2 and resting else "rotary"
    return [Block("change", symbol, item.name, pins, [head, item.title, _closed_when(part, throws)])]


def _closed_at_rest(part: Part, path: InnerPath) -> bool:
    rest = part.item.kind.rest if isinstance(part.item.kind, Switch) else AT_REST
    return rest in path.closed


def _closed_when(part: Part, paths: Sequence[InnerPath]) -> str:
    """In which positions a switch's contacts are closed, where a plain "on" does not tell it."""
    if not isinstance(part.item.kind, Switch):
        return ""
    if len(paths) == 1:
        words = " or ".join(paths[0].closed) or "never"
        return "" if words == "on" else f"closed: {words}"
    return "; ".join(f"{path.a}-{path.b} {' or '.join(path.closed) or 'never'}" for path in paths)
