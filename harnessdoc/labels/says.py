"""What each label says, and in which order labels are worked off: one for each end of each wire, one for each stub.

Order: first what sits in plugs, by plug and cavity (wire ends, stubs, and tails by the cavity that they were cut
from), as it is worked before the cut; then the other ends by place, item and terminal; ends that nobody knows come
last. Numbers within names count as numbers (X4:2 before X4:10). Knows no paper and no printer.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum
from typing import Final

from harnessdoc.labels.arrange import Field
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Stub, Wire
from harnessdoc.model.keys import record_address, record_line
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.sheet.lettering import clean

UNKNOWN: Final = "unknown"
NO_CIRCUIT: Final = "on no circuit, so there is no record to point at"
_DIGITS: Final = re.compile(r"([0-9]+)")

Natural = tuple[tuple[int, int, str], ...]
OrderKey = tuple[int, Natural, Natural, Natural, int]


class Role(Enum):
    """What a label is tied to."""

    WIRE_END = "wire end"
    STUB = "stub"


@dataclass(frozen=True, slots=True)
class Label:
    """The words of one label, most wanted first: `number`, then `fields`; `payload`: what its QR holds, if any.

    `subject` names the label in lists. `no_payload`: why there is none, "" if there is one.
    """

    role: Role
    subject: str
    number: str
    fields: tuple[Field, ...]
    payload: str | None = None
    no_payload: str = ""


def labels(harness: Harness) -> tuple[Label, ...]:
    """Return every label of a harness, in working order: both ends of every wire and every stub."""
    payloads = _Payloads(harness)
    keyed = [*_wire_labels(harness, payloads), *_stub_labels(harness, payloads)]
    return tuple(label for _, label in sorted(keyed, key=lambda pair: pair[0]))


class _Payloads:
    """What the QR of a circuit holds; worked out once for each, so that the order of the file can't matter."""

    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        self.known: dict[str, str] = {}

    def of(self, circuit: str | None) -> tuple[str | None, str]:
        """(payload, "") or (None, why not)."""
        if circuit is None:
            return None, NO_CIRCUIT
        if circuit not in self.known:
            address = record_address(self.harness, circuit)
            self.known[circuit] = record_line(self.harness, circuit) if address is None else address
        return self.known[circuit], ""

    def title(self, circuit: str | None) -> str:
        """The words of the circuit, its name where it has no title."""
        return "" if circuit is None else self.harness.circuit(circuit).title or circuit


def _wire_labels(harness: Harness, payloads: _Payloads) -> Iterator[tuple[OrderKey, Label]]:
    for wire in harness.wires.values():
        payload, why_not = payloads.of(wire.circuit)
        title, looks = payloads.title(wire.circuit), _looks(wire.colour, wire.size)
        for index, (here, far) in enumerate(((wire.a, wire.b), (wire.b, wire.a))):
            fields = (_here(here, wire), Field(f"→ {far.text}", vital=True), looks, Field(title))
            subject = f"{wire.name} at {here.text}"
            label = Label(Role.WIRE_END, clean(subject), clean(wire.name), _said(fields), payload, why_not)
            at = wire.was_at if here.tail and wire.was_at is not None else here.point
            yield _order(harness, at, wire.name, index), label


def _stub_labels(harness: Harness, payloads: _Payloads) -> Iterator[tuple[OrderKey, Label]]:
    for point, stub in harness.stubs.items():
        wire = harness.wires.get(stub.wire) if stub.wire else None
        circuit = wire.circuit if wire else None
        payload, why_not = payloads.of(circuit)
        fields = _stub_fields(stub, payloads.title(circuit))
        name = clean(str(point))
        label = Label(Role.STUB, f"stub {name}", name, _said(fields), payload, why_not)
        yield _order(harness, point, "", 2), label


def _stub_fields(stub: Stub, title: str) -> tuple[Field, ...]:
    """Side and old wire; what it is now joined to; colour and size; what it did, else its circuit."""
    side = f"plug side, {stub.wire}" if stub.wire else "plug side"
    joined = f"→ {stub.joined_at}" if stub.joined_at else ""
    did = stub.did if stub.did is not None else f"did: {UNKNOWN}"
    return (
        Field(side, less="plug side"),
        Field(joined, vital=True),
        _looks(stub.colour, stub.size),
        Field(did),
        Field(title if stub.did is None else ""),
    )


def _said(fields: Iterable[Field]) -> tuple[Field, ...]:
    """The fields as they are drawn; those with nothing to say are dropped."""
    drawn = (replace(one, full=clean(one.full), tight=clean(one.tight), less=clean(one.less)) for one in fields)
    return tuple(one for one in drawn if one.full)


def _here(end: End, wire: Wire) -> Field:
    """This end's point; for a tail, which side of which cut it is."""
    if not end.tail:
        return Field(end.text, vital=True)
    if wire.was_at is None:
        return Field("loom side, tail", "loom side", vital=True)
    return Field(f"loom side {wire.was_at}", f"loom {wire.was_at}", vital=True)


def _looks(colour: Colour | None, size: Size | None) -> Field:
    """`RD/BK 2.5 mm²`, with a question for what nobody has found out. Never half a size: then the colour alone."""
    code = colour.code if colour else "colour?"
    written = size.written if size else "size?"
    return Field(f"{code} {written}", f"{code} {written.replace(' ', '')}", code, weight=2)


def natural(text: str) -> Natural:
    """Return a key that sorts names as people count: X4:2 before X4:10, letters without case first."""
    pieces = _DIGITS.split(text)
    return (
        *((1, int(piece[:18]), piece) if index % 2 else (0, 0, piece.casefold()) for index, piece in enumerate(pieces)),
        (2, 0, text),
    )


def _order(harness: Harness, at: Point | None, wire: str, index: int) -> OrderKey:
    """Plug ends and stubs first, then by place, item and terminal, what is unknown last."""
    if at is None:
        return 2, natural(wire), (), (), index
    if at.owner in harness.plugs:
        return 0, natural(at.owner), natural(at.terminal), natural(wire), index
    place = harness.place_of(at)
    placed = ((0, 0, ""), *natural(place)) if place else ((9, 0, ""),)
    return 1, placed, (*natural(at.owner), *natural(at.terminal)), natural(wire), index
