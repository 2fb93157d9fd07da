"""What is known of each cavity of a plug, gathered in words for pin-out sheets. Draws nothing."""

from __future__ import annotations

from dataclasses import dataclass

from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Plug, Stub, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_length

LIVE, STUB, EMPTY, UNKNOWN = "not cut", "stub", "empty", "unknown"
CUT_UNTOLD = "cut, no stub listed"


@dataclass(frozen=True, slots=True)
class PinRow:
    """One thing in a cavity: its stub or one of its wires, or nothing that is known. "" where nothing is to be said.

    `contact`: what sits on the end in this cavity. `circuit`: whose record tells of it, None if nobody knows."""

    wire: str
    colour: Colour | None
    size: str
    function: str
    goes_to: str
    stub: str
    state: str
    contact: str = ""
    circuit: str | None = None


@dataclass(frozen=True, slots=True)
class Pin:
    """One cavity and what is in it. `state`: of the whole; `rows`: one a stub and a wire, one at least."""

    cavity: str
    state: str
    rows: tuple[PinRow, ...]

    @property
    def colours(self) -> tuple[Colour | None, ...]:
        """The colours to be drawn in it, None for one that nobody knows; none where it is empty."""
        return () if self.state == EMPTY else tuple(row.colour for row in self.rows)


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
    state = _state(plug, point, bool(landed), stub)
    legend = plug.legend.get(point.terminal, "")
    now_elsewhere = [wire for wire in moved.get(point, []) if point not in wire.points]
    rows = []
    if stub is not None:
        rows.append(_stub_row(harness, plug, legend, stub, now_elsewhere))
    for wire, end in landed:
        live = LIVE if stub is not None else state
        other = wire.b if end is wire.a else wire.a
        rows.append(_wire_row(harness, plug, legend, wire, end, other, live))
    if not rows:
        unknown = "" if state == EMPTY else UNKNOWN
        goes = "; ".join(_now(wire) for wire in now_elsewhere) or unknown
        rows.append(
            PinRow(unknown, None, unknown, legend or unknown, goes, "", state, "" if state == EMPTY else UNKNOWN)
        )
    return Pin(point.terminal, state, tuple(rows))


def _stub_row(harness: Harness, plug: Plug, legend: str, stub: Stub, now_elsewhere: list[Wire]) -> PinRow:
    goes: list[str] = []
    joined: tuple[Wire, ...] = ()
    if stub.joined_at is not None:
        joined = tuple(wire for wire, _ in harness.landings.get(stub.joined_at, ()))
        goes.append(": ".join(filter(None, (_landing(harness, stub.joined_at), _onward(stub.joined_at, joined)))))
    goes += [_now(wire) for wire in now_elsewhere if wire not in joined]
    circuits = [wire.circuit for wire in (*joined, *now_elsewhere, harness.wires.get(stub.wire or "")) if wire]
    return PinRow(
        stub.wire or UNKNOWN,
        stub.colour,
        stub.size.written if stub.size else UNKNOWN,
        ": ".join(filter(None, (legend, stub.did))) or UNKNOWN,
        "; ".join(goes),
        _stub_text(stub),
        STUB,
        _contact(plug, None),
        next(filter(None, circuits), None),
    )


def _wire_row(harness: Harness, plug: Plug, legend: str, wire: Wire, end: End, other: End, state: str) -> PinRow:
    circuit = (harness.circuit(wire.circuit).title or wire.circuit) if wire.circuit is not None else ""
    return PinRow(
        wire.name,
        wire.colour,
        wire.size.written if wire.size else UNKNOWN,
        ": ".join(filter(None, (legend, circuit))) or UNKNOWN,
        _far_end(harness, other),
        "",
        state,
        _contact(plug, end),
        wire.circuit,
    )


def _far_end(harness: Harness, end: End) -> str:
    """Where a wire goes, and what is on that end."""
    if end.tail or end.point is None:
        return "tail, not landed" if end.tail else end.text
    hardware = f" ({end.hardware.text})" if end.hardware else ""
    return _landing(harness, end.point) + hardware


def _landing(harness: Harness, point: Point) -> str:
    """A point; a splice with its method and its barrel."""
    splice = harness.splices.get(point.owner)
    how = " ".join(filter(None, (splice.method, splice.barrel))) if splice else ""
    return f"{point} ({how})" if how else str(point)


def _onward(joint: Point, wires: tuple[Wire, ...]) -> str:
    """Which wires go on from a joint, and where to."""
    return ", ".join(
        " to ".join((wire.name, *(end.text for end in wire.ends if end.point != joint)))  # a loop goes nowhere else
        for wire in wires
    )


def _contact(plug: Plug, end: End | None) -> str:
    """The hardware in the cavity; of a plug that states its contacts at least which sort it is."""
    found = end.hardware.text if end and end.hardware else (plug.contacts or UNKNOWN).removesuffix("s")
    return f"{found}, strip {format_length(end.strip_mm)}" if end and end.strip_mm is not None else found


def _now(wire: Wire) -> str:
    """Where a wire that was in the cavity runs now, a loose end last."""
    first, second = sorted((wire.a, wire.b), key=lambda end: end.point is None)
    return f"{wire.name} now {first.text} to {'a tail' if second.tail else second.text}"


def _state(plug: Plug, point: Point, wired: bool, stub: Stub | None) -> str:
    if stub is not None:
        return STUB
    if point.terminal in plug.empty:
        return EMPTY
    if point.terminal in plug.cut:
        return CUT_UNTOLD
    return LIVE if wired else UNKNOWN


def _stub_text(stub: Stub) -> str:
    length = format_length(stub.length_mm) if stub.length_mm is not None else "length ?"
    if stub.joined_at is not None:
        return f"{length}, joined at {stub.joined_at}"
    return f"{length}, " + {True: "capped", False: "NOT capped", None: "capped?"}[stub.capped]
