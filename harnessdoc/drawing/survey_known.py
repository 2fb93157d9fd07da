"""What is known of each cavity before anyone measures, in the words of a survey sheet; "" for what is to be found out.

Draws nothing. A reading that was taken once a cavity was cut tells nothing of what was in it, and is left out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from harnessdoc.drawing.pins import CUT_UNTOLD, EMPTY, STUB, UNKNOWN, Pin, pins
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import Harness, Plug, Reading
from harnessdoc.model.kinds.sources import Source
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import format_length
from harnessdoc.model.sorting import natural

_SIDES = {"high side": "+ (drives high side)", "low side": "– (drives low side)"}


@dataclass(frozen=True, slots=True)
class Known:
    """One cavity. `wire`: names, or that it is empty or cut; `drives`, `does`, `stub`: as known, else ""."""

    cavity: str
    wire: str
    legend: str
    colours: tuple[Colour, ...]
    size: str
    off_v: str
    on_v: str
    ground_ohm: str
    supply_ohm: str
    does: str
    drives: str
    stub: str
    empty: bool


def known_of(harness: Harness, plug: Plug) -> tuple[Known, ...]:
    """Return what is known of a plug's cavities, in the order in which its labels are printed."""
    found = {pin.cavity: pin for pin in pins(harness, plug)}
    return tuple(_known(harness, plug, found[name]) for name in sorted(plug.terminals, key=natural))


def _known(harness: Harness, plug: Plug, pin: Pin) -> Known:
    point = Point(plug.name, pin.cavity)
    stub = harness.stubs.get(point)
    read = _Read(harness, plug, point)
    length = stub.length_mm if stub is not None else None
    return Known(
        pin.cavity,
        _wire(pin),
        plug.legend.get(pin.cavity, ""),
        tuple(colour for colour in pin.colours if colour is not None),
        _joined(row.size for row in pin.rows),
        _joined(read.volts(on=False)),
        _joined(read.volts(on=True)),
        _joined(read.ohms(supply=False)),
        _joined(read.ohms(supply=True)),
        _joined(_does(harness, point, pin)),
        _joined(_SIDES.get(wire.drive or "", "") for wire, _ in harness.landings.get(point, ())),
        format_length(length) if length is not None else "",
        pin.state == EMPTY,
    )


def _wire(pin: Pin) -> str:
    if pin.state == EMPTY:
        return "empty"
    names = _joined(row.wire for row in pin.rows)
    return _joined((names, "cut")) if pin.state in (STUB, CUT_UNTOLD) else names


def _does(harness: Harness, point: Point, pin: Pin) -> Iterator[str]:
    stub = harness.stubs.get(point)
    if stub is not None and stub.did:
        yield stub.did
    for row in pin.rows:
        if row.circuit is not None:
            yield harness.circuit(row.circuit).title or row.circuit


def _joined(texts: Iterator[str] | tuple[str, ...]) -> str:
    return ", ".join(dict.fromkeys(text for text in texts if text not in ("", UNKNOWN)))


class _Read:
    """What the meter said at one cavity before it was cut."""

    def __init__(self, harness: Harness, plug: Plug, point: Point) -> None:
        self.harness = harness
        cut = plug.cut.get(point.terminal, "")
        self.found = [
            (reading, other)
            for reading in harness.readings
            if point in reading.between and not (cut and reading.on and reading.on >= cut)
            for other in reading.between
            if other != point
        ]

    def volts(self, on: bool) -> Iterator[str]:
        """Volts against the chassis, with all that is named at rest (key off) or not."""
        for reading, other in self.found:
            if reading.volts is not None and self._ground(other) and self._on(reading) == on:
                loaded = f" ({reading.loaded_with})" if reading.loaded_with else ""
                yield f"{reading.volts:g} V{loaded}"

    def ohms(self, supply: bool) -> Iterator[str]:
        """Ohms to the chassis, or to a source's plus."""
        for reading, other in self.found:
            if not (self._supply(other) if supply else self._ground(other)):
                continue
            if reading.ohms is not None:
                yield f"{reading.ohms:g} Ω"
            elif reading.continuity is not None:
                yield "joined" if reading.continuity else "open"

    def _on(self, reading: Reading) -> bool:
        items = self.harness.items
        kinds = {name: items[name].kind for name in reading.when if name in items}
        return any(
            position != (kind.rest if isinstance(kind := kinds.get(name), Switch) else "off")
            for name, position in reading.when.items()
        )

    def _ground(self, point: Point) -> bool:
        item = self.harness.items.get(point.owner)
        return point == CHASSIS or (item is not None and point.terminal in item.kind.on_chassis())

    def _supply(self, point: Point) -> bool:
        item = self.harness.items.get(point.owner)
        return item is not None and isinstance(item.kind, Source) and point.terminal == "+"
