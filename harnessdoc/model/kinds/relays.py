"""Relays with a coil, and relay boards with an electronic input.

Terminals of a relay are marked as on today's vehicle relays (ISO 7588 habit, from memory): 30 common, 87 make,
87a break, 85 and 86 coil. DIN 72552 itself calls the common 87, the break side 87a and the make side 87b."""

from __future__ import annotations

from typing import ClassVar, Literal

from harnessdoc.model.kinds.base import InnerPath, Kind, Nature, given, shown
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record

AT_REST, PULLED = "at rest", "pulled"
_MARKS = {"ISO 7588": ("30", "87a", "87"), "DIN 72552": ("87", "87a", "87b")}


@record(frozen=True)
class Coil:
    """A relay's coil. Give two of volts, amps, ohms at most."""

    volts: float | None = given("volts", Unit.VOLT)
    amps: float | None = given("amps", Unit.AMP)
    ohms: float | None = given("ohms", Unit.OHM)
    pulls_v: float | None = given("pulls at", Unit.VOLT)
    releases_v: float | None = given("releases at", Unit.VOLT)
    suppression: Literal["diode", "resistor", "none"] | None = given("suppression")


@record(frozen=True)
class Relay(Kind):
    """A coil that moves one contact."""

    name: ClassVar[str] = "relay"
    letter: ClassVar[str] = "K"

    coil: Coil | None = given("coil")
    rating_a: float | None = given("rating", Unit.AMP)
    contact: Literal["changeover", "make", "break"] = given("contact", default="changeover")
    marking: Literal["ISO 7588", "DIN 72552"] = given("marking", default="ISO 7588")

    def _contacts(self) -> tuple[InnerPath, ...]:
        common, breaks, makes = _MARKS[self.marking]
        both = (
            InnerPath(common, breaks, Nature.CONTACT, (AT_REST,)),
            InnerPath(common, makes, Nature.CONTACT, (PULLED,)),
        )
        return {"changeover": both, "break": both[:1], "make": both[1:]}[self.contact]

    def terminals(self) -> tuple[str, ...]:
        common, breaks, makes = _MARKS[self.marking]
        out = {"changeover": (makes, breaks), "make": (makes,), "break": (breaks,)}[self.contact]
        return (common, "85", "86", *out)

    def paths(self) -> tuple[InnerPath, ...]:
        return (InnerPath("85", "86", Nature.LOADED), *self._contacts())

    def marked(self) -> str:
        volts = self.coil.volts if self.coil else None
        return " ".join(filter(None, (shown(volts, Unit.VOLT), shown(self.rating_a, Unit.AMP))))


@record(frozen=True)
class Input:
    """An electronic input: it compares, it does not pull like a coil."""

    pulls_v: float | None = given("pulls at", Unit.VOLT)
    releases_v: float | None = given("releases at", Unit.VOLT)
    ohms: float | None = given("ohms", Unit.OHM)
    active: Literal["high", "low"] = given("active", default="high")


@record(frozen=True)
class ContactRating:
    """What a board's contact carries on its make and on its break side."""

    no_a: float | None = given("no", Unit.AMP)
    nc_a: float | None = given("nc", Unit.AMP)


@record(frozen=True)
class RelayBoard(Kind):
    """A small board: own supply, an input with thresholds, a changeover contact."""

    name: ClassVar[str] = "relay board"
    letter: ClassVar[str] = "K"

    supply_v: float | None = given("supply", Unit.VOLT)
    input: Input | None = given("input")
    rating: ContactRating | None = given("rating")

    def terminals(self) -> tuple[str, ...]:
        return ("+", "-", "IN", "COM", "NO", "NC")

    def paths(self) -> tuple[InnerPath, ...]:
        return (
            InnerPath("+", "-", Nature.LOADED),
            InnerPath("IN", "-", Nature.LOADED),
            InnerPath("COM", "NC", Nature.CONTACT, (AT_REST,)),
            InnerPath("COM", "NO", Nature.CONTACT, (PULLED,)),
        )

    def marked(self) -> str:
        return shown(self.supply_v, Unit.VOLT)
