"""What the search looks through: stubs, tails and splices alike, each with what can be asked of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import Harness, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size, format_area, format_length
from harnessdoc.model.record import record
from harnessdoc.registers.splices import SpliceEntry, splice_register
from harnessdoc.registers.stubs import StubEntry, Tail, now, stub_register, tails

Sort = Literal["stub", "tail", "splice"]


@record(frozen=True)
class Piece:
    """One thing that could serve. `point`: where electrics look, None if nobody knows; `was_at`: where it was cut.

    `area_mm2`: its copper, of a splice the room for one more wire; None if unknown. `capped` None: nobody knows, or
    it is no loose end; `loose` tells which. `words`: all that it is called, in lower case; `about`: a line of it."""

    sort: Sort
    name: str
    point: Point | None
    was_at: Point | None
    plug: str
    cavity: str
    place: str | None
    colours: tuple[Colour | None, ...]
    area_mm2: float | None
    size_text: str
    length_mm: float | None
    free: bool
    loose: bool
    capped: bool | None
    drive: str | None
    words: str
    about: str


def pieces(harness: Harness) -> Iterator[Piece]:
    """All of a harness: stubs first, by plug and cavity, then tails, then splices."""
    yield from (_stub(harness, entry) for entry in stub_register(harness))
    yield from (_tail(harness, tail) for tail in tails(harness))
    yield from (_splice(entry) for entry in splice_register(harness))


def _stub(harness: Harness, entry: StubEntry) -> Piece:
    stub = entry.stub
    drive = next((wire.drive for wire in entry.other_half if wire.drive and wire.drive != "unknown"), None)
    other = entry.other_half_text
    about = (
        ": ".join(filter(None, (entry.legend, stub.did or "what it did is unknown"))),
        f"other half: {other}" if other else "where its other half is nobody says",
        f"joined {entry.used_by_text}" if entry.used_by_text else "",
        stub.remarks,
    )
    return Piece(
        "stub", str(entry.point), entry.point, None, entry.point.owner, entry.point.terminal, entry.place,
        (stub.colour,), _area(stub.size), _size_text(stub.size), stub.length_mm, entry.use == "free",
        entry.stub.joined_at is None, stub.capped, drive,
        _words(entry.legend, stub.did, stub.remarks, stub.wire, *_names(entry.other_half), *entry.circuits),
        "; ".join(filter(None, about)),
    )  # fmt: skip


def _tail(harness: Harness, tail: Tail) -> Piece:
    wire = tail.wire
    circuit = harness.circuit(wire.circuit).title if wire.circuit else ""
    at = wire.was_at or Point("")
    stub = harness.stubs.get(at)
    plug = harness.plugs.get(at.owner)
    legend = plug.legend.get(at.terminal, "") if plug else ""
    did = f"did: {stub.did}" if stub and stub.did else ""
    about = (now(wire), f"was at {wire.was_at}" if wire.was_at else "", did, circuit, wire.remarks)
    return Piece(
        "tail", f"{wire.name}, its tail", tail.other.point, wire.was_at, at.owner, at.terminal, harness.place_of(at),
        (wire.colour,), _area(wire.size), _size_text(wire.size), wire.length_mm, True, True, tail.capped,
        None if wire.drive == "unknown" else wire.drive,
        _words(legend, stub.did if stub else "", wire.name, wire.circuit, circuit, wire.remarks),
        "; ".join(filter(None, about)),
    )  # fmt: skip


def _splice(entry: SpliceEntry) -> Piece:
    splice, room = entry.splice, entry.room_mm2
    joins = ", ".join((*_names(entry.wires), *(f"stub {stub.point}" for stub in entry.stubs)))
    how = ", ".join(filter(None, (splice.method, splice.barrel, splice.cover)))
    size = "room unknown" if room is None else f"room for {format_area(room)}" if room > 0 else "full"
    if entry.room_text and room != 0:
        size += f", {entry.room_text}"
    about = (f"{how or 'method unknown'}, joins {joins or 'nothing'}", entry.where, ", ".join(entry.circuits))
    return Piece(
        "splice", splice.name, Point(splice.name), None, "", "", splice.place,
        tuple(part.colour for part in entry.parts), room, size, None, room is None or room > 0, False,
        None, None, _words(how, splice.remarks, *_names(entry.wires), *entry.circuits),
        "; ".join(filter(None, (*about, splice.remarks))),
    )  # fmt: skip


def size_and_length(piece: Piece) -> str:
    """`4 mm², 60 mm`; of a splice the room it has."""
    if piece.sort == "splice":
        return piece.size_text
    return f"{piece.size_text}, {format_length(piece.length_mm) if piece.length_mm is not None else 'length unknown'}"


def _area(size: Size | None) -> float | None:
    return size.area_mm2 if size else None


def _size_text(size: Size | None) -> str:
    return size.written if size else "size unknown"


def _names(wires: tuple[Wire, ...]) -> tuple[str, ...]:
    return tuple(wire.name for wire in wires)


def _words(*texts: str | None) -> str:
    return " ".join(filter(None, texts)).casefold()
