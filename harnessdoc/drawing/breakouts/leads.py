"""What is written along a wire where it leaves the bundle: a lead, in words, one for each end. Draws nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.stations import EndRow, Station
from harnessdoc.electrics.network import Network
from harnessdoc.model.colours import Colour
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.harness import Harness, Stub, Wire
from harnessdoc.model.keys import record_address
from harnessdoc.model.quantities import format_length
from harnessdoc.routing import Routing

UNKNOWN: Final = "?"
TOGETHER: Final = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True)
class Lead:
    """One end of a wire or stub. `spot`: the label of the place of the other end, "" where it is the same or unknown.

    `hardware` None: nobody knows it, or there is none to be drawn. `name`, `title`, `desc`, `link`, `potential`: of
    the group that is drawn."""

    number: str
    colour: Colour | None
    size: str
    length: str
    goes: str
    spot: str
    hardware: Hardware | None
    fitting: str
    name: str
    title: str
    desc: str = ""
    link: str = ""
    potential: int | None = None


class Leads:
    """Makes the leads of one harness."""

    def __init__(
        self, harness: Harness, routing: Routing, stations: Sequence[Station], network: Network | None
    ) -> None:
        """Keep what the words come from; without a network no potential is noted."""
        self._harness, self._routing, self._stations, self._network = harness, routing, stations, network
        self._links: dict[str, str] = {}

    def of_row(self, row: EndRow, at: int | None) -> Lead:
        """The lead of a wire's end at the station with that number (None: nobody knows where it is)."""
        wire, code = row.wire, row.wire.colour.code if row.wire.colour else "colour unknown"
        size = wire.size.written if wire.size else UNKNOWN
        length = length_text(self._routing, wire)
        there = row.there_station
        spot = self._stations[there - 1].label if there is not None and there != at else ""
        circuit = self._harness.circuit(wire.circuit).title or wire.circuit if wire.circuit is not None else ""
        return Lead(
            wire.name,
            wire.colour,
            size,
            length,
            f"to{TOGETHER}{row.there.text}",
            spot,
            row.here.hardware,
            row.here.hardware.text if row.here.hardware else UNKNOWN,
            f"wire-{wire.name}",
            f"{wire.name} {code} {size} {row.here.text} - {row.there.text}",
            ", ".join(filter(None, (f"length {length}", f"circuit {circuit}" if circuit else ""))),
            self._link(wire.circuit),
            self._network.of_wire(wire) if self._network else None,
        )

    def of_stub(self, stub: Stub) -> Lead:
        """The lead of a stub at the splice where it is joined on."""
        code = stub.colour.code if stub.colour else "colour unknown"
        size = stub.size.written if stub.size else UNKNOWN
        length = format_length(stub.length_mm) if stub.length_mm is not None else UNKNOWN
        where = str(stub.point)
        potential = self._network.potential.get(stub.point) if self._network else None
        title = f"stub {code} {size} {where}"
        words = stub.did or ""
        return Lead(
            "stub",
            stub.colour,
            size,
            length,
            f"to{TOGETHER}{where}",
            "",
            None,
            "",
            f"stub-{where}",
            title,
            words,
            "",
            potential,
        )

    def _link(self, circuit: str | None) -> str:
        if circuit is None or not self._harness.title.records:
            return ""
        if circuit not in self._links:
            self._links[circuit] = record_address(self._harness, circuit) or ""
        return self._links[circuit]


def length_text(routing: Routing, wire: Wire) -> str:
    """Return a wire's length as printed: stated, by the runs with a ~ before it, or ? for unknown."""
    route = routing.routes[wire.name]
    if route.length_mm is None:
        return UNKNOWN
    return ("~" if route.origin == "by runs" else "") + format_length(route.length_mm)
