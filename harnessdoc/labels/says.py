"""What each label says, in working order: both ends of each wire, each stub, joint, plug, item, and end of a run.

Fields are in the order in which they are wanted: where room is short the last go first. Knows no paper and no printer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from harnessdoc.labels.label import Field, Label, Role
from harnessdoc.labels.misread import is_padded, misread
from harnessdoc.labels.order import in_order
from harnessdoc.labels.payloads import NO_CIRCUIT, Payloads
from harnessdoc.labels.things import thing_labels
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Stub, Wire
from harnessdoc.model.quantities import Size
from harnessdoc.routing import Routing
from harnessdoc.sheet.lettering import clean

__all__ = ["LOOM_SIDE", "NO_CIRCUIT", "PLUG_SIDE", "Label", "Role", "labels", "loom_side_end", "wire_labels"]

UNKNOWN: Final = "unknown"
PLUG_SIDE: Final = "plug side"
LOOM_SIDE: Final = "loom side"


def labels(harness: Harness, routing: Routing | None = None) -> tuple[Label, ...]:
    """Return every label of a harness, in working order. `routing`: of the same harness, worked out here if None."""
    payloads = Payloads(harness)
    return _finished(harness, (*_of_wires(harness, payloads), *thing_labels(harness, payloads, routing)))


def wire_labels(harness: Harness) -> tuple[Label, ...]:
    """Return the labels of wires' ends and stubs alone, in working order."""
    return _finished(harness, _of_wires(harness, Payloads(harness)))


def loom_side_end(harness: Harness, wire: Wire) -> End | None:
    """Return the end of a wire that was in the cavity it `was at`: its tail, or where that has landed since.

    None for a wire that was never cut, and where both ends or none are joined to something new: then nobody tells.
    """
    if wire.was_at is None:
        return None
    if tails := [end for end in wire.ends if end.tail]:
        return tails[0]
    new = [end for end in wire.ends if end.point is not None and _is_new(harness, end)]
    return new[0] if len(new) == 1 else None


def _is_new(harness: Harness, end: End) -> bool:
    """Whether what an end lands on came after the cut: a joint, or an item that was not there before."""
    if end.point is None:
        return False
    item = harness.items.get(end.point.owner)
    return end.point.owner in harness.splices or (item is not None and not item.existing)


def _finished(harness: Harness, made: Iterable[Label]) -> tuple[Label, ...]:
    """As drawn: without what can't be printed, barred where a number could be misread, in order."""
    padded = any(is_padded(name) for name in (*harness.wires, *harness.items, *harness.plugs))
    drawn = (
        replace(
            one,
            subject=clean(one.subject),
            number=clean(one.number),
            fields=_said(one.fields),
            bar=misread(one.number, padded),
        )
        for one in made
    )
    return in_order(harness, drawn)


def _said(fields: Iterable[Field]) -> tuple[Field, ...]:
    """The fields as they are drawn; those with nothing to say are dropped."""
    drawn = (Field(clean(one.full), clean(one.tight), clean(one.less), one.vital, one.weight) for one in fields)
    return tuple(one for one in drawn if one.full)


def _of_wires(harness: Harness, payloads: Payloads) -> Iterator[Label]:
    yield from _wire_ends(harness, payloads)
    yield from _stubs(harness, payloads)


def _wire_ends(harness: Harness, payloads: Payloads) -> Iterator[Label]:
    for wire in harness.wires.values():
        payload, why_not, key = payloads.of(wire.circuit)
        title, looks, cut = payloads.title(wire.circuit), _looks(wire.colour, wire.size), loom_side_end(harness, wire)
        for here, far in ((wire.a, wire.b), (wire.b, wire.a)):
            # where nobody tells which end was cut, the first is worked at the cavity, but no side is claimed
            at = wire.was_at if here is (cut or wire.a) and wire.was_at is not None else here.point
            side = LOOM_SIDE if here is cut or here.tail else ""
            fields = (_here(here, wire), Field(f"→ {far.text}", vital=True), looks, _side(here, wire, side))
            yield Label(
                Role.WIRE_END,
                f"{wire.name} at {here.text}",
                wire.name,
                (*fields, Field(title)),
                payload,
                why_not,
                key,
                point=here.point,
                at=at,
                place=harness.place_of(at if here.tail else here.point),
                wire=wire.name,
                side=side,
                circuits=(wire.circuit,) if wire.circuit else (),
            )


def _stubs(harness: Harness, payloads: Payloads) -> Iterator[Label]:
    for point, stub in harness.stubs.items():
        wire = harness.wires.get(stub.wire) if stub.wire else None
        circuit = wire.circuit if wire else None
        payload, why_not, key = payloads.of(circuit)
        yield Label(
            Role.STUB,
            f"stub {point}",
            str(point),
            _stub_fields(stub, payloads.title(circuit)),
            payload,
            why_not,
            key,
            point=point,
            at=point,
            place=harness.place_of(point),
            wire=stub.wire or "",
            side=PLUG_SIDE,
            circuits=(circuit,) if circuit else (),
        )


def _stub_fields(stub: Stub, title: str) -> tuple[Field, ...]:
    """Side and old wire; what it is now joined to; colour and size; what it did, else its circuit."""
    side = f"{PLUG_SIDE}, {stub.wire}" if stub.wire else PLUG_SIDE
    joined = f"→ {stub.joined_at}" if stub.joined_at else ""
    did = stub.did if stub.did is not None else f"did: {UNKNOWN}"
    return (
        Field(side, less=PLUG_SIDE),
        Field(joined, vital=True),
        _looks(stub.colour, stub.size),
        Field(did),
        Field(title if stub.did is None else ""),
    )


def _here(end: End, wire: Wire) -> Field:
    """This end's point; for a tail, which side of which cut it is."""
    if not end.tail:
        return Field(end.text, vital=True)
    if wire.was_at is None:
        return Field(f"{LOOM_SIDE}, tail", LOOM_SIDE, vital=True)
    return Field(f"{LOOM_SIDE} {wire.was_at}", f"loom {wire.was_at}", vital=True)


def _side(end: End, wire: Wire, side: str) -> Field:
    """Which cut the end of a wire comes from that has landed since."""
    return Field(f"{side} {wire.was_at}", f"loom {wire.was_at}") if side and not end.tail else Field("")


def _looks(colour: Colour | None, size: Size | None) -> Field:
    """`RD/BK 2.5 mm²`, with a question for what nobody has found out. Never half a size: then the colour alone."""
    code = colour.code if colour else "colour?"
    written = size.written if size else "size?"
    return Field(f"{code} {written}", f"{code} {written.replace(' ', '')}", code, weight=2)
