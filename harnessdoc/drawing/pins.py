"""What is known of each cavity of a plug, gathered in words for pin-out sheets. Draws nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Plug, Stub, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_length

LIVE, STUB, EMPTY, UNKNOWN = "live wire", "stub", "empty", "unknown"
CUT_UNTOLD = "cut, no stub described"


@dataclass(frozen=True, slots=True)
class Pin:
    """One cavity. `colours`: of its wires, or of its stub (None: unknown); empty where nothing is in it."""

    cavity: str
    state: str
    wires: tuple[str, ...]
    colours: tuple[Colour | None, ...]
    sizes: tuple[str, ...]
    function: str
    goes_to: tuple[str, ...]
    stub: str


def pins(harness: Harness, plug: Plug) -> tuple[Pin, ...]:
    """Return all cavities of a plug in the order of its face."""
    moved: dict[Point, list[Wire]] = {}
    for wire in harness.wires.values():
        if wire.was_at is not None:
            moved.setdefault(wire.was_at, []).append(wire)
    return tuple(_pin(harness, plug, Point(plug.name, cavity), moved) for cavity in plug.terminals)


def _pin(harness: Harness, plug: Plug, point: Point, moved: dict[Point, list[Wire]]) -> Pin:
    landed = harness.landings.get(point, ())
    stub = harness.stubs.get(point)
    wires = [wire for wire, _ in landed]
    if stub is not None:
        colours: tuple[Colour | None, ...] = (stub.colour,)
        sizes: tuple[str, ...] = (stub.size.written if stub.size else UNKNOWN,)
        names: tuple[str, ...] = (stub.wire,) if stub.wire else ()
    else:
        colours = tuple(wire.colour for wire in wires)
        sizes = tuple(wire.size.written if wire.size else UNKNOWN for wire in wires)
        names = tuple(wire.name for wire in wires)
    if stub is not None and wires:  # both: a wire lands on the cavity again
        names = tuple(dict.fromkeys((*names, *(wire.name for wire in wires))))
        colours += tuple(wire.colour for wire in wires)
        sizes += tuple(wire.size.written if wire.size else UNKNOWN for wire in wires)
    return Pin(
        point.terminal,
        _state(plug, point, bool(wires), stub),
        names,
        colours,
        sizes,
        _function(harness, plug, point, wires, stub),
        tuple(_goes_to(harness, point, landed, stub, moved.get(point, []))),
        _stub_text(stub),
    )


def _state(plug: Plug, point: Point, wired: bool, stub: Stub | None) -> str:
    cut = point.terminal in plug.cut or "whole" in plug.cut
    if stub is not None:
        return STUB
    if point.terminal in plug.empty:
        return EMPTY
    if cut:
        return CUT_UNTOLD
    return LIVE if wired else UNKNOWN


def _function(harness: Harness, plug: Plug, point: Point, wires: list[Wire], stub: Stub | None) -> str:
    """The plug's own legend, else what the stub did, else the circuits of the wires."""
    said = plug.legend.get(point.terminal) or (stub.did if stub else "")
    if said:
        return said
    titles = [harness.circuit(wire.circuit).title or wire.circuit for wire in wires if wire.circuit is not None]
    return ", ".join(dict.fromkeys(titles))


def _goes_to(
    harness: Harness,
    point: Point,
    landed: tuple[tuple[Wire, End], ...],
    stub: Stub | None,
    moved: list[Wire],
) -> Iterator[str]:
    if stub is not None and stub.joined_at is not None:
        on = [wire.name for wire, _ in harness.landings.get(stub.joined_at, ())]
        yield f"{stub.joined_at}: {', '.join(on)}" if on else str(stub.joined_at)
    for wire, end in landed:
        other = wire.b if end is wire.a else wire.a
        yield "tail, not landed" if other.tail else other.text
    for wire in moved:
        if point not in wire.points:
            yield f"{wire.name} was here, now {wire.a.text} – {wire.b.text}"


def _stub_text(stub: Stub | None) -> str:
    if stub is None:
        return ""
    length = format_length(stub.length_mm) if stub.length_mm is not None else "length ?"
    if stub.joined_at is not None:
        return f"{length}, joined at {stub.joined_at}"
    return f"{length}, " + {True: "capped", False: "NOT capped", None: "capped?"}[stub.capped]
